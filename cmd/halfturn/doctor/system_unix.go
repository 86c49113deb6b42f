//go:build linux || darwin || freebsd

package doctor

import "golang.org/x/sys/unix"

// writable returns why a folder cannot be written; nothing is written to find out.
func writable(dir string) error { return unix.Access(dir, unix.W_OK|unix.X_OK) }

// free is how many bytes of the disk of a folder this user may still write.
func free(dir string) (n int64, ok bool) {
	var s unix.Statfs_t
	if err := unix.Statfs(dir, &s); err != nil {
		return 0, false
	}
	return int64(s.Bavail) * int64(s.Bsize), true
}
