package replay

import (
	"math"

	"halfturn/coach"
)

// sameMoment is how far two times of stream time may be apart and be one, s: reports round them.
const sameMoment = 0.05

// gradedFirst returns a leg as it was graded when it was flown, with the trace that pictures need; nil when that is not
// known.
func (c *collector) gradedFirst(now *coach.Leg) *coach.Leg {
	for i := range c.graded {
		for j := range c.graded[i].Legs {
			if was := &c.graded[i].Legs[j]; same(was, now) {
				leg := *was
				leg.Trace = now.Trace
				return &leg
			}
		}
	}
	return nil
}

// seriesBefore returns a series as it was graded when it was flown; nil when that is not known.
func (c *collector) seriesBefore(now *coach.Series) *coach.Series {
	for i := range c.graded {
		was := &c.graded[i]
		if len(was.Legs) == len(now.Legs) && len(was.Legs) > 0 && same(&was.Legs[0], &now.Legs[0]) {
			return was
		}
	}
	return nil
}

func same(a, b *coach.Leg) bool {
	return math.Abs(a.Start-b.Start) < sameMoment && math.Abs(a.End-b.End) < sameMoment && a.Direction == b.Direction
}

// otherwise reports whether two gradings of a leg do not say the same.
func otherwise(was, now *coach.Leg) bool {
	return was.Verdict != now.Verdict || was.Grade != now.Grade || math.Round(was.Score) != math.Round(now.Score)
}
