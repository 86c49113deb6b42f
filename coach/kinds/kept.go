package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

var keptKind = &check.Kind{
	Name:   "kept",
	Says:   "time after the exit for which a quantity stays within a distance of its value there",
	Needs:  []string{"channel", "within"},
	Allows: []string{},
	Valid:  straight,
	Where: func(s *check.Spec, in *phrase.Language) string {
		return in.Wordf("time after the exit for which %s stays within %s of its value there", quantity(s, in),
			amount(s, in))
	},
	Unit: in("s"),
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &kept{fromExit: newFromExit(s, f), within: s.Within}
	},
	Bands:  check.Tolerances,
	Looks:  check.AfterExit,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// kept measures how long after the exit a quantity is kept near its value there.
type kept struct {
	fromExit
	within float64
	left   bool    // it went away
	time   float64 // s
}

func (k *kept) Step(m *check.Moment) {
	v, ok := k.get(m)
	switch {
	case !ok:
	case m.Out <= 0:
		k.base, k.based, k.left, k.time = v, true, false, 0
	case k.left || math.Abs(v-k.base) > k.within:
		k.left = true
	default:
		k.time = m.Out
	}
}

func (k *kept) Measure(exit *check.Moment) check.Measure {
	return k.measured(exit, k.left || k.time != 0, k.time)
}

// amount words the distance that a check allows, with its unit.
func amount(s *check.Spec, in *phrase.Language) string {
	return in.Number(s.Within, -1) + unit(s, in)
}
