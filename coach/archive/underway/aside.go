package underway

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// Aside moves the folder of a session to another place on the same disk, and frees its name: another machine goes on
// with the session. A folder that was never made is none to be moved.
func (f *Folders) Aside(id, to string) error {
	f.making.Lock()
	defer f.making.Unlock()
	_, err := os.Stat(f.path(id)) // else what was moved before stays
	if err == nil {
		err = os.MkdirAll(filepath.Dir(to), 0o750)
	}
	if err == nil {
		err = os.RemoveAll(to) // of an earlier time
	}
	if err == nil {
		err = os.Rename(f.path(id), to)
	}
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("the folder of session %s cannot be moved aside: %w", id, err)
	}
	f.free(id)
	return nil
}

// Take reserves the name of a session that another machine began, and reports whether it was free here.
func (f *Folders) Take(id string) bool {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.taken[id] {
		return false
	}
	f.taken[id], f.reserved[id] = true, true
	return true
}
