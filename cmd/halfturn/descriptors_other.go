//go:build !(linux || darwin || freebsd || netbsd || openbsd)

package main

// mostFiles is how many files the process may have open; 0 when it is not limited.
func mostFiles() int { return 0 }
