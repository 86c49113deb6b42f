// Package fault holds what a datagram can be besides a sample: the errors of all decoders, and the label under which
// each is counted.
package fault

import (
	"errors"

	"halfturn/stream"
)

// What is no fault: datagrams that are understood and hold no sample of their own.
var (
	Labels = errors.New("a line of labels, no sample")
	Status = errors.New("a status line, no sample")
	Part   = errors.New("values without attitude, kept for the next sample")
	Other  = errors.New("about another aircraft, no sample")
)

// The faults.
var (
	Empty      = errors.New("empty datagram")
	Unknown    = errors.New("no known format")
	NoLabels   = errors.New("columns without labels that fit no map")
	NoChannels = errors.New("nothing in it that feeds a channel")
	Malformed  = errors.New("malformed record")
	Value      = errors.New("an impossible value, without which the record is of no use")
	Truncated  = errors.New("truncated record")
	Checksum   = errors.New("wrong checksum")
	Encoding   = errors.New("not ASCII or UTF-8 text")
	TooLong    = errors.New("line too long")
	Changed    = errors.New("another format than before")
)

var reasons = map[error]string{
	Labels: "",
	Status: "",
	Part:   "",
	Other:  "",

	Empty:      "empty",
	Unknown:    "unknown-format",
	NoLabels:   "no-labels",
	NoChannels: "no-channels",
	Malformed:  "malformed",
	Value:      "bad-value",
	Truncated:  "truncated",
	Checksum:   "checksum",
	Encoding:   "encoding",
	TooLong:    "too-long",
	Changed:    "format-changed",
}

// Reason returns a short stable label for counting an error of a decoder, "" when it is no fault.
func Reason(err error) string {
	if r, ok := reasons[err]; ok || err == nil {
		return r
	}
	return "other"
}

// OfHollow refuses a sample that holds nothing.
func OfHollow(s *stream.Sample) error {
	switch {
	case s.Has != 0:
		return nil
	case s.Bad != 0:
		return Value
	}
	return Malformed
}

// OfUseless refuses a sample that holds nothing, or whose time is impossible: without it, the sample would be timed by
// another clock than those before.
func OfUseless(s *stream.Sample) error {
	if s.Bad.Has(stream.Time) {
		return Value
	}
	return OfHollow(s)
}
