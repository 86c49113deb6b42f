package encode

import (
	"encoding/binary"

	"halfturn/stream"
	"halfturn/stream/wire/gdl90"
)

// GDL 90.
var gdl90Format = &written{
	Name:  "gdl90",
	Reads: "GDL 90",
	Loss: Loss{
		Abs: 0.051,
		Coarse: map[stream.Channel]float64{
			stream.Airspeed:      0.5,
			stream.TrueAirspeed:  0.5,
			stream.GroundSpeed:   0.5,
			stream.Track:         0.71,
			stream.VerticalSpeed: 0.5,
			stream.Altitude:      2.5,
		},
		Magnetic: true,
	},
	make: func() (Encoder, error) { return &gdl{}, nil },
}

// gdl writes both attitude messages with each sample, and once per second of stream time
// the heartbeat, the sender's identity, the ownship report and the geometric altitude.
type gdl struct{ due once }

func (*gdl) Preamble() []byte { return nil }

func (*gdl) Channels() stream.Set {
	return flown | 1<<stream.Airspeed | 1<<stream.TrueAirspeed | 1<<stream.NormalLoad
}

func (e *gdl) Append(dst []byte, s *stream.Sample) []byte {
	if e.due.at(s, 1) {
		seconds := uint32(s.Value(stream.Time)) % 86400
		dst = GDLFrame(dst, []byte{gdl90.Heartbeat, 0x81, byte(seconds>>16)<<7 | 1, byte(seconds), byte(seconds >> 8),
			0, 0})
		id := [39]byte{gdl90.Extended, 0, 1, 38: 1}
		copy(id[3:], "\xff\xff\xff\xff\xff\xff\xff\xffHalfturnHalfturn")
		dst = GDLFrame(dst, id[:])
		dst = gdlOwnshipFrame(dst, s)
		if v, ok := s.Get(stream.Altitude); ok {
			feet := uint16(rounded(v/5, -0x8000, 0x7FFF))
			dst = GDLFrame(dst, []byte{gdl90.Geometric, byte(feet >> 8), byte(feet), 0x7F, 0xFF})
		}
	}
	return gdlAttitudeFrames(dst, s)
}

func gdlOwnshipFrame(dst []byte, s *stream.Sample) []byte {
	f := [28]byte{gdl90.Ownship, 18: 1}
	lat, here := s.Get(stream.Latitude)
	lon, there := s.Get(stream.Longitude)
	if here && there {
		for i, deg := range [...]float64{lat, lon} {
			v := uint32(rounded(deg*(1<<23)/180, -1<<23, 1<<23-1))
			f[5+3*i], f[6+3*i], f[7+3*i] = byte(v>>16), byte(v>>8), byte(v)
		}
		f[13] = 0xA9
	}
	altitude, speed, climb := uint16(0xFFF), uint16(0xFFF), uint16(0x800)
	if v, ok := s.Get(stream.Altitude); ok {
		altitude = uint16(rounded((v+1000)/25, 0, 0xFFE))
	}
	if v, ok := s.Get(stream.GroundSpeed); ok {
		speed = uint16(rounded(v, 0, 0xFFE))
	}
	if v, ok := s.Get(stream.VerticalSpeed); ok {
		climb = uint16(rounded(v/64, -510, 510)) & 0xFFF
	}
	f[11], f[12] = byte(altitude>>4), byte(altitude<<4)|8
	if v, ok := s.Get(stream.Track); ok {
		f[12] |= 1
		f[17] = byte(int(rounded(v*256/360, 0, 256)))
	}
	f[14], f[15], f[16] = byte(speed>>4), byte(speed<<4)|byte(climb>>8), byte(climb)
	copy(f[19:27], "HALFTURN")
	return GDLFrame(dst, f[:])
}

func gdlAttitudeFrames(dst []byte, s *stream.Sample) []byte {
	f := [12]byte{gdl90.Extended, 1}
	be := binary.BigEndian
	be.PutUint16(f[2:], gdlTenths(s, stream.Bank))
	be.PutUint16(f[4:], gdlTenths(s, stream.Pitch))
	heading := uint16(0xFFFF)
	if v, ok := s.Get(stream.Heading); ok {
		if heading = uint16(rounded(v*10, 0, 3600)) % 3600; s.Magnetic {
			heading |= 0x8000
		}
	}
	be.PutUint16(f[6:], heading)
	for i, c := range [...]stream.Channel{stream.Airspeed, stream.TrueAirspeed} {
		v := uint16(0xFFFF)
		if kt, ok := s.Get(c); ok {
			v = uint16(rounded(kt, 0, 0xFFFE))
		}
		be.PutUint16(f[8+2*i:], v)
	}
	dst = GDLFrame(dst, f[:])

	const none = 0x7FFF
	g := [24]byte{gdl90.Attitude, 0x45, 1, 1}
	be.PutUint16(g[4:], gdlTenths(s, stream.Bank))
	be.PutUint16(g[6:], gdlTenths(s, stream.Pitch))
	be.PutUint16(g[8:], gdlTenths(s, stream.Heading))
	be.PutUint16(g[10:], none)
	be.PutUint16(g[12:], none)
	be.PutUint16(g[14:], gdlTenths(s, stream.NormalLoad))
	be.PutUint16(g[16:], gdlWhole(s, stream.Airspeed))
	be.PutUint16(g[18:], 0xFFFF)
	be.PutUint16(g[20:], gdlWhole(s, stream.VerticalSpeed))
	be.PutUint16(g[22:], none)
	return GDLFrame(dst, g[:])
}

func gdlTenths(s *stream.Sample, c stream.Channel) uint16 { return gdlSigned(s, c, 10) }
func gdlWhole(s *stream.Sample, c stream.Channel) uint16  { return gdlSigned(s, c, 1) }

func gdlSigned(s *stream.Sample, c stream.Channel, scale float64) uint16 {
	v, ok := s.Get(c)
	if !ok {
		return 0x7FFF
	}
	return uint16(rounded(v*scale, -0x8000, 0x7FFE))
}

// GDLFrame adds a message of GDL 90 with its checksum, stuffed and between flags.
func GDLFrame(dst, message []byte) []byte {
	dst = append(dst, gdl90.Flag)
	for _, c := range message {
		dst = gdlStuff(dst, c)
	}
	sum := gdl90.Sum(message)
	dst = gdlStuff(gdlStuff(dst, byte(sum)), byte(sum>>8))
	return append(dst, gdl90.Flag)
}

func gdlStuff(dst []byte, c byte) []byte {
	if c == gdl90.Flag || c == gdl90.Escape {
		return append(dst, gdl90.Escape, c^gdl90.Mask)
	}
	return append(dst, c)
}
