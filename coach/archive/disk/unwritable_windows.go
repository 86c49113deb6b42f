package disk

import "syscall"

// unwritable are what this system says: ERROR_WRITE_PROTECT and ERROR_DISK_FULL.
var unwritable = []error{syscall.Errno(19), syscall.Errno(112)}
