// Package fault holds the errors of all decoders, and the label under which each is counted.
package fault

import (
	"errors"

	"halfturn/stream"
)

// Datagrams that are understood and hold no sample of their own: these are not faults.
var (
	ErrLabels = errors.New("a line of labels, no sample")
	ErrStatus = errors.New("a status line, no sample")
	ErrPart   = errors.New("values without attitude, kept for the next sample")
	ErrOther  = errors.New("about another aircraft, no sample")
)

// The faults.
var (
	ErrEmpty      = errors.New("empty datagram")
	ErrUnknown    = errors.New("no known format")
	ErrNoLabels   = errors.New("columns without labels that fit no map")
	ErrNoChannels = errors.New("nothing in it that feeds a channel")
	ErrMalformed  = errors.New("malformed record")
	ErrValue      = errors.New("an impossible value, without which the record is of no use")
	ErrTruncated  = errors.New("truncated record")
	ErrChecksum   = errors.New("wrong checksum")
	ErrEncoding   = errors.New("not ASCII or UTF-8 text")
	ErrTooLong    = errors.New("line too long")
	ErrChanged    = errors.New("another format than before")
)

var reasons = map[error]string{
	ErrLabels: "",
	ErrStatus: "",
	ErrPart:   "",
	ErrOther:  "",

	ErrEmpty:      "empty",
	ErrUnknown:    "unknown-format",
	ErrNoLabels:   "no-labels",
	ErrNoChannels: "no-channels",
	ErrMalformed:  "malformed",
	ErrValue:      "bad-value",
	ErrTruncated:  "truncated",
	ErrChecksum:   "checksum",
	ErrEncoding:   "encoding",
	ErrTooLong:    "too-long",
	ErrChanged:    "format-changed",
}

// Reason returns a short stable label for counting an error of a decoder, "" when it is not a fault.
func Reason(err error) string {
	if r, ok := reasons[err]; ok || err == nil {
		return r
	}
	return "other"
}

// OfHollow refuses an empty sample.
func OfHollow(s *stream.Sample) error {
	switch {
	case s.Has != 0:
		return nil
	case s.Bad != 0:
		return ErrValue
	}
	return ErrMalformed
}

// OfUseless refuses a sample that holds nothing, or whose time is impossible: without it, the sample would be timed by
// another clock than those before.
func OfUseless(s *stream.Sample) error {
	if s.Bad.Has(stream.Time) {
		return ErrValue
	}
	return OfHollow(s)
}
