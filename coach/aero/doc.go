// Package aero holds the flight mechanics of the coach: the standard atmosphere, the coordinated turn, the stall,
// energy, drag, and the reference path that a maneuver's program predicts for an airplane.
//
// It is pure arithmetic: no clock, no I/O. All exported names take and return degrees, knots, feet and seconds. It is
// for simulator practice only; nothing here replaces an aircraft's handbook.
//
// # The reference path
//
// A [Program] gives bank and nose over the turn angle; [Fly] flies it as a point mass, whose load factor is the one
// that makes the nose follow. Three things are left open and found by [Regain], because a pilot sets them by what is
// seen: the highest nose, by the lowest airspeed; the depth of the dive, by the height to be regained; and the power,
// set before the entry and then left alone, by the airspeed to be regained. At the power of level flight a maneuver
// that is flown slower than its entry would end fast.
//
// The roll-in is brisk at first. The roll-out is at a steady rate and ends with the turn: the last two degrees are
// turned from 8° of bank at least, or a shallow turn would take half a minute for its last ten. The pull-out is done
// while some bank is left, and the last of the nose comes level with the wings; where it would be heavier than 2.5 g,
// and by a fifth than the pull, it is spread over more of the roll-out. These shapes are those of recorded good flights
// of five classes of airplane, which the tests of package plan hold the path to.
package aero
