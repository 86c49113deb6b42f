package encode

import (
	"strconv"

	"halfturn/stream"
	"halfturn/stream/wire/units"
)

// Text for tablets, a Splitter.
var xattFormat = &written{
	Name:  "xatt",
	Reads: "XGPS/XATT text",
	Loss: Loss{
		Abs:    0.051,
		Coarse: map[stream.Channel]float64{stream.GroundSpeed: 0.2, stream.Track: 0.1, stream.VerticalSpeed: 10},
	},
	make: func() (Encoder, error) { return &tabletText{}, nil },
}

// tabletText writes as X-Plane does: XATT with each sample, with twelve values where the
// sample has them all, and XGPS once per second of stream time.
type tabletText struct {
	due  once
	line []byte
}

func (*tabletText) Preamble() []byte { return nil }

func (*tabletText) Channels() stream.Set { return flown | bodyRates | loads }

// Append writes both messages, when both are due, into one datagram, one per line.
func (e *tabletText) Append(dst []byte, s *stream.Sample) []byte {
	if e.due.at(s, 1) && s.Has.Has(stream.Latitude) && s.Has.Has(stream.Longitude) {
		dst = append(tabletGPS(dst, s), '\n')
	}
	return tabletATT(dst, s)
}

// Datagrams writes each message as a datagram of its own, as tablets require.
func (e *tabletText) Datagrams(s *stream.Sample, emit func([]byte)) {
	if e.due.at(s, 1) && s.Has.Has(stream.Latitude) && s.Has.Has(stream.Longitude) {
		e.line = tabletGPS(e.line[:0], s)
		emit(e.line)
	}
	e.line = tabletATT(e.line[:0], s)
	emit(e.line)
}

func tabletGPS(dst []byte, s *stream.Sample) []byte {
	dst = append(dst, "XGPS1"...)
	for _, f := range [...]struct {
		channel stream.Channel
		scale   float64
		digits  int
	}{{stream.Longitude, 1, 6}, {stream.Latitude, 1, 6}, {stream.Altitude, units.Foot, 4}, {stream.Track, 1, 4},
		{stream.GroundSpeed, units.Knot, 4}} {
		dst = tabletAppend(dst, orNaN(s, f.channel)*f.scale, f.digits)
	}
	return dst
}

func tabletATT(dst []byte, s *stream.Sample) []byte {
	dst = append(dst, "XATT1"...)
	for _, v := range [...]float64{trueHeading(s), orNaN(s, stream.Pitch), orNaN(s, stream.Bank)} {
		dst = tabletAppend(dst, v, 1)
	}
	const all = stream.Set(1<<stream.RollRate | 1<<stream.PitchRate | 1<<stream.YawRate |
		1<<stream.GroundSpeed | 1<<stream.Track | 1<<stream.VerticalSpeed |
		1<<stream.LateralLoad | 1<<stream.NormalLoad | 1<<stream.AxialLoad)
	if s.Has&all != all {
		return dst
	}
	for _, c := range [...]stream.Channel{stream.RollRate, stream.PitchRate, stream.YawRate} {
		dst = tabletAppend(dst, s.Value(c)/units.DegreesPerRadian, 4)
	}
	north, east, down := velocity(s)
	for _, v := range [...]float64{east, -down, -north} {
		dst = tabletAppend(dst, v, 1)
	}
	for _, c := range [...]stream.Channel{stream.LateralLoad, stream.NormalLoad, stream.AxialLoad} {
		dst = tabletAppend(dst, s.Value(c), 2)
	}
	return dst
}

// tabletAppend adds a comma and a value, nothing for NaN.
func tabletAppend(dst []byte, v float64, digits int) []byte {
	dst = append(dst, ',')
	if v != v {
		return dst
	}
	return strconv.AppendFloat(dst, v, 'f', digits, 64)
}
