package phrase

import "errors"

// An Error is an error that people are to read.
type Error struct{ phrase Phrase }

// Error returns the sentence with its arguments as an error.
func (d *Definition) Error(args ...Arg) error { return &Error{d.Of(args...)} }

// Error returns the English.
func (e *Error) Error() string { return e.phrase.text }

// OfError returns what an error says: its phrase, where it or what it wraps has one and nothing was added to that;
// else what Read makes of its text.
func OfError(err error) Phrase {
	var e *Error
	if errors.As(err, &e) && e.Error() == err.Error() {
		return e.phrase
	}
	return Read(err.Error())
}
