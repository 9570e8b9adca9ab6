package main

import "io/fs"

func asFS(f fs.FS) []fs.FS { return []fs.FS{f} }
