package stream

import "math"

// Wrap360 brings an angle in degrees into [0, 360).
func Wrap360(deg float64) float64 {
	if deg >= 0 && deg < 360 { // the usual case
		return deg
	}
	deg = math.Mod(deg, 360)
	if deg < 0 {
		deg += 360
	}
	if deg >= 360 { // a tiny negative value rounds up to 360
		deg = 0
	}
	return deg
}

// Wrap180 brings an angle in degrees into [−180, 180).
func Wrap180(deg float64) float64 { return Wrap360(deg+180) - 180 }
