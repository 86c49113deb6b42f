// Package judge follows one maneuver card over the tracker of a station. It judges the set-up, finds legs, and groups
// them into series. Package talk decides what is said.
//
// # How a leg is found
//
// A leg is found late, when the flight has committed to it. The tracker then looks back for the departure from level
// flight (see package track), and all samples since then go through package leg, which measures them.
//
// Commitment. The card defines what makes a turn a leg, for example a nose 4° above level once 8° have been turned. A
// turn that never commits is just a turn.
//
// Knock-off. The leg ends below the hard deck, past a limit of the aircraft, or in a stall: below stall speed × √load
// factor for half a second, or when the nose drops by itself within a second of being close to that speed.
package judge
