package trainer

import (
	"fmt"
	"strings"
)

// A Range is what a number may be, its ends included.
type Range struct{ Low, High float64 }

// What the numbers of a Flight and of SendOptions may be: the only place that says it.
var (
	RateRange     = Range{1, 1000}    // datagrams a second of flight
	PaceRange     = Range{0.01, 1000} // seconds of flight a second of time
	StationRange  = Range{1, 5000}    // simulators stood for
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
	return &OptionError{option, fmt.Sprintf("is %g; allowed: %v", x, r)}
}

// An OptionError says which option of a flight or of its sending is wrong, and what is allowed.
type OptionError struct {
	Option string // "wind", "rate": a lower-case word or two
	What   string // "is 300; allowed: 0 to 100"
}

// Error gives it as "rate is 0; allowed: 1 to 1000".
func (e *OptionError) Error() string { return e.Option + " " + e.What }

func unknown(option, name string, names []string) error {
	return &OptionError{option, fmt.Sprintf("is %q, not known; allowed: %s", name, strings.Join(names, ", "))}
}
