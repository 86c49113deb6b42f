package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/stream"
)

const returnSays = "heading at the end against the first entry heading"

var returnKind = &check.Kind{
	Name:   "return",
	Says:   returnSays,
	Needs:  []string{},
	Allows: []string{},
	Valid:  anything,
	Where:  as(returnSays),
	Unit:   in("°"),
	Series: returned,
	Bands:  check.Tolerances,
	Looks:  check.AcrossLegs,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// returned gives how far the last exit heading is from where the legs together should lead: the first entry heading,
// or a whole turn from it after an odd number of legs.
func returned(_ *check.Spec, f *check.SeriesFacts) check.Measure {
	n := len(f.Finished)
	if n < 2 || n < f.Legs {
		return tooFew()
	}
	out, back := f.Finished[0].Entry, f.Finished[n-1].Exit
	return check.Found(stream.Wrap180(back-out-f.Turn*float64(n%2)), math.NaN())
}
