package aero

import "math"

const (
	// Gravity is standard gravity in ft/s² (9.80665 m/s², exact by definition).
	Gravity = 9.80665 / 0.3048
	// FeetPerSecond is one knot in ft/s (1852 m/h, exact by definition).
	FeetPerSecond = 1852.0 / 3600 / 0.3048
)

const rad = math.Pi / 180
