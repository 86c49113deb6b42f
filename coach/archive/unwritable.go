//go:build !windows

package archive

import "syscall"

// unwritable are what this system says besides: the user's share of the disk is used up.
var unwritable = []error{syscall.EDQUOT}
