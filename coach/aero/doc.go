// Package aero holds the flight mechanics of the coach: the standard atmosphere, the coordinated turn, the stall,
// energy, drag, and the reference path that a maneuver's program predicts for an airplane.
//
// It is pure arithmetic: no clock, no I/O. All exported names take and return degrees, knots, feet and seconds. It is
// for simulator practice only; nothing here replaces an aircraft's handbook.
package aero
