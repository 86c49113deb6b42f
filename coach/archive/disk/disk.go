// Package disk writes files so that a reader sees either the whole of one or none of it, and tells a disk that is full
// or read-only, which may recover while the program runs, from other failures.
package disk

import (
	"errors"
	"os"
	"syscall"

	"halfturn/coach/logbook"
	"halfturn/stream/record"
)

// Unwritable reports whether an error means that a disk is read-only or full: that may mend itself
// while the program runs.
func Unwritable(err error) bool {
	var failure *logbook.Failure
	if errors.As(err, &failure) && failure.Unwritable {
		return true
	}
	for _, e := range unwritable {
		if errors.Is(err, e) {
			return true
		}
	}
	return errors.Is(err, syscall.EROFS) || errors.Is(err, syscall.ENOSPC)
}

// probeBytes is what a disk must have room for, that there is some.
const probeBytes = 64 << 10

// Probe makes sure that the disk of a data directory can be written. SQLite, asked to open a file on
// one that cannot, says only that it does not open.
func Probe(dir string) (err error) {
	f, err := os.CreateTemp(dir, ".probe-*")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close(), os.Remove(f.Name())) }()
	if _, err = f.Write(make([]byte, probeBytes)); err != nil {
		return err
	}
	return f.Sync()
}

// PlainPath is an error of a file as people read it: what is wrong, where, and what to do.
func PlainPath(err error) error {
	var p *os.PathError
	if !Unwritable(err) || !errors.As(err, &p) {
		return err
	}
	return &logbook.Failure{Words: record.Words(err).String(), Err: err}
}
