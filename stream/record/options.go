package record

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"time"
)

// A File is what a Recorder writes to; an *os.File is one.
type File interface {
	io.Writer
	Sync() error
	Truncate(size int64) error
	Close() error
}

// Options say how a session is recorded. Zero fields take the defaults.
type Options struct {
	Program string                          // the program that writes
	Station string                          // whose stream it is
	Section func(part int) string           // the comment at the head of a file
	Lost    func(n uint64) string           // the comment on the first datagram after n that were not recorded
	Rotate  int64                           // bytes after which the next file begins; 64 MiB
	Every   time.Duration                   // between two flushes; 1 s
	Sync    time.Duration                   // after which what was flushed must also survive a power failure; 5 s
	Open    func(name string) (File, error) // makes a new file; on disk
	Changed func(Status)                    // called with each change of State, in the recorder's goroutine
	Closed  func(name string)               // called with each complete file, likewise
	// Flushed is called with a file and how many bytes of it survive the end of the program, likewise; with a Sync that
	// is not longer than Every also a power failure.
	Flushed func(name string, size int64)
	Totals  *Totals // the recorder is one of these; may be nil
}

func (o *Options) fill() {
	if o.Section == nil {
		o.Section = func(int) string { return "" }
	}
	if o.Rotate <= 0 {
		o.Rotate = 64 << 20
	}
	if o.Every <= 0 {
		o.Every = time.Second
	}
	if o.Sync <= 0 {
		o.Sync = 5 * time.Second
	}
	if o.Open == nil {
		o.Open = Create
	}
	if o.Changed == nil {
		o.Changed = func(Status) {}
	}
	if o.Closed == nil {
		o.Closed = func(string) {}
	}
	if o.Flushed == nil {
		o.Flushed = func(string, int64) {}
	}
}

// Create makes a file and fails where one exists. It makes no folders: if a disk was removed, a folder in its place
// would be hidden once the disk is back.
func Create(name string) (File, error) {
	if err := os.Mkdir(filepath.Dir(name), 0o750); err != nil && !errors.Is(err, os.ErrExist) {
		return nil, err
	}
	return os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o640)
}
