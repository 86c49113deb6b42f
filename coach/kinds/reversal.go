package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

var reversalKind = &check.Kind{
	Name:   "reversal",
	Says:   "largest reversal of what should only rise, or, with falling = true, only fall",
	Needs:  []string{"channel", "from", "to"},
	Allows: []string{"falling", "smooth"},
	Valid:  straight,
	Where: func(s *check.Spec, in *phrase.Language) string {
		if s.Falling {
			return over(s, in, in.Wordf("largest reversal of what should only fall, of %s", quantity(s, in)))
		}
		return over(s, in, in.Wordf("largest reversal of what should only rise, of %s", quantity(s, in)))
	},
	Unit: ofQuantity,
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		r := &reversal{binned: newBinned(s, f), sign: 1}
		if s.Falling {
			r.sign = -1
		}
		return r
	},
	Bands:  check.Tolerances,
	Looks:  check.Throughout,
	Known:  check.AtEnd,
	Doubt:  check.Difference,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// reversal measures how far a quantity that should only rise (sign 1) or only fall (−1) goes back from the farthest
// value that it had reached.
type reversal struct {
	binned
	sign float64
}

func (r *reversal) Measure(*check.Moment) check.Measure {
	at, v := r.profile()
	if len(v) < 3 {
		return r.nothing()
	}
	reached, worst, where := math.Inf(-1), 0.0, at[0]
	for i := range v {
		x := r.sign * v[i]
		reached = math.Max(reached, x)
		if reached-x > worst {
			worst, where = reached-x, at[i]
		}
	}
	return check.Found(worst, where)
}
