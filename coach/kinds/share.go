package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

var shareKind = &check.Kind{
	Name:   "share",
	Says:   "share of time within a band",
	Needs:  []string{"channel", "within", "from", "to"},
	Allows: []string{"smooth"},
	Valid:  straight,
	Where: func(s *check.Spec, in *phrase.Language) string {
		return over(s, in, in.Wordf("share of time with %s within %s", quantity(s, in), amount(s, in)))
	},
	Unit: in("ratio"),
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &share{span: newSpan(s, f), within: s.Within}
	},
	Bands:  check.Tolerances,
	Looks:  check.OnAverage,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// share measures the share of time (0 to 1) in which the quantity stays within a distance of 0;
// its place is the turn angle of the worst moment.
type share struct {
	span
	within, good, time float64
	worst, at          float64
}

func (a *share) Step(m *check.Moment) {
	v, dt, ok := a.read(m)
	if !ok {
		return
	}
	a.time += dt
	if math.Abs(v) <= a.within {
		a.good += dt
	}
	if math.Abs(v) > a.worst {
		a.worst, a.at = math.Abs(v), m.Turn
	}
}

func (a *share) Measure(*check.Moment) check.Measure {
	if a.time == 0 {
		return a.nothing()
	}
	return check.Found(a.good/a.time, a.at)
}
