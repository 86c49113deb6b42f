// Package judge follows one maneuver card over the tracker of a station. It judges the set-up, finds the legs and puts
// them together into series, says cues and corrections, and watches the limits.
//
// A leg is found late, when the flight has committed itself to it; the tracker then looks back for where it departed,
// and everything since then is run through package leg, which measures it.
//
// Cues are sent early, so that every listener can begin them when its own voice needs to. What the judge itself reckons
// with is one listener with an average voice: what that one would be saying is what corrections have to give way to.
package judge
