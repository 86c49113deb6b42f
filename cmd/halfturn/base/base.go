// Package base holds what all commands share: where they read and write, their common flags, and how a wrong call is
// distinguished from a failure.
package base

import (
	"context"
	"encoding/json"
	"fmt"
	"io"

	"halfturn/stream/phrase"
)

// Version is Halfturn's own, as in CHANGELOG.md.
const Version = "0.1.0"

// Streams is where a command writes, and the environment it takes from the process.
type Streams struct {
	Enter    func(context.Context) bool // waits until Enter is pressed; nil where there is no terminal
	Out, Err io.Writer
	Env      func(string) (string, bool)
	Language *phrase.Language // of what is printed; nil is English
}

// A UsageError is a wrong call, not a failure.
type UsageError struct{ error }

// Usage makes an error one of a wrong call.
func Usage(err error) error { return UsageError{err} }

// Usagef makes the error of a wrong call, in a language. What is wrapped by %w stays an error of its own.
func Usagef(in *phrase.Language, format string, args ...any) error {
	return UsageError{Failf(in, format, args...)}
}

// Failf makes an error in a language.
func Failf(in *phrase.Language, format string, args ...any) error {
	return fmt.Errorf(in.Word(format), args...)
}

// Indented writes a value as indented JSON.
func Indented(w io.Writer, v any) error {
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	return enc.Encode(v)
}
