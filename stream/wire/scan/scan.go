// Package scan reads numbers, columns and lines of text in place. Nothing in it allocates.
package scan

import (
	"bytes"
	"encoding/binary"
	"math/bits"

	"halfturn/stream"
	"halfturn/stream/wire/fault"
)

// MaxLine is the longest line of text that is read, in bytes; real ones are below 1000.
const MaxLine = 8192

// IsBlank reports whether c is a blank or ends a line.
func IsBlank(c byte) bool { return c == ' ' || c == '\t' || c == '\r' || c == '\n' }

// SkipSpaces returns the index of the first byte from i on that is no space. Columns are padded by runs of spaces of
// all lengths, so eight are compared at once.
func SkipSpaces(b []byte, i int) int {
	for i+8 <= len(b) {
		n := bits.TrailingZeros64(binary.LittleEndian.Uint64(b[i:])^0x2020202020202020) / 8
		if i += n; n < 8 {
			return i
		}
	}
	for i < len(b) && b[i] == ' ' {
		i++
	}
	return i
}

// TrimMark cuts off a UTF-8 byte order mark.
func TrimMark(b []byte) []byte {
	if len(b) > 3 && b[0] == 0xEF && b[1] == 0xBB && b[2] == 0xBF {
		return b[3:]
	}
	return b
}

// TrimEnd cuts off what ends a line: spaces, line ends, and the NUL that some senders count into the length of their
// text.
func TrimEnd(b []byte) []byte {
	for len(b) > 0 {
		switch b[len(b)-1] {
		case ' ', '\n', '\r', 0:
			b = b[:len(b)-1]
		default:
			return b
		}
	}
	return b
}

// Cut splits off the first column; more is false for the last one.
func Cut(b []byte, separator byte) (first, rest []byte, more bool) {
	if i := bytes.IndexByte(b, separator); i >= 0 {
		return b[:i], b[i+1:], true
	}
	return b, nil, false
}

// Columns returns the number of columns of a line.
func Columns(b []byte, separator byte) int { return 1 + bytes.Count(b, []byte{separator}) }

// A LineReader reads records of one line each.
type LineReader interface {
	// Line reads one line, without its end.
	Line(b []byte, s *stream.Sample) error
	// CutShort reports whether an error can be that of a line whose end is missing.
	CutShort(err error) bool
}

// LastLine reads the last complete line of a datagram: the earlier ones are older states of the same simulator, sent
// together because it stuttered, and a live view wants the latest.
func LastLine(r LineReader, b []byte, s *stream.Sample) error {
	whole := b[len(b)-1] == '\n'
	b = TrimEnd(b)
	if n := len(b) - 2*MaxLine; n > 0 { // a line is shorter, and junk must cost little
		b = b[n:]
	}
	at := lastBreak(b)
	err := line(r, TrimEnd(b[at+1:]), s)
	if err != nil && !whole && at > 0 && r.CutShort(err) {
		s.Reset()
		b = TrimEnd(b[:at])
		err = line(r, b[bytes.LastIndexByte(b, '\n')+1:], s)
	}
	return err
}

func line(r LineReader, b []byte, s *stream.Sample) error {
	switch {
	case len(b) == 0:
		return fault.ErrEmpty
	case len(b) > MaxLine:
		return fault.ErrTooLong
	}
	return r.Line(b, s)
}

// lastBreak returns where the last line end is, −1 when there is none, as is usual: that is found much faster from the
// front.
func lastBreak(b []byte) int {
	if bytes.IndexByte(b, '\n') < 0 {
		return -1
	}
	return bytes.LastIndexByte(b, '\n')
}
