package airplane

import "math"

// sigma is the density ratio of the standard atmosphere (U.S. Standard Atmosphere 1976).
func sigma(h float64) float64 { return raise(theta(h), 4.25588) }

// theta is the temperature ratio.
func theta(h float64) float64 { return 1 - 6.87559e-6*math.Max(-6000, math.Min(h, 36089)) }

// raise returns x to the power of y for x > 0, in a third of the time of math.Pow, which is exact for whole powers and
// knows what x means below zero. Every step asks for several.
func raise(x, y float64) float64 { return math.Exp(y * math.Log(x)) }

// impact is the impact pressure over the static pressure at a Mach number squared: (1 + M²/5)^3.5 − 1.
func impact(m2 float64) float64 {
	t := 1 + 0.2*m2
	return t*t*t*math.Sqrt(t) - 1
}

// Calibrated returns the calibrated airspeed for a true airspeed at an altitude in feet, both in kt, by compressible
// flow in the standard atmosphere.
func Calibrated(tas, h float64) float64 {
	th := theta(h)
	m2 := tas * tas / (661.4786 * 661.4786 * th)
	q := impact(m2) * raise(th, 5.25588)
	return 661.4786 * math.Sqrt(5*(raise(1+q, 1/3.5)-1))
}

// trueOf is the inverse of Calibrated.
func trueOf(cas, h float64) float64 {
	th := theta(h)
	m := cas / 661.4786
	q := impact(m*m) / raise(th, 5.25588)
	return 661.4786 * math.Sqrt(5*th*(raise(1+q, 1/3.5)-1))
}
