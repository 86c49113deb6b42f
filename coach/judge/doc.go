// Package judge follows one maneuver card over the tracker of a station. It finds the legs (set-up, commitment,
// departure, end), measures them by the checks of the card, says cues and corrections, watches the limits, and
// puts legs together into series.
//
// A leg is found late, when the flight has committed itself to it; the tracker then looks back for where it departed,
// and everything since then is run through the checks. A leg has five parts: where it is (position), what is measured
// (measures), what is passed and drawn (passage, drawing), how it ends (ending), and what is said (talk).
package judge
