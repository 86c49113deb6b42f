package talk

import (
	"maps"
	"slices"

	"halfturn/coach"
	"halfturn/stream/phrase"
)

// What is said of a leg and of the set-up.
const (
	sayKnockOff  = "Knock it off"
	sayBrokenOff = "Broken off"
	sayMissed    = "Not within standard"
	sayGood      = "Good"
	sayExcellent = "Excellent"
	sayShallow   = "Too shallow to count"

	sayNotYet = "Not yet, from one again"

	sayUnmeasured = "Not measured"
	sayAnother    = "Another maneuver was flown"

	sayReady     = "Ready"
	sayUncleared = "Ready, area not cleared"
	sayTooLow    = "Too low to begin"
	sayLevel     = "Level the wings"
	sayHeight    = "Hold your height"
	saySteady    = "Hold a steady speed"
	sayBall      = "Center the ball"
	sayLine      = "Turn onto the line"
	saySlow      = "Slow down to {speed}"
	sayFast      = "Speed up to {speed}"
)

// sayPoint is what is said of the point on the ground that was chosen, by where it is: the center of a turn about a
// point, and the pylon of an eight.
var sayPoint = map[string][2]string{
	coach.AboutHere: {"Point below", "Pylon below"},
	"left":          {"Point, left wing", "Pylon, left wing"},
	"right":         {"Point, right wing", "Pylon, right wing"},
	"":              {"No point chosen", "No pylon chosen"},
}

// sayInRow is what is said of good legs in a row in a drill.
var sayInRow = [...]string{"Good, one of three", "Good, two of three", "Three in a row"}

// say gives a callout its words, and the phrase where they have places: without any, they are looked up as they are.
func say(p phrase.Phrase, k coach.Callout) coach.Callout {
	k.Words = p.String()
	if p.Code() != "" {
		k.Phrase = p
	}
	return k
}

// Words lists what is said besides what the cards have said, with {speed} for a number: what the pages translate.
func Words() []string {
	var points []string
	for _, where := range slices.Sorted(maps.Keys(sayPoint)) {
		points = append(points, sayPoint[where][0], sayPoint[where][1])
	}
	return append(slices.Concat(slices.Sorted(maps.Keys(safetyAsks)), sayInRow[:], points),
		sayNotYet,
		sayKnockOff, sayBrokenOff, sayMissed, sayGood, sayExcellent, sayShallow, sayUnmeasured, sayAnother,
		sayReady, sayUncleared, sayTooLow,
		sayLevel, sayHeight, saySteady, sayBall, sayLine, saySlow, sayFast)
}
