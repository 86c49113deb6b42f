package archive

import (
	"errors"
	"os"
	"syscall"
)

// LockFile opens a file that others may read, and not write.
func LockFile(name string) (*os.File, error) {
	path, err := syscall.UTF16PtrFromString(name)
	if err != nil {
		return nil, err
	}
	h, err := syscall.CreateFile(path, syscall.GENERIC_READ|syscall.GENERIC_WRITE, syscall.FILE_SHARE_READ, nil, syscall.OPEN_ALWAYS, syscall.FILE_ATTRIBUTE_NORMAL, 0)
	if err != nil {
		const sharingViolation = syscall.Errno(32)
		if errors.Is(err, sharingViolation) {
			err = ErrLocked
		}
		return nil, err
	}
	return os.NewFile(uintptr(h), name), nil
}
