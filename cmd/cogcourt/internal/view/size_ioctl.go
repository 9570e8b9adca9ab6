//go:build linux || darwin || freebsd || netbsd || dragonfly

package view

import (
	"os"
	"syscall"
	"unsafe"
)

// SizeOf asks a terminal how much it shows. Variables of the environment are no
// source: they are as old as the shell.
func SizeOf(f *os.File) Size {
	raw, err := f.SyscallConn()
	if err != nil {
		return Size{}
	}
	var answer struct{ rows, columns, width, height uint16 }
	var refused syscall.Errno
	err = raw.Control(func(fd uintptr) {
		_, _, refused = syscall.Syscall(syscall.SYS_IOCTL, fd, syscall.TIOCGWINSZ, uintptr(unsafe.Pointer(&answer)))
	})
	if err != nil || refused != 0 {
		return Size{}
	}
	return Size{int(answer.rows), int(answer.columns)}
}
