package capture

import (
	"context"
	"io"

	"halfturn/stream/phrase"
)

// Limits bound what is read of recordings: of all that are opened with the same Limits together. Zero
// fields set no bound. They are for one goroutine at a time.
type Limits struct {
	Bytes int64 // uncompressed
	Ratio int64 // of the uncompressed bytes to those of the files, once the first are more than 64 MB

	files, out int64 // bytes read so far
}

// ratioFrom is how many uncompressed bytes are read before their ratio counts: a short recording
// of an airplane that stands may shrink to almost nothing.
const ratioFrom = 64_000_000

// A LimitError says that a recording holds more than its Limits allow.
type LimitError struct {
	Words string // what it holds, in numbers
}

// Error says which limit was passed.
func (e *LimitError) Error() string { return e.Words }

func (l *Limits) check() error {
	switch {
	case l.Bytes > 0 && l.out > l.Bytes:
		return &LimitError{phrase.CaptureTooLong.Of(phrase.Number("most", float64(l.Bytes/1_000_000), 0,
			"MB")).String()}
	case l.Ratio > 0 && l.out > ratioFrom && l.out/l.Ratio > l.files:
		return &LimitError{phrase.CaptureTooDense.Of(phrase.Number("most", float64(l.out/1_000_000), 0, "MB"),
			phrase.Number("file", float64(l.files)/1e6, 1, "MB"), phrase.Int("times", l.Ratio)).String()}
	}
	return nil
}

// A guard ends the reading of a recording when its context ends or a limit is passed.
type guard struct {
	ctx    context.Context
	limits *Limits
	err    error // why it ended
}

// A stage is one step from the file to the uncompressed recording. Each has a guard of its own: one
// read of compressed bytes may give any number of uncompressed ones.
type stage struct {
	guard *guard
	in    io.Reader
	bytes *int64 // counts what was read; nil: nothing does
}

// Read reads, unless the reading has ended.
func (s *stage) Read(p []byte) (int, error) {
	if s.guard.err == nil {
		s.guard.err = s.guard.ctx.Err()
	}
	if s.guard.err != nil {
		return 0, s.guard.err
	}
	n, err := s.in.Read(p)
	if s.bytes != nil {
		*s.bytes += int64(n)
		s.guard.err = s.guard.limits.check()
	}
	return n, err
}
