package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

var meanKind = &check.Kind{
	Name:   "mean",
	Says:   "mean over a span",
	Needs:  []string{"channel", "from", "to"},
	Allows: []string{"about"},
	Valid:  straight,
	Where: func(s *check.Spec, in *phrase.Language) string {
		return over(s, in, in.Wordf("mean %s", quantity(s, in)))
	},
	Unit: ofQuantity,
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &mean{span: newSpan(s, f)}
	},
	Bands:  check.Tolerances,
	Looks:  check.OnAverage,
	Known:  check.AtSpanEnd,
	Doubt:  check.Undoubted,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// mean measures the mean over time in a span.
type mean struct {
	span
	sum, time float64
}

func (a *mean) Step(m *check.Moment) {
	if v, dt, ok := a.read(m); ok {
		a.sum += v * dt
		a.time += dt
	}
}

func (a *mean) Measure(*check.Moment) check.Measure {
	if a.time == 0 {
		return a.nothing()
	}
	return check.Found(a.sum/a.time, math.NaN())
}
