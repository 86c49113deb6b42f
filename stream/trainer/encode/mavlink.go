package encode

import (
	"encoding/binary"
	"math"

	"halfturn/stream"
	"halfturn/stream/wire/mavlink"
	"halfturn/stream/wire/units"
)

var mavlinkLoss = Loss{
	Abs:    1e-5,
	Rel:    1e-6,
	Blanks: true,
	Coarse: map[stream.Channel]float64{
		stream.Time:          5e-4,
		stream.GroundSpeed:   0.02,
		stream.Track:         0.01,
		stream.VerticalSpeed: 1,
		stream.Altitude:      0.002,
	},
}

// MAVLink 1.
var mavlink1Format = &written{
	Name:  "mavlink1",
	Reads: "MAVLink 1",
	Loss:  mavlinkLoss,
	make:  func() (Encoder, error) { return &mavlinkFrames{}, nil },
}

// MAVLink 2.
var mavlink2Format = &written{
	Name:  "mavlink2",
	Reads: "MAVLink 2",
	Loss:  mavlinkLoss,
	make:  func() (Encoder, error) { return &mavlinkFrames{second: true}, nil },
}

// mavlinkFrames writes ATTITUDE with each sample and the other two messages five times per second of
// stream time, together in one datagram. Floating-point values that a sample lacks are NaN.
type mavlinkFrames struct {
	second bool
	seq    byte
	due    once
}

func (*mavlinkFrames) Preamble() []byte { return nil }

func (*mavlinkFrames) Channels() stream.Set {
	return flown | bodyRates | 1<<stream.Time | 1<<stream.Airspeed | 1<<stream.Throttle
}

func (e *mavlinkFrames) Append(dst []byte, s *stream.Sample) []byte {
	le := binary.LittleEndian
	var p [28]byte
	f32 := func(i int, v float64) { le.PutUint32(p[i:], math.Float32bits(float32(v))) }
	le.PutUint32(p[:], uint32(int64(math.Round(s.Value(stream.Time)*1000))))
	for i, v := range [...]float64{orNaN(s, stream.Bank), orNaN(s, stream.Pitch), stream.Wrap180(trueHeading(s)),
		orNaN(s, stream.RollRate), orNaN(s, stream.PitchRate), orNaN(s, stream.YawRate)} {
		f32(4+4*i, v/units.DegreesPerRadian)
	}
	dst = e.frame(dst, mavlink.Attitude, p[:])
	if !e.due.at(s, 0.2) {
		return dst
	}
	north, east, down := velocity(s)
	lat, here := s.Get(stream.Latitude)
	lon, there := s.Get(stream.Longitude)
	altitude, high := s.Get(stream.Altitude)
	if here && there && high && north == north && down == down {
		p = [28]byte{}
		for i, v := range [...]float64{lat * 1e7, lon * 1e7, altitude * units.Foot * 1000} {
			le.PutUint32(p[4+4*i:], uint32(int32(rounded(v, math.MinInt32, math.MaxInt32))))
		}
		le.PutUint32(p[:], uint32(int64(math.Round(s.Value(stream.Time)*1000))))
		for i, v := range [...]float64{north, east, down} {
			le.PutUint16(p[20+2*i:], uint16(rounded(v*100, math.MinInt16, math.MaxInt16)))
		}
		le.PutUint16(p[26:], 0xFFFF)
		dst = e.frame(dst, mavlink.Position, p[:])
	}
	throttle, levered := s.Get(stream.Throttle)
	if !levered {
		return dst // its field has no value for "unknown"
	}
	p = [28]byte{}
	for i, v := range [...]float64{orNaN(s, stream.Airspeed) * units.Knot, orNaN(s, stream.GroundSpeed) * units.Knot,
		orNaN(s, stream.Altitude) * units.Foot,
		orNaN(s, stream.VerticalSpeed) * units.FootPerMinute} {
		f32(4*i, v)
	}
	le.PutUint16(p[16:], uint16(s.Value(stream.Heading)))
	le.PutUint16(p[18:], uint16(rounded(throttle*100, 0, 100)))
	return e.frame(dst, mavlink.HUD, p[:20])
}

func (e *mavlinkFrames) frame(dst []byte, id byte, payload []byte) []byte {
	start := len(dst)
	n := len(payload)
	if e.second {
		for n > 1 && payload[n-1] == 0 {
			n--
		}
		dst = append(dst, mavlink.Magic2, byte(n), 0, 0, e.seq, 1, 1, id, 0, 0)
	} else {
		dst = append(dst, mavlink.Magic1, byte(n), e.seq, 1, 1, id)
	}
	e.seq++
	dst = append(dst, payload[:n]...)
	_, extra, _ := mavlink.Known(uint32(id))
	sum := mavlink.Sum(mavlink.Sum(0xFFFF, dst[start+1:]), []byte{extra})
	return append(dst, byte(sum), byte(sum>>8))
}
