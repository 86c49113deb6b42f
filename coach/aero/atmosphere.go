package aero

import "math"

// The constants of the U.S. Standard Atmosphere 1976 (the same as ISA below 36,089 ft).
const (
	lapse      = 6.87559e-6 // share of the sea-level temperature lost per foot
	pressPower = 5.25588    // exponent of the pressure ratio
	soundSpeed = 661.4786   // kt at 15 °C
	topFeet    = 36089      // ft, where the linear temperature profile ends
)

// Theta returns the standard temperature ratio at a pressure altitude in ft, from −6,000 ft
// to the tropopause; altitudes beyond are held at the nearer end.
// Source: U.S. Standard Atmosphere 1976.
func Theta(altitude float64) float64 {
	return 1 - lapse*math.Max(-6000, math.Min(altitude, topFeet))
}

// Delta returns the standard pressure ratio at an altitude in ft: theta^5.25588.
// Source: U.S. Standard Atmosphere 1976.
func Delta(altitude float64) float64 { return raise(Theta(altitude), pressPower) }

// Sigma returns the standard density ratio at an altitude in ft: theta^4.25588.
// Source: U.S. Standard Atmosphere 1976.
func Sigma(altitude float64) float64 { return raise(Theta(altitude), pressPower-1) }

// raise returns x to the power of y for x > 0, in a third of the time of math.Pow, which is exact for whole powers and
// knows what x means below zero. The flight path asks for millions.
func raise(x, y float64) float64 { return math.Exp(y * math.Log(x)) }

// impact returns the impact pressure of subsonic compressible flow over the static pressure, for the square of the
// Mach number: (1 + M²/5)^3.5 − 1.
func impact(mach2 float64) float64 {
	t := 1 + 0.2*mach2
	return t*t*t*math.Sqrt(t) - 1
}

// mach2 is the inverse of impact.
func mach2(impact float64) float64 { return 5 * (raise(1+impact, 1/3.5) - 1) }

// TrueAirspeed converts calibrated airspeed (kt) at an altitude (ft, standard atmosphere) to
// true airspeed (kt). Subsonic compressible flow: the impact pressure that calibrated airspeed
// means at sea level is the one felt at altitude (the definition of calibrated airspeed).
func TrueAirspeed(cas, altitude float64) float64 {
	m0 := cas / soundSpeed
	return soundSpeed * math.Sqrt(mach2(impact(m0*m0)/Delta(altitude))*Theta(altitude))
}

// CalibratedAirspeed converts true airspeed (kt) at an altitude (ft, standard atmosphere) to
// calibrated airspeed (kt). It is the inverse of TrueAirspeed.
func CalibratedAirspeed(tas, altitude float64) float64 {
	m2 := tas * tas / (soundSpeed * soundSpeed * Theta(altitude))
	return soundSpeed * math.Sqrt(mach2(impact(m2)*Delta(altitude)))
}
