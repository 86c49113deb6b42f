// Package aero is the flight mechanics the coach needs: the standard atmosphere, the
// coordinated turn, the stall, energy, drag, and the reference path a maneuver's program
// predicts for an airplane.
//
// It is pure arithmetic: no clock, no I/O. Angles are degrees, speeds knots, lengths feet,
// times seconds at every exported name. For simulator practice only: nothing here replaces
// an aircraft's handbook.
package aero

import "math"

const (
	// Gravity is standard gravity in ft/s² (9.80665 m/s², exact by definition).
	Gravity = 9.80665 / 0.3048
	// FeetPerSecond is one knot in ft/s (1852 m/h, exact by definition).
	FeetPerSecond = 1852.0 / 3600 / 0.3048
)

const rad = math.Pi / 180
