package kinds

import (
	"math"

	"halfturn/coach/check"
)

const (
	abeamSays = "time until the pylon would be abeam, in the middle of the roll-in"
	apartSays = "distance from the pylon where the turn began, in the middle of the roll-in"
)

var abeamKind = &check.Kind{
	Name:   "abeam",
	Says:   abeamSays,
	Needs:  []string{"from", "to"},
	Allows: []string{},
	Valid:  anything,
	Where:  as(abeamSays),
	Unit:   in("s"),
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &begun{about: newAbout(s, f), of: func(until, _ float64) float64 { return until }}
	},
	Bands:  check.Tolerances,
	Looks:  check.OnAverage,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

var apartKind = &check.Kind{
	Name:   "apart",
	Says:   apartSays,
	Needs:  []string{"from", "to"},
	Allows: []string{},
	Valid:  anything,
	Where:  as(apartSays),
	Unit:   in("ft"),
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &begun{about: newAbout(s, f), of: func(_, distance float64) float64 { return distance }}
	},
	Bands:  check.Tolerances,
	Looks:  check.OnAverage,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// begun measures how a turn was begun at its pylon: when, or how far away. The pylon is the one that was chosen, else
// the one that was kept on the wing from one turn angle to another.
type begun struct {
	about

	of func(until, distance float64) float64
}

func (b *begun) Measure(*check.Moment) check.Measure {
	pylon, ok := PylonOf(b.facts, b.from, b.end())
	if !ok {
		return b.none()
	}
	until, distance, ok := b.facts.Way().Begun(pylon)
	if !ok {
		return b.none()
	}
	return check.Found(b.of(until, distance), math.NaN())
}
