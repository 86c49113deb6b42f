package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

const evenRateSays = "largest departure from a constant rate between the start of a span and the exit"

var evenRateKind = &check.Kind{
	Name:   "even-rate",
	Says:   evenRateSays,
	Needs:  []string{"channel", "from", "to"},
	Allows: []string{"smooth"},
	Valid:  straight,
	Where:  as(evenRateSays),
	Unit:   ofQuantity,
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &evenRate{timed: newTimed(s, f)}
	},
	Bands:  check.Tolerances,
	Looks:  check.Throughout,
	Known:  check.AtEnd,
	Doubt:  check.Difference,
	Told:   check.WithPlace,
	Counts: check.NoCount,
}

// evenRate measures how far a quantity departs from the straight line in time that leads from its value at the start
// of the span to that at the exit. Positive is above the line: a bank taken off too late, and then in a hurry.
type evenRate struct{ timed }

func (e *evenRate) Measure(exit *check.Moment) check.Measure {
	if exit == nil {
		return check.None(phrase.NoExit.Of())
	}
	at, v, t := e.course()
	last, ok := e.get(exit)
	end := exit.Time() - e.zero
	if len(v) < 3 || !ok || end <= t[0] {
		return e.nothing()
	}
	found := check.Found(0, at[0])
	for i := range v {
		if t[i] > end || at[i] > exit.Turn {
			break
		}
		off := v[i] - (v[0] + (last-v[0])*(t[i]-t[0])/(end-t[0]))
		if math.Abs(off) > math.Abs(found.Value) {
			found = check.Found(off, at[i])
		}
	}
	return found
}
