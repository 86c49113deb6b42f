package airplane

import "math"

// sigma is the density ratio of the standard atmosphere (U.S. Standard Atmosphere 1976).
func sigma(h float64) float64 { return math.Pow(theta(h), 4.25588) }

// theta is the temperature ratio.
func theta(h float64) float64 { return 1 - 6.87559e-6*math.Max(-6000, math.Min(h, 36089)) }

// Calibrated returns the calibrated airspeed for a true airspeed at an altitude in feet, both in kt, by compressible
// flow in the standard atmosphere.
func Calibrated(tas, h float64) float64 {
	th := theta(h)
	m2 := tas * tas / (661.4786 * 661.4786 * th)
	q := (math.Pow(1+0.2*m2, 3.5) - 1) * math.Pow(th, 5.25588)
	return 661.4786 * math.Sqrt(5*(math.Pow(1+q, 1/3.5)-1))
}

// trueOf is the inverse of Calibrated.
func trueOf(cas, h float64) float64 {
	th := theta(h)
	m := cas / 661.4786
	q := (math.Pow(1+0.2*m*m, 3.5) - 1) / math.Pow(th, 5.25588)
	return 661.4786 * math.Sqrt(5*th*(math.Pow(1+q, 1/3.5)-1))
}
