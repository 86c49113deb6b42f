//go:build linux || darwin || freebsd || netbsd || openbsd

package archive

import (
	"errors"
	"os"
	"syscall"
)

// LockFile opens a file and locks it against other processes.
func LockFile(name string) (*os.File, error) {
	f, err := os.OpenFile(name, os.O_RDWR|os.O_CREATE, 0o640)
	if err != nil {
		return nil, err
	}
	if err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); err != nil {
		if errors.Is(err, syscall.EWOULDBLOCK) {
			err = ErrLocked
		}
		return nil, errors.Join(err, f.Close())
	}
	return f, nil
}
