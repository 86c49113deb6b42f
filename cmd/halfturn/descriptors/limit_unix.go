//go:build linux || darwin || freebsd || netbsd || openbsd

package descriptors

import (
	"math"
	"syscall"
)

// Limit is how many files the process may have open, connections among them; 0 when it is not limited. At its start Go
// has raised the limit as far as it may.
func Limit() int {
	var limit syscall.Rlimit
	if err := syscall.Getrlimit(syscall.RLIMIT_NOFILE, &limit); err != nil || uint64(limit.Cur) > math.MaxInt32 {
		return 0
	}
	return int(limit.Cur)
}
