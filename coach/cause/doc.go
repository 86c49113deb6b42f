// Package cause finds why a leg or a series lost score. A number is a measurement; a cause is instruction.
//
// A rule says which checks must have been missed, and to which side, which checks belong to the cause and which
// follow from it, and how it is said in five words and in one sentence.
//
// Causes are ranked by scoring the leg again with the checks of a cause at their aim; the share of the lost score
// that this brings back is the share of the cause. A root cause outranks what follows from it (a nose too high, then
// no speed at the top). At most three causes are named, none of them contradicting another, and one thing to change.
// A cause is minor where nothing was missed, or where it brings back less than 3 points.
//
// To add a cause, add a rule to the table of its subject. A rule names checks by id, and applies to every maneuver
// whose card has them. What else it must know of the maneuver it reads from the card (facts.go): whether it is level,
// whether it climbs and comes back, whether a bank is held, how the roll-out is led. It never asks for a card's name,
// so that a copy is advised as its original. What no single check tells is read from the trace of the leg (flown.go).
//
// testdata/common_errors.md lists every item of the published lists of common errors with the cause that names it.
package cause
