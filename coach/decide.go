package coach

import (
	"cmp"
	"slices"
)

// Names that stand where a card's name would.
const (
	AutoManeuver = "auto"               // chosen to find the maneuver from the flight
	AutoTitle    = "Whichever is flown" // the title of that choice
	Unclear      = "unclear"            // the maneuver of a leg that no card fits clearly
)

// A Fit says how far a leg is from what a card describes.
type Fit struct {
	Maneuver string  `json:"maneuver"`
	Misfit   float64 `json:"misfit"` // 0 is the card's own profile; about 1 separates one maneuver from another
}

// A Decision says which maneuver a leg was.
type Decision struct {
	Maneuver string  `json:"maneuver"` // Unclear when no card stands out
	Margin   float64 `json:"margin"`   // the misfit of the second card less that of the best
	Fits     []Fit   `json:"fits"`     // the best first
}

// What a decision needs. Common practice, no source; proved on the built-in airplanes and on recorded flights.
const (
	LeastMargin = 0.3 // between the best and the second card
	MostMisfit  = 1.1 // of the best card
)

// Decide chooses the card that fits clearly, if any. It sorts the fits.
func Decide(fits []Fit) Decision {
	d := Decision{Maneuver: Unclear, Fits: fits}
	slices.SortStableFunc(fits, func(a, b Fit) int { return cmp.Compare(a.Misfit, b.Misfit) })
	if len(fits) == 0 {
		return d
	}
	d.Margin = 2 * MostMisfit // a single card is judged by its own misfit alone
	if len(fits) > 1 {
		d.Margin = Round(fits[1].Misfit-fits[0].Misfit, 2)
	}
	if fits[0].Misfit <= MostMisfit && d.Margin >= LeastMargin {
		d.Maneuver = fits[0].Maneuver
	}
	return d
}
