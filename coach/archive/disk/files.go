package disk

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

// WriteWhole writes beside the file, makes sure it is on the disk, and moves it into place.
func WriteWhole(path string, data []byte) (err error) { return PutWhole(path, data, (*os.File).Sync) }

// PutWhole writes beside the file, makes sure of it by sync, and moves it into place.
func PutWhole(path string, data []byte, sync func(*os.File) error) (err error) {
	f, err := os.CreateTemp(filepath.Dir(path), ".writing-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(f.Name()))
		}
	}()
	if _, err = f.Write(data); err == nil {
		err = sync(f)
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}

// SyncDir makes sure that a file that was moved into place survives a power failure. Not every system can: there the
// order in which the file system writes has to do.
func SyncDir(dir string) {
	if d, err := os.Open(dir); err == nil {
		_ = d.Sync()
		_ = d.Close()
	}
}

// IgnoreGone returns an error unless it says that a file does not exist.
func IgnoreGone(err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}
