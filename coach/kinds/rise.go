package kinds

import "halfturn/coach/check"

const riseSays = "largest rise above the value at the start of a span"

var riseKind = &check.Kind{
	Name:   "rise",
	Says:   riseSays,
	Needs:  []string{"channel", "from", "to"},
	Allows: []string{"smooth"},
	Valid:  straight,
	Where:  as(riseSays),
	Unit:   ofQuantity,
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &rise{binned: newBinned(s, f)}
	},
	Bands:  check.Tolerances,
	Looks:  check.Throughout,
	Known:  check.AtEnd,
	Doubt:  check.FromStart,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// rise gives how far a quantity climbs above its value at the start of the span.
type rise struct{ binned }

func (r *rise) Measure(*check.Moment) check.Measure {
	at, v := r.profile()
	if len(v) < 3 {
		return r.nothing()
	}
	i := top(v, 1)
	return check.Found(v[i]-v[0], at[i])
}
