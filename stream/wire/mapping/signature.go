package mapping

import (
	"bytes"

	"halfturn/stream/wire/scan"
)

// A check is what a column of a stream without labels must look like.
type check struct {
	column    int // from 0
	is        string
	low, high float64
}

// The kinds of check besides a span of values.
const (
	isISOTime = "iso-time" // begins with a date and a time of day, such as 2000-01-31T10:20:30
	isFlag    = "flag"     // 0 or 1
	isSpan    = "span"
)

// Fits reports whether every column of a line is what the map says of it: as the signature has it, else a number or
// empty.
func (m *Map) Fits(b []byte) bool {
	for c, more := 0, true; more; c++ {
		var field []byte
		field, b, more = scan.Cut(b, m.Separator)
		field = bytes.Trim(field, " ")
		checked := false
		for i := range m.checks {
			if m.checks[i].column != c {
				continue
			}
			if checked = true; !m.checks[i].pass(field) {
				return false
			}
		}
		if checked || len(field) == 0 {
			continue
		}
		if _, end, ok := scan.Number(field, 0); !ok || end != len(field) {
			return false
		}
	}
	return true
}

// pass reports whether a column is as the check asks. An empty one passes: the sender has no value.
func (c *check) pass(field []byte) bool {
	switch c.is {
	case isISOTime:
		return looksLikeTime(field)
	case isFlag:
		return len(field) == 0 || len(field) == 1 && (field[0] == '0' || field[0] == '1')
	}
	if len(field) == 0 {
		return true
	}
	v, end, ok := scan.Number(field, 0)
	return ok && end == len(field) && v >= c.low && v <= c.high
}

// looksLikeTime recognizes a date and time of day of ISO 8601, such as 2000-01-31T10:20:30.
func looksLikeTime(b []byte) bool {
	const shape = "0000-00-00T00:00:00"
	if len(b) < len(shape) {
		return false
	}
	for i := range len(shape) {
		digit := b[i] >= '0' && b[i] <= '9'
		if digit != (shape[i] == '0') || !digit && b[i] != shape[i] {
			return false
		}
	}
	return true
}
