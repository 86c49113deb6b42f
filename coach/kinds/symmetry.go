package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

var symmetryKind = &check.Kind{
	Name:   "symmetry",
	Says:   "difference of a leg check between the legs of a series",
	Needs:  []string{"of"},
	Allows: []string{},
	Valid:  anything,
	Where: func(s *check.Spec, in *phrase.Language) string {
		return in.Wordf("difference of %s from leg to leg", s.Of)
	},
	Unit:   in(""),
	Series: ofTwo(symmetry),
	Bands:  check.Tolerances,
	Looks:  check.AcrossLegs,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// symmetry gives the largest difference of a leg check from one leg to the next.
func symmetry(s *check.Spec, f *check.SeriesFacts) check.Measure {
	most := 0.0
	for i := 1; i < len(f.Finished); i++ {
		a, b := f.Finished[i-1].Value(s.Of), f.Finished[i].Value(s.Of)
		if a == nil || b == nil {
			return check.None(phrase.NotOnEveryLeg.Of())
		}
		most = math.Max(most, math.Abs(*b-*a))
	}
	return check.Found(most, math.NaN())
}

// tooFew is the measure of what takes more finished legs than there are.
func tooFew() check.Measure { return check.None(phrase.TooFewLegs.Of()) }

// A seriesMeasure measures a series.
type seriesMeasure = func(*check.Spec, *check.SeriesFacts) check.Measure

// ofTwo measures only where at least two legs were finished.
func ofTwo(measure seriesMeasure) seriesMeasure {
	return func(s *check.Spec, f *check.SeriesFacts) check.Measure {
		if len(f.Finished) < 2 {
			return tooFew()
		}
		return measure(s, f)
	}
}
