package kinds

import (
	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

var extremeAngleKind = &check.Kind{
	Name:   "extreme-angle",
	Says:   "turn angle of the highest or lowest value in a span",
	Needs:  []string{"channel", "extreme", "from", "to"},
	Allows: []string{"smooth", "within"},
	Valid:  straight,
	Where: func(s *check.Spec, in *phrase.Language) string {
		return over(s, in, in.Wordf("where the %s is", peak(s, in)))
	},
	Unit: in("°"),
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &extremeAngle{binned: newBinned(s, f), sign: s.Sign(), within: s.Within}
	},
	Bands:  check.Tolerances,
	Looks:  check.Throughout,
	Known:  check.AtSpanEnd,
	Doubt:  check.Angle,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// extremeAngle measures the turn angle of the highest or lowest value in a span: the middle of
// the stretch around it that comes within a tolerance of it, so that the result does
// not depend on turbulence or on where in a flat top the extreme happens to lie.
type extremeAngle struct {
	binned
	sign, within float64
}

func (e *extremeAngle) Measure(*check.Moment) check.Measure {
	at, v := e.profile()
	if len(v) < 3 {
		return e.nothing()
	}
	peak := top(v, e.sign)
	first, last := peak, peak
	for first > 0 && e.sign*(v[peak]-v[first-1]) <= e.within {
		first--
	}
	for last < len(v)-1 && e.sign*(v[peak]-v[last+1]) <= e.within {
		last++
	}
	middle := (at[first] + at[last]) / 2
	return check.Found(middle, middle)
}
