package check

import (
	"math"

	"halfturn/coach/aero"
	"halfturn/coach/maneuver"
	"halfturn/stream"
)

// A get reads one quantity of a moment.
type get func(m *Moment) (float64, bool)

// Reader returns what reads a channel or computed quantity of the moments of a leg; ok is false
// where a moment lacks it.
func Reader(name string, f *Facts) func(m *Moment) (v float64, ok bool) { return getter(name, f) }

// getter returns the reader of a channel or computed quantity.
func getter(name string, f *Facts) get {
	switch name {
	case maneuver.Climb:
		return func(m *Moment) (float64, bool) {
			now, ok := m.Sample.Get(stream.Altitude)
			then, had := f.Entry.Sample.Get(stream.Altitude)
			return now - then, ok && had
		}
	case maneuver.StallMargin:
		return func(m *Moment) (float64, bool) { return StallMargin(&m.Sample, f.Aircraft.Stall) }
	case maneuver.TurnAngle:
		return func(m *Moment) (float64, bool) { return m.Turn, true }
	case maneuver.Power:
		return Power
	case maneuver.Slip:
		return func(m *Moment) (float64, bool) { return Slip(&m.Sample) }
	}
	c, ok := stream.ChannelNamed(name)
	if !ok {
		return func(*Moment) (float64, bool) { return 0, false }
	}
	return func(m *Moment) (float64, bool) { return m.Sample.Get(c) }
}

// absent says why a quantity has no value: nobody gave what it takes, or the stream lacks it, all along or, where it
// was seen elsewhere, at this place.
func absent(name string, f *Facts, seen bool) Measure {
	switch {
	case name == maneuver.StallMargin && f.Aircraft.Stall == 0:
		return none("the aircraft card gives no stall speed")
	case name == maneuver.Slip:
		name = "ball, lateral load or sideslip"
	}
	if seen {
		return none("the stream had no %s there", name)
	}
	return none("the stream has no %s", name)
}

// StallMargin returns the airspeed above the stall speed at the load factor of the moment, in
// kt. stall is the clean stall speed at 1 g in kt, 0 when unknown. Load factors below a
// quarter of a g are taken as that: near zero g the law says only that the wing carries nothing.
func StallMargin(s *stream.Sample, stall float64) (float64, bool) {
	v, ok := s.Get(stream.Airspeed)
	n, has := s.Get(stream.NormalLoad)
	if !ok || !has || stall == 0 {
		return 0, false
	}
	return v - aero.StallSpeed(stall, math.Max(n, 0.25)), true
}

// Power returns the engine setting as a ratio: throttle, else torque, else N1. Rpm alone says
// nothing of it: that of a fixed-pitch propeller follows the airspeed, that of a governed one
// stays whatever the setting.
func Power(m *Moment) (float64, bool) {
	if v, ok := m.Sample.Get(stream.Throttle); ok {
		return v, true
	}
	if v, ok := m.Sample.Get(stream.Torque); ok {
		return v / 100, true
	}
	v, ok := m.Sample.Get(stream.N1)
	return v / 100, ok
}

// BallPerDegree is the ball's travel in widths per degree of sideslip, used where a stream has
// neither ball nor lateral load. Wind from the right pushes the airplane left, which sends the ball right.
// How far depends on the airplane and grows with the speed: measured from 0.05 to 1.1 in recorded flights of
// five classes of airplane, 0.2 to 0.3 in most of the light ones. So it tells the side, and only about how far.
const BallPerDegree = 0.25

// Slip returns the ball's widths out of the middle, with the sign of the ball: the ball, sent
// or worked out from the lateral load factor; else the lateral load factor times
// stream.BallPerG; else the sideslip times BallPerDegree.
func Slip(s *stream.Sample) (float64, bool) {
	if v, ok := s.Get(stream.Ball); ok {
		return v, true
	}
	if v, ok := s.Get(stream.LateralLoad); ok {
		return stream.BallPerG * v, true
	}
	v, ok := s.Get(stream.Sideslip)
	return BallPerDegree * v, ok
}
