package kinds

import (
	"math"

	"halfturn/coach/check"
)

const directionsSays = "legs flown the same way as the one before"

var directionsKind = &check.Kind{
	Name:   "directions",
	Says:   directionsSays,
	Needs:  []string{},
	Allows: []string{},
	Valid:  anything,
	Where:  as(directionsSays),
	Unit:   in("legs"),
	Series: ofTwo(directions),
	Bands:  check.Exact,
	Looks:  check.AcrossLegs,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.InWords,
	Counts: check.Sides,
}

// directions counts the legs flown the same way as the one before.
func directions(_ *check.Spec, f *check.SeriesFacts) check.Measure {
	same := 0.0
	for i := 1; i < len(f.Finished); i++ {
		if f.Finished[i].Direction == f.Finished[i-1].Direction {
			same++
		}
	}
	return check.Found(same, math.NaN())
}
