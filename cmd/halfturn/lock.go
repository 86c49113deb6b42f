package main

import (
	"halfturn/coach/archive"
)

// A dataLock is held by the server that owns a data directory.
type dataLock struct {
	dir  string
	lock *archive.Lock // nil while it is not held
}

// take takes the lock, unless it is held already.
func (l *dataLock) take() (err error) {
	if l.lock == nil {
		l.lock, err = archive.Own(l.dir)
	}
	return err
}

// release lets go of it.
func (l *dataLock) release() error {
	if l.lock == nil {
		return nil
	}
	return l.lock.Close()
}
