package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

var departureKind = &check.Kind{
	Name:   "departure",
	Says:   "largest departure from the entry, or from the start of the span",
	Needs:  []string{"channel"},
	Allows: []string{"from", "to"},
	Valid:  straight,
	Where: func(s *check.Spec, in *phrase.Language) string {
		if s.From != nil && s.To != nil {
			return over(s, in, in.Wordf("largest departure of %s from the start of the span", quantity(s, in)))
		}
		return in.Wordf("largest departure of %s from the entry", quantity(s, in))
	},
	Unit: ofQuantity,
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &departure{span: newSpan(wholeLeg(s), f), entry: &f.Entry}
	},
	Bands:  check.Tolerances,
	Looks:  check.Throughout,
	Known:  check.AtEnd,
	Doubt:  check.OneValue,
	Told:   check.WithPlace,
	Counts: check.NoCount,
}

// departure measures the largest difference from the entry value, with its sign; in a span that starts later, from the
// value at its start.
type departure struct {
	span
	entry *check.Moment
	base  float64
	based bool

	value, at float64
	found     bool
}

func (d *departure) Step(m *check.Moment) {
	v, _, ok := d.read(m)
	if !ok {
		return
	}
	if !d.based {
		d.base, d.based = v, true
		if then, had := d.get(d.entry); had && d.from == 0 {
			d.base = then
		}
	}
	if !d.found || math.Abs(v-d.base) > math.Abs(d.value) {
		d.value, d.at, d.found = v-d.base, m.Turn, true
	}
}

func (d *departure) Measure(*check.Moment) check.Measure {
	if !d.found {
		return d.nothing()
	}
	return check.Found(d.value, d.at)
}

// wholeLeg gives a check without a span the whole leg.
func wholeLeg(spec *check.Spec) *check.Spec {
	c := *spec
	if c.From == nil {
		c.From, c.To = new(0.0), new(1e4)
	}
	return &c
}
