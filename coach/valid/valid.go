// Package valid checks the values of a card: one rule per method, and the first fault is kept. An error names file,
// line and key, and says what is wrong and what must be.
package valid

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"halfturn/configs/strict"
)

// A Validator checks the values of one file and keeps the first fault it finds.
type Validator struct {
	file *strict.File
	err  error
}

// New returns a validator of a decoded file.
func New(f *strict.File) *Validator { return &Validator{file: f} }

// Err returns the first fault, nil when there was none.
func (v *Validator) Err() error { return v.err }

// Has reports whether a key is written in the file.
func (v *Validator) Has(key string) bool { return v.file.Has(key) }

// Is says what stands at a key: "is missing", or its value in a format.
func (v *Validator) Is(key, format string, x any) string {
	if !v.file.Has(key) {
		return "is missing"
	}
	return fmt.Sprintf("is "+format, x)
}

// Fail notes a fault of a key.
func (v *Validator) Fail(key, format string, args ...any) {
	if v.err == nil {
		v.err = v.file.Errorf(key, format, args...)
	}
}

var nameRule = regexp.MustCompile(`^[a-z][a-z0-9]*(-[a-z0-9]+)*$`)

// Name checks a name or an id: lower-case words joined by hyphens.
func (v *Validator) Name(key, s string) {
	if !nameRule.MatchString(s) {
		v.Fail(key, "%s; must be lower-case words joined by hyphens, such as wing-over", v.Is(key, "%q", s))
	}
}

// Source checks that a source is given.
func (v *Validator) Source(key, s string) {
	if strings.TrimSpace(s) == "" {
		v.Fail(key, "is missing; must say where the numbers come from, or be \"common practice, no source\"")
	}
}

// Words checks that a text has between one and the given number of characters.
func (v *Validator) Words(key, s string, most int) {
	if s == "" || len([]rune(s)) > most {
		v.Fail(key, "%s; must have 1 to %d characters", v.Is(key, "%q", s), most)
	}
}

// Spoken checks that a phrase to be said has at most five words; it may be empty. A heading is spoken as three figures,
// a pivotal altitude as four.
func (v *Validator) Spoken(key, s string) {
	n := len(strings.Fields(s)) + 2*strings.Count(s, "{heading}") + 3*strings.Count(s, "{pivotal}")
	if n > 5 {
		v.Fail(key, "has %d words; must have at most 5, so that it can be said in time", n)
	}
}

// Within checks the range of a number.
func (v *Validator) Within(key string, x, low, high float64) {
	if !(x >= low && x <= high) {
		v.Fail(key, "%s; must be between %g and %g", v.Is(key, "%g", x), low, high)
	}
}

// OneOf checks that a word is one of those there are.
func (v *Validator) OneOf(key, s string, allowed ...string) {
	if !slices.Contains(allowed, s) {
		v.Fail(key, "%s; must be %s", v.Is(key, "%q", s), Any(allowed))
	}
}

// Any writes the words of which any will do: "a, b or c".
func Any(words []string) string {
	n := len(words)
	if n < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:n-1], ", ") + " or " + words[n-1]
}
