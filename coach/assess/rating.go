package assess

import (
	"slices"

	"halfturn/coach"
	"halfturn/coach/logbook"
	"halfturn/coach/score"
)

// Aspects of a leg: what a student names as the one thing, and what the check that cost most is about.
const (
	Bank    = "bank"
	Nose    = "nose"
	Speed   = "speed"
	Height  = "height"
	Heading = "heading"
	Ball    = "ball"
	Timing  = "timing"
	Nothing = "nothing" // nothing is to be changed
)

// Aspects lists what a student can name.
func Aspects() []string { return []string{Bank, Nose, Speed, Height, Heading, Ball, Timing, Nothing} }

// aspects are those of the channels that checks are about.
var aspects = map[string]string{
	"bank": Bank, "roll-rate": Bank, "clearing-bank": Bank,
	"pitch": Nose, "pitch-rate": Nose, "normal-load": Nose,
	"airspeed": Speed, "stall-margin": Speed, "power": Speed,
	"altitude": Height, "height": Height, "vertical-speed": Height,
	"turn": Heading, "clearing": Heading, "clearing-side": Heading, "heading": Heading,
	"slip": Ball, "ball": Ball,
}

// kindAspects are those of the kinds of check that are about no channel.
var kindAspects = map[string]string{"gain": Height, "mirror": Height, "directions": Heading, "return": Heading}

// AspectOf says what a check is about.
func AspectOf(k *coach.Check) string {
	if a := aspects[k.Channel]; a != "" {
		return a
	}
	if a := kindAspects[k.Kind]; a != "" {
		return a
	}
	return Timing
}

// Measured is what a rating of a leg is held against: its grade, and what the check is about that cost most.
func Measured(l *coach.Leg) logbook.Measured {
	m := logbook.Measured{Grade: l.Grade}
	switch worst := score.Dearest(l.Checks); {
	case l.Verdict == coach.NotMeasured:
	case l.Verdict == coach.Met:
		m.Thing = Nothing
	case worst != nil:
		m.Thing = AspectOf(worst)
	}
	return m
}

// Rate fills in what was measured of the legs that were rated. The series are as [Series] returns them.
func Rate(list []coach.Series, ratings []logbook.Rating) {
	for i := range ratings {
		n := ratings[i].Leg
		for k := range list {
			if legs := list[k].Legs; n <= len(legs) && n > 0 {
				ratings[i].Measured = Measured(&legs[n-1])
				break
			}
			n -= len(list[k].Legs)
		}
	}
}

// apart is how many grades two are apart; ok is false where one of them is none.
func apart(a, b string) (n int, ok bool) {
	x, y := slices.Index(logbook.Grades(), a), slices.Index(logbook.Grades(), b)
	return max(x-y, y-x), x >= 0 && y >= 0
}
