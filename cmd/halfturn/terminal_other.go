//go:build !(linux || darwin || freebsd || netbsd || openbsd)

package main

import "os"

// terminalSize returns the usual size of a terminal in letters; here nothing tells the real one.
func terminalSize(*os.File) (columns, rows int) { return 80, 24 }
