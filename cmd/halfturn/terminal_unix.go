//go:build linux || darwin || freebsd || netbsd || openbsd

package main

import (
	"os"
	"syscall"
	"unsafe"
)

// terminalSize returns the size of a terminal in letters, 80 by 24 when it does not tell.
func terminalSize(f *os.File) (columns, rows int) {
	var size struct{ rows, columns, x, y uint16 } // struct winsize of termios(4)
	_, _, failed := syscall.Syscall(syscall.SYS_IOCTL, f.Fd(), syscall.TIOCGWINSZ, uintptr(unsafe.Pointer(&size)))
	if failed != 0 || size.columns == 0 || size.rows == 0 {
		return 80, 24
	}
	return int(size.columns), int(size.rows)
}
