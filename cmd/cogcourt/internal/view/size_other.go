//go:build !(linux || darwin || freebsd || netbsd || dragonfly)

package view

import "os"

// SizeOf asks nothing here: nobody says how much a terminal shows without a package
// for each system. A long report then has its verdict at its head alone.
func SizeOf(*os.File) Size { return Size{} }
