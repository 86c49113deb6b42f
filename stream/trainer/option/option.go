// Package option checks what a user may say about a flight and its sending: numbers within a range, and names of a
// list. Its errors name the option, what it is and what it must be.
package option

import (
	"fmt"
	"strings"
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
	return &Error{option, fmt.Sprintf("is %g; must be between %g and %g", x, r.Low, r.High)}
}

// An Error says which option is wrong, and what it must be.
type Error struct {
	Option string // "wind", "rate": a lower-case word or two
	What   string // "is 300; must be between 0 and 100"
}

// Error gives it as "rate is 0; must be between 1 and 1000".
func (e *Error) Error() string { return e.Option + " " + e.What }

// Unknown returns the Error for a name that is not in the list.
func Unknown(option, name string, names []string) error {
	return &Error{option, fmt.Sprintf("is %q; must be %s", name, List(names))}
}

// List writes names as "a, b or c".
func List(names []string) string {
	last := len(names) - 1
	if last < 1 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:last], ", ") + " or " + names[last]
}
