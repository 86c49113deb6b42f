package doctor

import (
	"os"
	"syscall"

	"golang.org/x/sys/windows"
)

// writable returns why a folder cannot be written, as far as that can be seen without writing to it.
func writable(dir string) error {
	info, err := os.Stat(dir)
	if err == nil && !info.IsDir() {
		err = syscall.ENOTDIR
	}
	return err
}

// free is how many bytes of the disk of a folder this user may still write.
func free(dir string) (n int64, ok bool) {
	name, err := windows.UTF16PtrFromString(dir)
	if err != nil {
		return 0, false
	}
	var left uint64
	err = windows.GetDiskFreeSpaceEx(name, &left, nil, nil)
	return int64(min(left, 1<<62)), err == nil
}
