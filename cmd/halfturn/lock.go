package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"halfturn/coach/archive"
)

// A dataLock is held by the server that owns a data directory.
type dataLock struct {
	dir    string
	unlock func() error // nil while it is not held
}

// take takes the lock, unless it is held already.
func (l *dataLock) take() (err error) {
	if l.unlock == nil {
		l.unlock, err = lockData(l.dir)
	}
	return err
}

// release lets go of it.
func (l *dataLock) release() error {
	if l.unlock == nil {
		return nil
	}
	return l.unlock()
}

// lockData makes sure that one server alone writes into a data directory. The lock goes with the
// process, however it ends. The returned function lets go of it.
func lockData(dir string) (unlock func() error, err error) {
	if err := os.MkdirAll(dir, 0o750); err != nil {
		return nil, fmt.Errorf("the data directory cannot be used: %w; choose another with --data", err)
	}
	name := filepath.Join(dir, "lock")
	f, err := archive.LockFile(name)
	switch {
	case errors.Is(err, archive.ErrLocked):
		who := ""
		if data, err := os.ReadFile(name); err == nil && len(data) > 0 && len(data) < 100 {
			who = " (process " + strings.TrimSpace(string(data)) + ")"
		}
		return nil, fmt.Errorf("the data directory %s is in use by another Halfturn%s; stop that one, or choose "+
			"another directory with --data", dir, who)
	case err != nil:
		return nil, fmt.Errorf("the data directory cannot be locked: %w; make it writable, or choose another with "+
			"--data", err)
	}
	if err := f.Truncate(0); err == nil {
		_, _ = fmt.Fprintln(f, os.Getpid()) // for people; the lock holds without
	}
	return f.Close, nil
}
