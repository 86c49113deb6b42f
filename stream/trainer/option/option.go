// Package option checks what a user may say about a flight and its sending: numbers within a range, and names of a
// list. Its errors name the option, what it is and what it must be.
package option

import (
	"fmt"
	"slices"

	"halfturn/stream/phrase"
)

// A Range is what a number may be, its ends included.
type Range struct{ Low, High float64 }

// String writes the range as people read it.
func (r Range) String() string { return fmt.Sprintf("%g to %g", r.Low, r.High) }

// Contains reports whether a number is in the range; nan is in none.
func (r Range) Contains(x float64) bool { return x >= r.Low && x <= r.High }

// Check returns an Error when a number is not in the range.
func (r Range) Check(option string, x float64) error {
	if r.Contains(x) {
		return nil
	}
	return Wrong("is %v; must be between %v and %v", option, x, r.Low, r.High)
}

// An Error says which option is wrong, and what it must be.
type Error struct {
	Option string // "wind", "rate": a lower-case word or two
	format string
	args   []any
}

// Wrong returns the Error about an option: a format that says what it is and what it must be, and its arguments. A
// []string is a list of which one must be chosen.
func Wrong(format, option string, args ...any) *Error { return &Error{option, format, args} }

// Error gives it as "rate is 0; must be between 1 and 1000".
func (e *Error) Error() string { return e.Option + " " + e.What(nil) }

// What says in a language what the option is, and what it must be: "is 0; must be between 1 and 1000".
func (e *Error) What(in *phrase.Language) string {
	args := slices.Clone(e.args)
	for i, a := range args {
		if names, ok := a.([]string); ok {
			args[i] = in.OneOf(names)
		}
	}
	return in.Wordf(e.format, args...)
}

// Unknown returns the Error for a name that is not in the list.
func Unknown(option, name string, names []string) error {
	return Wrong("is %q; must be %s", option, name, names)
}
