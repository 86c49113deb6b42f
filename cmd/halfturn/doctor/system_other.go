//go:build !(linux || darwin || freebsd || windows)

package doctor

import (
	"os"
	"syscall"
)

// writable returns why a folder cannot be written, as far as that can be seen without writing to it.
func writable(dir string) error {
	info, err := os.Stat(dir)
	if err == nil && !info.IsDir() {
		err = syscall.ENOTDIR
	}
	return err
}

// free does not know on this system how many bytes may still be written.
func free(string) (n int64, ok bool) { return 0, false }
