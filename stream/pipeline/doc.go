// Package pipeline turns the datagrams of one sender into samples: it decodes them, keeps the time base, derives what
// follows from other channels, and counts. It has no clock, no socket and no goroutine, so a recording runs through it
// exactly as the live stream did.
//
// The format of each sender is recognized by content (stream/wire). Values that a slower message brings are carried,
// with their age, into one sample per attitude update, and dropped when they are too old; nothing is extrapolated.
// Values at checkpoints come from a monotone curve through the samples on both sides, which is the coach's part.
package pipeline
