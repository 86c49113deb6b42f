package trainer

import (
	"math"

	"halfturn/stream/trainer/airplane"
	"halfturn/stream/trainer/option"
)

// The ranges of the numbers in a Flight.
var (
	LegRange       = option.Range{Low: 1, High: 100}
	BearingRange   = option.Range{Low: 0, High: 360}      // of the wind and of the start, °
	WindRange      = option.Range{Low: 0, High: 100}      // kt
	StrengthRange  = option.Range{Low: 0.25, High: 1.5}   // of a flaw
	latitudeRange  = option.Range{Low: -85, High: 85}     // °
	longitudeRange = option.Range{Low: -180, High: 180}   // °
	altitudeRange  = option.Range{Low: 1000, High: 25000} // ft MSL
)

const (
	rad     = math.Pi / 180
	gravity = airplane.Gravity
	knot    = airplane.Knot
)

func sq(x float64) float64 { return x * x }

// clamp limits x to ±most.
func clamp(x, most float64) float64 { return math.Max(-most, math.Min(x, most)) }
