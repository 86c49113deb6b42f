package airplane

import (
	"math"

	"halfturn/stream"
)

// Terrain is the height of the ground everywhere, ft MSL.
const Terrain = 600

// Fill writes the airplane's state as a sample.
func (p *Model) Fill(s *stream.Sample) {
	s.Reset()
	cas := Calibrated(p.Speed/Knot, p.Altitude)
	slow := sq(p.Airplane.Entry / p.EquivalentAirspeed())
	north := p.Speed*math.Cos(p.Climb)*math.Cos(p.chi) + p.wind[0]
	east := p.Speed*math.Cos(p.Climb)*math.Sin(p.chi) + p.wind[1]
	n := p.lift(p.Speed, p.alpha)
	excess := p.thrust(p.Speed) - p.Drag(p.Speed, n)
	sa, ca := math.Sincos(p.alpha - p.set)
	side := p.sideLoad(p.Speed)
	for _, c := range [...]struct {
		channel stream.Channel
		value   float64
	}{
		{stream.Time, p.Time},
		{stream.Heading, p.Euler[0] / rad},
		{stream.Pitch, p.Euler[1] / rad},
		{stream.Bank, p.Euler[2] / rad},
		{stream.Airspeed, cas},
		{stream.TrueAirspeed, p.Speed / Knot},
		{stream.GroundSpeed, math.Hypot(north, east) / Knot},
		{stream.Track, math.Atan2(east, north) / rad},
		{stream.VerticalSpeed, p.Speed * math.Sin(p.Climb) * 60},
		{stream.Altitude, p.Altitude},
		{stream.Height, p.Height()},
		{stream.Latitude, p.lat / rad},
		{stream.Longitude, math.Remainder(p.lon, 2*math.Pi) / rad},
		{stream.AngleOfAttack, (p.alpha - p.set) / rad},
		{stream.Sideslip, p.beta / rad},
		{stream.Ball, stream.BallPerG * side},
		{stream.NormalLoad, n*ca - excess*sa},
		{stream.LateralLoad, side},
		{stream.AxialLoad, excess*ca + n*sa},
		{stream.RollRate, p.rates[0] / rad},
		{stream.PitchRate, p.rates[1] / rad},
		{stream.YawRate, p.rates[2] / rad},
		{stream.Throttle, p.throttle},
		{stream.RPM, p.rpm()},
		{stream.Elevator, clamp((p.alpha-p.set-NosePitch)/stallAngle+0.1*p.rates[1], 1)},
		{stream.Aileron, clamp(p.roll/(p.Airplane.RollRate*rad)*math.Sqrt(slow), 1)},
		{stream.Rudder, p.pedal},
		{stream.StallWarning, flag(p.alpha > 0.9*stallAngle)},
		{stream.OnGround, 0},
		{stream.Paused, 0},
	} {
		s.Put(c.channel, c.value)
	}
	if p.Airplane.Turbine {
		s.Put(stream.Torque, 100*p.throttle)
		s.Put(stream.N1, 55+45*p.throttle)
	}
}

// rpm follows airspeed where no governor holds it, by as much as on a recorded flight of a model
// class: 2,381 rpm at 105 kt, 2,133 at 54 kt.
func (p *Model) rpm() float64 {
	change := 0.3 * (p.throttle - p.Airplane.Throttle)
	if p.Airplane.Governed {
		return p.Airplane.RPM * (1 + change)
	}
	return p.Airplane.RPM * (0.79 + 0.21*p.EquivalentAirspeed()/p.Airplane.Entry + change)
}

func clamp(x, most float64) float64 { return math.Max(-most, math.Min(x, most)) }

func flag(on bool) float64 {
	if on {
		return 1
	}
	return 0
}
