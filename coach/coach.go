// Package coach is the vocabulary of the coaching: what is found in the samples of a flight (legs, series,
// checks, callouts, phases, set-ups), what is shown of it now (frames), and the words in which it is judged
// (verdicts, grades, outcomes). Its packages do the work, from the samples up:
//
//   - ground follows the flight over the ground: places, track, wind, the line and the reference point;
//   - track keeps the recent past of one station and finds level flight and where a leg departed from it;
//   - plan is what a card and an aircraft predict together: the bank, nose and speed to aim at;
//   - sampling knows what a coarse or broken stream could not show;
//   - score turns measurements into verdicts, scores and grades;
//   - leg follows one leg to its end, by the checks of the card, and makes the record of it;
//   - judge follows one card: set-up, legs, cues, corrections, limits, series;
//   - follow gives a station one judge, or a judge for every card to find out which maneuver it is.
//
// All are pure functions of the samples: no clock, no input or output, no goroutines, no global state. The
// same samples give the same events, live and long after.
//
// For simulator practice only.
package coach

import (
	"math"

	"halfturn/stream/phrase"
)

// Round rounds to a number of decimal digits.
func Round(x float64, digits int) float64 {
	f := math.Pow10(digits)
	return math.Round(x*f) / f
}

// Direction names the side of a turn: "left" for a negative one, else "right".
func Direction(side float64) string {
	if side < 0 {
		return "left"
	}
	return "right"
}

// TooShallow says that a turn to a side was not steep enough to count as a leg.
func TooShallow(side string) phrase.Phrase {
	if side == "left" {
		return phrase.TooShallowLeft.Of()
	}
	return phrase.TooShallowRight.Of()
}
