package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

var rmsKind = &check.Kind{
	Name:   "rms",
	Says:   "root mean square over a span",
	Needs:  []string{"channel", "from", "to"},
	Allows: []string{"smooth"},
	Valid:  straight,
	Where: func(s *check.Spec, in *phrase.Language) string {
		return over(s, in, in.Wordf("root mean square of %s", quantity(s, in)))
	},
	Unit: ofQuantity,
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &rms{span: newSpan(s, f)}
	},
	Bands:  check.Tolerances,
	Looks:  check.OnAverage,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// rms measures the root mean square over time in a span.
type rms struct {
	span
	sum, time float64
}

func (a *rms) Step(m *check.Moment) {
	if v, dt, ok := a.read(m); ok {
		a.sum += v * v * dt
		a.time += dt
	}
}

func (a *rms) Measure(*check.Moment) check.Measure {
	if a.time == 0 {
		return a.nothing()
	}
	return check.Found(math.Sqrt(a.sum/a.time), math.NaN())
}
