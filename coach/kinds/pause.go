package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

var pauseKind = &check.Kind{
	Name:   "pause",
	Says:   "share of the time of a span in which a quantity stayed near one value for longest",
	Needs:  []string{"channel", "within", "from", "to"},
	Allows: []string{"smooth"},
	Valid:  straight,
	Where: func(s *check.Spec, in *phrase.Language) string {
		return over(s, in, in.Wordf("longest time with %s within %s of one value, as a share of the time",
			quantity(s, in), amount(s, in)))
	},
	Unit: in("ratio"),
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &pause{timed: newTimed(s, f), within: s.Within}
	},
	Bands:  check.Tolerances,
	Looks:  check.OnAverage,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.WithPlace,
	Counts: check.NoCount,
}

// pause measures the longest stop of a quantity that should always change: the longest time in which it stays within a
// distance of one value, over the whole time in the span.
type pause struct {
	timed
	within float64
}

func (p *pause) Measure(*check.Moment) check.Measure {
	at, v, t := p.course()
	n := len(v)
	if n < 3 || t[n-1] <= t[0] {
		return p.nothing()
	}
	longest, where := 0.0, at[0]
	for i := range v {
		low, high := v[i], v[i]
		for j := i + 1; j < n; j++ {
			low, high = math.Min(low, v[j]), math.Max(high, v[j])
			if high-low > 2*p.within {
				break
			}
			if t[j]-t[i] > longest {
				longest, where = t[j]-t[i], (at[i]+at[j])/2
			}
		}
	}
	return check.Found(longest/(t[n-1]-t[0]), where)
}
