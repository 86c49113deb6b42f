package feed

import (
	"halfturn/coach"
	"halfturn/coach/score"
	"halfturn/stream/phrase"
)

func band(low, high float64) [2]*float64 { return [2]*float64{&low, &high} }

func checks() []coach.Check { return append(firstChecks(), lastChecks()...) }

func firstChecks() []coach.Check {
	return []coach.Check{
		{
			ID:      "bank-at-45",
			Label:   "Bank at 45°",
			Kind:    "value",
			Channel: "bank",
			Turn:    ptr(45),
			Value:   ptr(51),
			Unit:    "°",
			Aim:     ptr(53),
			Met:     band(43, 63),
			Near:    band(38, 68),
			Weight:  1,
			Verdict: coach.Met,
			Score:   100,
		},
		{
			ID:      "bank-at-90",
			Label:   "Bank at 90°",
			Kind:    "value",
			Channel: "bank",
			Turn:    ptr(90),
			Value:   ptr(58),
			Unit:    "°",
			Aim:     ptr(75),
			Met:     band(65, 85),
			Near:    band(60, 90),
			Weight:  2,
			Verdict: coach.Missed,
			Score:   35,
			Words:   "Too little bank at 90°: keep rolling.",
		},
		{
			ID:      "airspeed-at-90",
			Label:   "Speed at 90°",
			Kind:    "value",
			Channel: "airspeed",
			Turn:    ptr(90),
			Value:   ptr(120.5),
			Unit:    "kt",
			Aim:     ptr(112),
			Met:     band(107, 117),
			Near:    band(102, 122),
			Weight:  1,
			Verdict: coach.Near,
			Score:   70,
			Words:   "8 kt fast: pull a little more in the first 45°.",
		},
	}
}

func lastChecks() []coach.Check {
	return []coach.Check{
		{
			ID:      "pitch-at-135",
			Label:   "Nose at 135°",
			Kind:    "value",
			Channel: "pitch",
			Turn:    ptr(135),
			Value:   ptr(-16),
			Unit:    "°",
			Aim:     ptr(-17),
			Met:     band(-21, -13),
			Near:    band(-24, -10),
			Weight:  1,
			Verdict: coach.Met,
			Score:   100,
		},
		{
			ID:      "height-change",
			Label:   "Height, entry to exit",
			Kind:    "change",
			Channel: "altitude",
			At:      ptr(178.6),
			Value:   ptr(-60),
			Unit:    "ft",
			Aim:     ptr(0),
			Met:     band(-100, 100),
			Near:    band(-150, 150),
			Weight:  1,
			Verdict: coach.Met,
			Score:   100,
		},
		{
			ID:      "exit-turn",
			Label:   "Turn at the exit",
			Kind:    "value",
			Channel: "turn",
			At:      ptr(178.6),
			Value:   ptr(178.6),
			Unit:    "°",
			Aim:     ptr(180),
			Met:     band(170, 190),
			Near:    band(165, 195),
			Weight:  1,
			Verdict: coach.Met,
			Score:   100,
		},
		{ID: "coordination", Label: "Ball in the middle", Kind: "share", Channel: "ball", Unit: "%", Weight: 1,
			Verdict: coach.NotMeasured, Reason: phrase.Lacks.Of(phrase.Part("what", phrase.Plain("ball")))},
	}
}

// Series returns the series of two legs.
func Series() *coach.Series {
	leg := Finished(1, "right", 10)
	s := &coach.Series{
		Maneuver: "wing-over", Standard: "course standard", Aircraft: "generic turboprop trainer",
		Verdict: leg.Verdict, Score: leg.Score, Grade: leg.Grade, Checks: []coach.Check{},
		Legs: []coach.Leg{*leg, *Finished(2, "left", 60)},
	}
	s.Headline = score.SeriesHeadline(s)
	return s.WithoutTraces()
}
