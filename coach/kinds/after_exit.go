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
	Where: func(s *check.Spec, in *phrase.Language) string {
		return in.Wordf("%s in the recovery after the exit, less that at the exit", peak(s, in))
	},
	Unit: ofQuantity,
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &afterExit{fromExit: newFromExit(s, f), sign: s.Sign()}
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
	fromExit
	sign  float64
	most  float64
	after bool // a moment of the recovery was seen
}

// fromExit is the part of a judge that compares the recovery with the exit.
type fromExit struct {
	get   check.Reader
	name  string
	facts *check.Facts
	base  float64 // the value at the exit
	based bool
}

func newFromExit(s *check.Spec, f *check.Facts) fromExit {
	return fromExit{get: check.Read(s.Channel, f), name: s.Channel, facts: f}
}

// measured is a value found in the recovery; none where there was no exit, or nothing of the recovery was seen.
func (e *fromExit) measured(exit *check.Moment, recovered bool, value float64) check.Measure {
	switch {
	case exit == nil:
		return check.None(phrase.NoExit.Of())
	case !e.based:
		return check.Absent(e.name, e.facts, false)
	case !recovered:
		return check.None(phrase.NoRecovery.Of())
	}
	return check.Found(value, math.NaN())
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
	return a.measured(exit, a.after, a.most-a.base)
}
