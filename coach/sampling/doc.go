// Package sampling works out what a stream could not show of a leg: how far off a value may be where samples come
// slowly, and the holes in which no sample arrived.
//
// Where samples come slower than 12 a second, a check that looks there carries an uncertainty: at most the largest
// rate times the gap (twice that where it compares two values). The check says so where that reaches over the edge of
// a band. Below 2 samples a second nothing is graded.
//
// A hole is more than a second, or more than 10° of turn, without a sample. A check that would have to look into a
// hole is not measured. A turn that the stream leaves, or that another choice stops, is one hole from there on.
package sampling
