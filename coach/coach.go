// Package coach finds maneuvers in samples, grades them, and decides what to say. It is a
// pure function of the samples: no clock, no input or output, no goroutine, no global state.
// The same samples give the same events, live and long after.
package coach
