// Package callout decides what may be said, when, and what gives way to what. It is pure: time is stream time, and
// the length of a phrase is computed from its words.
package callout
