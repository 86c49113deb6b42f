// Package score turns measurements into verdicts, scores and grades.
//
// Each check has an aim and two bands. Its score is 100 from the aim to half way to the edge of the band "met", 85 at
// that edge, 60 at the edge of the band "near", and 0 as far again beyond that. The score of a leg is the weighted
// mean of its measured checks. Its verdict is "missed" when any check with a weight is missed, "met" when the checks
// that are only near carry at most a quarter of the weight, and otherwise "near".
//
// A series without all the legs its card asks for is missed, or not measured where something other than the pilot cut
// it short. Otherwise four fifths of its score come from its legs, and one fifth from what only the legs together
// show. The one thing to change is the correction of the check that cost most.
//
// Grades are the words of the trade: unable (stopped, given up, or under 60), fair (a check was missed), good (within
// the standard), and excellent (95 or more, nothing near a limit, nothing rough, and no correction needed on the
// way).
package score
