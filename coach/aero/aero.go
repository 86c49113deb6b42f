package aero

import "math"

const (
	// Gravity is standard gravity in ft/s² (9.80665 m/s², exact by definition).
	Gravity = 9.80665 / 0.3048
	// FeetPerSecond is one knot in ft/s (1852 m/h, exact by definition).
	FeetPerSecond = 1852.0 / 3600 / 0.3048
)

const rad = math.Pi / 180

// EnergyHeight is what an altitude or height (ft) and a true airspeed (kt) are worth together, ft: h + V²/2g. Source:
// FAA-H-8083-3C p. 4-7.
func EnergyHeight(altitude, tas float64) float64 {
	v := tas * FeetPerSecond
	return altitude + v*v/(2*Gravity)
}
