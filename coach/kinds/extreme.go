package kinds

import (
	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

var extremeKind = &check.Kind{
	Name:   "extreme",
	Says:   "highest or lowest value in a span",
	Needs:  []string{"channel", "extreme", "from", "to"},
	Allows: []string{"about", "smooth"},
	Valid:  straight,
	Where: func(s *check.Spec, in *phrase.Language) string {
		return over(s, in, peak(s, in))
	},
	Unit: ofQuantity,
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &extreme{span: newSpan(s, f), sign: s.Sign()}
	},
	Bands:  check.Tolerances,
	Looks:  check.Throughout,
	Known:  check.AtSpanEnd,
	Doubt:  check.OneValue,
	Told:   check.WithPlace,
	Counts: check.NoCount,
}

// extreme measures the highest (sign 1) or lowest (−1) value in a span.
type extreme struct {
	span
	sign      float64
	value, at float64
	found     bool
}

func (e *extreme) Step(m *check.Moment) {
	v, _, ok := e.read(m)
	if ok && (!e.found || e.sign*v > e.sign*e.value) {
		e.value, e.at, e.found = v, m.Turn, true
	}
}

func (e *extreme) Measure(*check.Moment) check.Measure {
	if !e.found {
		return e.nothing()
	}
	return check.Found(e.value, e.at)
}
