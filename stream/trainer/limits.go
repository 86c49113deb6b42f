package trainer

import (
	"fmt"
	"strings"
)

// A Range is what a number may be, its ends included.
type Range struct{ Low, High float64 }

// The ranges of the numbers in a Flight and in SendOptions: the only place that holds them.
var (
	RateRange     = Range{1, 1000}    // datagrams per second of flight
	PaceRange     = Range{0.01, 1000} // seconds of flight per second of time
	StationRange  = Range{1, 5000}    // simulators to stand for
	LegRange      = Range{1, 100}     // of a flight
	BearingRange  = Range{0, 360}     // of the wind and of the start, °
	WindRange     = Range{0, 100}     // kt
	StrengthRange = Range{0.25, 1.5}  // strength of a flaw
)

// String writes the range as people read it.
func (r Range) String() string { return fmt.Sprintf("%g to %g", r.Low, r.High) }

// Contains tells whether a number is in the range; nan is in none.
func (r Range) Contains(x float64) bool { return x >= r.Low && x <= r.High }

func (r Range) check(option string, x float64) error {
	if r.Contains(x) {
		return nil
	}
	return &OptionError{option, fmt.Sprintf("is %g; must be between %g and %g", x, r.Low, r.High)}
}

// An OptionError says which option of a flight or of its sending is wrong, and what it must be.
type OptionError struct {
	Option string // "wind", "rate": a lower-case word or two
	What   string // "is 300; must be between 0 and 100"
}

// Error gives it as "rate is 0; must be between 1 and 1000".
func (e *OptionError) Error() string { return e.Option + " " + e.What }

func unknown(option, name string, names []string) error {
	return &OptionError{option, fmt.Sprintf("is %q; must be %s", name, oneOf(names))}
}

// oneOf lists names as "a, b or c".
func oneOf(names []string) string {
	last := len(names) - 1
	if last < 1 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:last], ", ") + " or " + names[last]
}
