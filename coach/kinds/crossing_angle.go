package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

var crossingAngleKind = &check.Kind{
	Name:   "crossing-angle",
	Says:   "turn angle where a value is crossed",
	Needs:  []string{"channel", "from", "to"},
	Allows: []string{"cross", "falling", "smooth"},
	Valid:  straight,
	Where: func(s *check.Spec, in *phrase.Language) string {
		through := in.Number(s.Cross, -1) + unit(s, in)
		if s.Falling {
			return over(s, in, in.Wordf("where %s goes down through %s", quantity(s, in), through))
		}
		return over(s, in, in.Wordf("where %s goes up through %s", quantity(s, in), through))
	},
	Unit: in("°"),
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &crossingAngle{binned: newBinned(s, f), cross: s.Cross, falling: s.Falling}
	},
	Bands:  check.Tolerances,
	Looks:  check.Throughout,
	Known:  check.AtSpanEnd,
	Doubt:  check.Angle,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// crossingAngle measures the turn angle at which a quantity crosses a value: the mean of the
// first and the last such crossing in the span, which are the same in smooth air.
type crossingAngle struct {
	binned
	cross   float64
	falling bool
}

func (c *crossingAngle) Measure(*check.Moment) check.Measure {
	at, v := c.profile()
	if len(v) < 2 {
		return c.nothing()
	}
	first, last := math.NaN(), math.NaN()
	for i := 1; i < len(v); i++ {
		a, b := v[i-1]-c.cross, v[i]-c.cross
		if c.falling {
			a, b = -a, -b
		}
		if a < 0 && b >= 0 {
			x := at[i-1] - a/(b-a)*(at[i]-at[i-1])
			if math.IsNaN(first) {
				first = x
			}
			last = x
		}
	}
	if math.IsNaN(first) {
		return check.None(phrase.NotPassed.Of(
			phrase.Part("what", phrase.Plain(c.name)), phrase.Number("value", c.cross, -1, "")))
	}
	return check.Found((first+last)/2, (first+last)/2)
}
