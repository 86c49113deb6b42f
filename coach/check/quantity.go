package check

import (
	"slices"

	"halfturn/coach/aero"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

// Quantities a check can judge besides the channels of a sample.
const (
	Climb       = "climb"        // ft since the entry
	SpeedChange = "speed-change" // kt since the entry
	Pivotal     = "pivotal"      // ft, the pivotal altitude at the ground speed of the moment
	OffPivotal  = "off-pivotal"  // ft above the pivotal altitude at the ground speed of the moment
	StallMargin = "stall-margin" // kt above the stall speed at the load factor of the moment
	Slip        = "slip"         // balls: the ball, else from the lateral load factor, else from the sideslip
	Power       = "power"        // throttle, else torque, else N1: the first the stream has
	SpeedSpread = "speed-spread" // kt, set-up only
	TurnRate    = "turn-rate"    // °/s, set-up only
	TurnAngle   = "turn"         // ° turned since the entry

	// Of the clearing turns before the series, set-up only.
	Clearing     = "clearing"      // ° turned, of the 180
	ClearingBank = "clearing-bank" // °, the steepest bank of the shallowest of them
	ClearingSide = "clearing-side" // ° of the last of them, positive toward the leg

	IntoWind = "into-wind" // kt of the wind that come from the side of the turn, set-up only
)

// A Quantity is a channel of the samples, or what is computed from channels.
type Quantity struct {
	Name, Title, Unit string

	All     []stream.Channel // the channels it is computed from
	Any     []stream.Channel // or the first of these that the stream has
	Lacking string           // what a stream lacks that cannot give it; "" is its name
	reader  func(f *Facts) Reader
}

// A Reader reads one quantity of a moment; ok is false where the moment lacks it.
type Reader func(m *Moment) (v float64, ok bool)

// computed are the quantities beside the channels.
var computed = []Quantity{
	{
		Name: Climb, Title: "height since entry", Unit: "ft",
		All: []stream.Channel{stream.Altitude},
		reader: func(f *Facts) Reader {
			return func(m *Moment) (float64, bool) {
				now, ok := m.Sample.Get(stream.Altitude)
				then, had := f.Entry.Sample.Get(stream.Altitude)
				return now - then, ok && had
			}
		},
	},
	{
		Name: SpeedChange, Title: "airspeed since entry", Unit: "kt",
		All: []stream.Channel{stream.Airspeed},
		reader: func(f *Facts) Reader {
			return func(m *Moment) (float64, bool) {
				now, ok := m.Sample.Get(stream.Airspeed)
				then, had := f.Entry.Sample.Get(stream.Airspeed)
				return now - then, ok && had
			}
		},
	},
	{
		Name: Pivotal, Title: "pivotal altitude", Unit: "ft",
		All: []stream.Channel{stream.GroundSpeed},
		reader: func(*Facts) Reader {
			return func(m *Moment) (float64, bool) {
				speed, ok := m.Sample.Get(stream.GroundSpeed)
				return aero.PivotalAltitude(speed), ok
			}
		},
	},
	{
		Name: OffPivotal, Title: "height above the pivotal altitude", Unit: "ft",
		All:    []stream.Channel{stream.Height, stream.GroundSpeed},
		reader: func(*Facts) Reader { return OffPivotalAt },
	},
	{
		Name: StallMargin, Title: "margin over the stall", Unit: "kt",
		All: []stream.Channel{stream.Airspeed, stream.NormalLoad},
		reader: func(f *Facts) Reader {
			return func(m *Moment) (float64, bool) { return StallMarginAt(&m.Sample, f.Aircraft.Stall) }
		},
	},
	{
		Name: Slip, Title: "ball", Unit: "balls",
		Any:     []stream.Channel{stream.Ball, stream.LateralLoad, stream.Sideslip},
		Lacking: "ball, lateral load or sideslip",
		reader: func(*Facts) Reader {
			return func(m *Moment) (float64, bool) { return SlipAt(&m.Sample) }
		},
	},
	{
		Name: Power, Title: "power", Unit: "ratio",
		Any:    []stream.Channel{stream.Throttle, stream.Torque, stream.N1},
		reader: func(*Facts) Reader { return PowerAt },
	},
	{Name: SpeedSpread, Title: "spread of airspeed", Unit: "kt", reader: func(*Facts) Reader { return nowhere }},
	{Name: TurnRate, Title: "turn rate", Unit: "°/s", reader: func(*Facts) Reader { return nowhere }},
	{Name: Clearing, Title: "clearing turns", Unit: "°", reader: func(*Facts) Reader { return nowhere }},
	{
		Name: ClearingBank, Title: "bank of the clearing turns", Unit: "°",
		reader: func(*Facts) Reader { return nowhere },
	},
	{
		Name: ClearingSide, Title: "last clearing turn, toward the maneuver", Unit: "°",
		reader: func(*Facts) Reader { return nowhere },
	},
	{
		Name: IntoWind, Title: "wind from the side of the turn", Unit: "kt",
		reader: func(*Facts) Reader { return nowhere },
	},
	{
		Name: TurnAngle, Title: "turn", Unit: "°",
		reader: func(*Facts) Reader { return TurnAt },
	},
}

// nowhere reads what no moment holds.
func nowhere(*Moment) (float64, bool) { return 0, false }

// QuantityNamed finds a channel or computed quantity by name.
func QuantityNamed(name string) (Quantity, bool) {
	if i := slices.IndexFunc(computed, func(q Quantity) bool { return q.Name == name }); i >= 0 {
		return computed[i], true
	}
	c, ok := stream.ChannelNamed(name)
	if !ok {
		return Quantity{}, false
	}
	in := c.Info()
	return Quantity{
		Name:  in.Name,
		Title: in.Title,
		Unit:  in.Unit,
		All:   []stream.Channel{c},
		reader: func(*Facts) Reader {
			return func(m *Moment) (float64, bool) { return m.Sample.Get(c) }
		},
	}, true
}

// QuantityNames lists every quantity a check can judge, the channels first.
func QuantityNames() []string {
	names := stream.ChannelNames()
	for i := range computed {
		names = append(names, computed[i].Name)
	}
	return names
}

// Read returns the reader of a quantity by name for the moments of a leg; one that finds nothing where there is no
// such quantity.
func Read(name string, f *Facts) Reader {
	q, ok := QuantityNamed(name)
	if !ok {
		return nowhere
	}
	return q.reader(f)
}

// Absent says why a quantity has no value: the aircraft card does not give what it takes, or the stream lacks it, all
// along or, where it was seen elsewhere, at this place.
func Absent(name string, f *Facts, seen bool) Measure {
	if name == StallMargin && f.Aircraft.Stall == 0 {
		return None(phrase.NoStallSpeed.Of())
	}
	if name == Clearing || name == ClearingBank || name == ClearingSide {
		return None(phrase.NoClearing.Of())
	}
	if name == IntoWind {
		return None(phrase.NoWind.Of())
	}
	if q, _ := QuantityNamed(name); q.Lacking != "" {
		name = q.Lacking
	}
	if seen {
		return None(phrase.LackedThere.Of(phrase.Part("what", phrase.Plain(name))))
	}
	return None(phrase.Lacks.Of(phrase.Part("what", phrase.Plain(name))))
}

// OffPivotalAt returns how far a moment is above the pivotal altitude, ft.
func OffPivotalAt(m *Moment) (float64, bool) {
	height, ok := m.Sample.Get(stream.Height)
	speed, had := m.Sample.Get(stream.GroundSpeed)
	return height - aero.PivotalAltitude(speed), ok && had
}

// TurnAt returns the turn angle of a moment in °.
func TurnAt(m *Moment) (float64, bool) { return m.Turn, true }

// StallMarginAt returns the airspeed above the stall speed at the load factor of the moment, in
// kt. stall is the clean stall speed at 1 g in kt, 0 when unknown. Load factors below a
// quarter of a g are taken as that: near zero g the law says only that the wing carries nothing.
func StallMarginAt(s *stream.Sample, stall float64) (float64, bool) {
	v, ok := s.Get(stream.Airspeed)
	n, has := s.Get(stream.NormalLoad)
	if !ok || !has || stall == 0 {
		return 0, false
	}
	return v - aero.StallSpeed(stall, max(n, 0.25)), true
}

// PowerAt returns the engine setting as a ratio: throttle, else torque, else N1. Rpm alone says
// nothing of it: that of a fixed-pitch propeller follows the airspeed, that of a governed one
// stays whatever the setting.
func PowerAt(m *Moment) (float64, bool) {
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
// five classes of airplane, 0.2 to 0.3 in most of the light ones. So it gives the side, and only roughly how far.
const BallPerDegree = 0.25

// SlipAt returns the ball's widths out of the middle, with the sign of the ball: the ball, sent
// or worked out from the lateral load factor; else the lateral load factor times
// stream.BallPerG; else the sideslip times BallPerDegree.
func SlipAt(s *stream.Sample) (float64, bool) {
	if v, ok := s.Get(stream.Ball); ok {
		return v, true
	}
	if v, ok := s.Get(stream.LateralLoad); ok {
		return stream.BallPerG * v, true
	}
	v, ok := s.Get(stream.Sideslip)
	return BallPerDegree * v, ok
}
