package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

var rangeKind = &check.Kind{
	Name:   "range",
	Says:   "highest value in a span less the lowest",
	Needs:  []string{"channel", "from", "to"},
	Allows: []string{"smooth"},
	Valid:  straight,
	Where: func(s *check.Spec, in *phrase.Language) string {
		return over(s, in, in.Wordf("highest less lowest %s", quantity(s, in)))
	},
	Unit: ofQuantity,
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &rangeOf{span: newSpan(s, f), low: math.Inf(1), high: math.Inf(-1)}
	},
	Bands:  check.Tolerances,
	Looks:  check.Throughout,
	Known:  check.AtSpanEnd,
	Doubt:  check.Undoubted,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// rangeOf measures how far a quantity moves in a span.
type rangeOf struct {
	span
	low, high float64
}

func (r *rangeOf) Step(m *check.Moment) {
	if v, _, ok := r.read(m); ok {
		r.low, r.high = math.Min(r.low, v), math.Max(r.high, v)
	}
}

func (r *rangeOf) Measure(*check.Moment) check.Measure {
	if r.low > r.high {
		return r.nothing()
	}
	return check.Found(r.high-r.low, math.NaN())
}
