package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

var setUpKind = &check.Kind{
	Name:   "set-up",
	Says:   "mean over the set-up, before the leg",
	Needs:  []string{"channel"},
	Allows: []string{"about"},
	Valid:  straight,
	Where: func(s *check.Spec, in *phrase.Language) string {
		return in.Wordf("%s over the set-up, mean", quantity(s, in))
	},
	Unit: ofQuantity,
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &setUp{spec: s, facts: f}
	},
	Bands:  check.Tolerances,
	Looks:  check.BeforeTurn,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// setUp looks up a mean over the level flight before the leg, which the coach has measured.
type setUp struct {
	spec  *check.Spec
	facts *check.Facts
}

func (*setUp) Step(*check.Moment) {}

func (s *setUp) Measure(*check.Moment) check.Measure {
	v, ok := s.facts.Setup[s.spec.Channel]
	if len(s.facts.Setup) == 0 { // the leg began where the one before it ended
		return check.None(phrase.NoLevelFlight.Of())
	}
	if !ok {
		return check.Absent(s.spec.Channel, s.facts, false)
	}
	return check.Found(v, math.NaN())
}
