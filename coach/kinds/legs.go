package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

const legsSays = "finished legs"

var legsKind = &check.Kind{
	Name:   "legs",
	Says:   legsSays,
	Needs:  []string{},
	Allows: []string{},
	Valid:  anything,
	Where:  as(legsSays),
	Unit:   in("legs"),
	Series: legs,
	Bands:  check.Exact,
	Looks:  check.AcrossLegs,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.InWords,
	Counts: check.Legs,
}

// legs counts the finished legs. It is not measured where something other than the pilot ended the series.
func legs(_ *check.Spec, f *check.SeriesFacts) check.Measure {
	n := len(f.Finished)
	if n < f.Legs && f.Cut {
		return check.None(phrase.EndedEarly.Of())
	}
	return check.Found(float64(n), math.NaN())
}
