package encode

import (
	"encoding/binary"
	"math"

	"halfturn/stream"
	"halfturn/stream/wire/dis"
	"halfturn/stream/wire/geodesy"
	"halfturn/stream/wire/units"
)

// DIS entity states.
var disFormat = &written{
	Name:  "dis",
	Reads: "DIS entity state",
	Loss: Loss{
		Abs:  1e-4,
		Rel:  1e-6,
		Mute: true,
	},
	make: ready(entityState{}),
}

// entityState writes version 7 PDUs of an air vehicle, with dead-reckoning algorithm 4 (RVW), 2
// (FPW) when body rates are not known, 0 when the velocity is not. Without position or attitude
// there is nothing to write: angles are sent relative to the Earth's axes.
type entityState struct{}

func (entityState) Preamble() []byte { return nil }

func (entityState) Channels() stream.Set { return flown | bodyRates }

func (entityState) Append(dst []byte, s *stream.Sample) []byte {
	const needed = stream.AttitudeSet | 1<<stream.Latitude | 1<<stream.Longitude | 1<<stream.Altitude
	if s.Has&needed != needed || s.Magnetic {
		return dst
	}
	start := len(dst)
	dst = append(dst, make([]byte, dis.Length)...)
	b := dst[start:]
	be := binary.BigEndian
	f32 := func(i int, v float64) { be.PutUint32(b[i:], math.Float32bits(float32(v))) }
	copy(b, []byte{7, 1, 1, 1})
	be.PutUint32(b[4:], uint32(math.Mod(s.Value(stream.Time), 3600)/3600*(1<<31))<<1)
	be.PutUint16(b[8:], dis.Length)
	copy(b[12:], []byte{0, 1, 0, 1, 0, 1})
	copy(b[20:], []byte{1, 2})

	lat, lon := s.Value(stream.Latitude)/units.DegreesPerRadian, s.Value(stream.Longitude)/units.DegreesPerRadian
	for i, v := range geodesy.ToCenter(lat, lon, s.Value(stream.Altitude)*units.Foot) {
		be.PutUint64(b[48+8*i:], math.Float64bits(v))
	}
	local := geodesy.NorthEastDown(lat, lon)
	over := geodesy.AxesOf(s.Value(stream.Heading)/units.DegreesPerRadian, s.Value(stream.Pitch)/units.DegreesPerRadian,
		s.Value(stream.Bank)/units.DegreesPerRadian)
	var body geodesy.Axes
	for i := range body {
		body[i] = local.Back(over[i])
	}
	f32(72, math.Atan2(body[0][1], body[0][0]))
	f32(76, -math.Asin(min(max(body[0][2], -1), 1)))
	f32(80, math.Atan2(body[1][2], body[2][2]))
	const rates = stream.Set(1<<stream.RollRate | 1<<stream.PitchRate | 1<<stream.YawRate)
	if north, east, down := velocity(s); north == north && down == down {
		b[88] = 2
		for i, v := range local.Back(geodesy.Vector{north, east, down}) {
			f32(36+4*i, v)
		}
		if s.Has&rates == rates {
			b[88] = 4
			for i, c := range [...]stream.Channel{stream.RollRate, stream.PitchRate, stream.YawRate} {
				f32(116+4*i, s.Value(c)/units.DegreesPerRadian)
			}
		}
	}
	copy(b[128:], "\x01HALFTURN")
	return dst
}
