package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

var afterExitKind = &check.Kind{
	Name:   "after-exit",
	Says:   "highest or lowest value in the recovery after the exit, less that at the exit",
	Needs:  []string{"channel", "extreme"},
	Allows: []string{},
	Valid:  straight,
	Where: func(s *check.Spec) string {
		return s.Extreme + " " + s.Quantity().Title + " in the recovery after the exit, less that at the exit"
	},
	Unit: ofQuantity,
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &afterExit{get: check.Read(s.Channel, f), name: s.Channel, facts: f, sign: s.Sign()}
	},
	Bands:  check.Tolerances,
	Looks:  check.AfterExit,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// afterExit measures how far a quantity goes up (sign 1) or down (−1) from its value at the exit.
type afterExit struct {
	get   check.Reader
	name  string
	facts *check.Facts
	sign  float64
	base  float64 // the value at the exit
	most  float64
	based bool
	after bool // a moment of the recovery was seen
}

func (a *afterExit) Step(m *check.Moment) {
	v, ok := a.get(m)
	switch {
	case !ok:
	case m.Out <= 0:
		a.base, a.most, a.based, a.after = v, v, true, false
	default:
		a.most, a.after = a.sign*math.Max(a.sign*a.most, a.sign*v), true
	}
}

func (a *afterExit) Measure(exit *check.Moment) check.Measure {
	switch {
	case exit == nil:
		return check.None(phrase.NoExit.Of())
	case !a.based:
		return check.Absent(a.name, a.facts, false)
	case !a.after:
		return check.None(phrase.NoRecovery.Of())
	}
	return check.Found(a.most-a.base, math.NaN())
}
