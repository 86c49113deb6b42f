package kinds

import (
	"math"

	"halfturn/coach/check"
)

const reversalSays = "largest reversal of what should only rise"

var reversalKind = &check.Kind{
	Name:   "reversal",
	Says:   reversalSays,
	Needs:  []string{"channel", "from", "to"},
	Allows: []string{"smooth"},
	Valid:  straight,
	Where:  as(reversalSays),
	Unit:   ofQuantity,
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &reversal{binned: newBinned(s, f)}
	},
	Bands:  check.Tolerances,
	Looks:  check.Throughout,
	Known:  check.AtEnd,
	Doubt:  check.Difference,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// reversal gives the largest fall below what was reached before, of a quantity that should
// only rise.
type reversal struct{ binned }

func (r *reversal) Measure(*check.Moment) check.Measure {
	at, v := r.profile()
	if len(v) < 3 {
		return r.nothing()
	}
	high, worst, where := v[0], 0.0, at[0]
	for i := range v {
		high = math.Max(high, v[i])
		if high-v[i] > worst {
			worst, where = high-v[i], at[i]
		}
	}
	return check.Found(worst, where)
}
