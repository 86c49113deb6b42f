//go:build !windows

package disk

import "syscall"

// unwritable are what this system says besides: the user's share of the disk is used up.
var unwritable = []error{syscall.EDQUOT}
