//go:build linux || darwin || freebsd || netbsd || openbsd

package main

import (
	"math"
	"syscall"
)

// mostFiles is how many files the process may have open, connections among them; 0 when it is not limited. Go has
// raised the limit as far as it may be when it started.
func mostFiles() int {
	var limit syscall.Rlimit
	if err := syscall.Getrlimit(syscall.RLIMIT_NOFILE, &limit); err != nil || uint64(limit.Cur) > math.MaxInt32 {
		return 0
	}
	return int(limit.Cur)
}
