// Package drill holds what a drill on one error is: the part of a maneuver in which a cause shows, what belongs to it,
// and the count of good legs in a row. It is pure.
//
// # Where it is flown
//
// In the shortest building block of the maneuver that has a check by which the cause is seen, and counts it; else in
// the whole. See [Where].
//
// # What belongs to it
//
// The checks of the card that show the cause. Of what is said in flight: a cue or a correction that asks for what one
// of those checks looks at, in the part of the turn in which it looks. Limits, and the way back from them, are always
// said.
//
// # When it is done
//
// After three legs in a row in which those checks come to a met verdict by the rule of package score: a drill is to be
// done until it is right several times, not once (FAA-H-8083-9B ch. 8 judges an element by itself; the number is common
// practice, no source).
package drill
