package wire

import (
	"bytes"
	"encoding/binary"
	"math"
	"strings"

	"halfturn/stream"
)

// X-Plane's messages besides DATA rows (Laminar Research, "Exchanging Data with X-Plane").
// All are little endian and begin with four letters and a fifth byte that differs between
// versions.
const (
	requestLength  = 413 // RREF 0, rate, index, name[400]
	positionLength = 69
	datarefLength  = 509 // DREF, value, name[500]
	datarefName    = 400
)

// AppendRequest adds the request for a dataref to dst: rate times a second, 0 to stop, replies
// with that index. The name is one of the simulator's, an array's element as name[3]; one
// longer than 399 bytes is cut off and will not be found.
func AppendRequest(dst []byte, rate, index int32, name string) []byte {
	dst = append(dst, "RREF\x00"...)
	dst = binary.LittleEndian.AppendUint32(dst, uint32(rate))
	dst = binary.LittleEndian.AppendUint32(dst, uint32(index))
	name = name[:min(len(name), datarefName-1)]
	dst = append(dst, name...)
	for range datarefName - len(name) {
		dst = append(dst, 0)
	}
	return dst
}

// replies reads RREF replies: pairs of index and value.
func (o *otherReader) replies(b []byte, now float64) error {
	o.name = "RREF replies"
	if len(b) == requestLength && b[4] == 0 {
		return ErrStatus // somebody's request
	}
	b = b[rowHead:]
	if len(b) == 0 || len(b)%8 != 0 {
		return ErrTruncated
	}
	for ; len(b) > 0; b = b[8:] {
		n := binary.LittleEndian.Uint32(b)
		if n < uint32(len(o.datarefs.asked)) { // others may be of another program's asking
			o.datarefs.asked[n].put(float32At(b, 4), now, &o.merge)
		}
	}
	return nil
}

func float32At(b []byte, i int) float32 {
	return math.Float32frombits(binary.LittleEndian.Uint32(b[i:]))
}

// dataref reads one dataref's output. Attitude comes in three datagrams, and the sample is
// made with the last of them, so that it does not mix two frames.
func (o *otherReader) dataref(b []byte, now float64) error {
	o.name = "dataref output (DREF)"
	if len(b) != datarefLength {
		return ErrTruncated
	}
	name := b[rowHead+4:]
	if end := bytes.IndexByte(name, 0); end >= 0 {
		name = name[:end]
	}
	d, ok := o.datarefs.named[string(name)]
	if !ok {
		return ErrPart
	}
	d.put(float32At(b, rowHead), now, &o.merge)
	if o.merge.fresh&attitudeSet != attitudeSet {
		return ErrPart
	}
	return nil
}

// position reads a reply to RPOS. It has no airspeed and no clock.
func (o *otherReader) position(b []byte, s *stream.Sample) error {
	o.name = "position replies (RPOS)"
	if len(b) != positionLength {
		return ErrTruncated
	}
	f64 := func(i int) float64 { return math.Float64frombits(binary.LittleEndian.Uint64(b[i:])) }
	f32 := func(i int) float64 { return float64(float32At(b, i)) }
	s.Put(stream.Longitude, f64(5))
	s.Put(stream.Latitude, f64(13))
	s.Put(stream.Altitude, f64(21)/foot)
	s.Put(stream.Height, f32(29)/foot)
	s.Put(stream.Pitch, f32(33))
	s.Put(stream.Heading, f32(37))
	s.Put(stream.Bank, f32(41))
	putVelocity(s, -f32(53), f32(45), -f32(49))
	s.Put(stream.RollRate, f32(57)*degPerRadian)
	s.Put(stream.PitchRate, f32(61)*degPerRadian)
	s.Put(stream.YawRate, f32(65)*degPerRadian)
	return hollow(s)
}

// slowest is the ground speed, m/s, below which a track means nothing.
const slowest = 0.5

// putVelocity stores what a velocity over the ground says, north, east, down in m/s.
func putVelocity(s *stream.Sample, north, east, down float64) {
	speed := math.Hypot(north, east)
	s.Put(stream.GroundSpeed, speed/knot)
	if speed >= slowest {
		s.Put(stream.Track, math.Atan2(east, north)*degPerRadian)
	}
	s.Put(stream.VerticalSpeed, -down/feetPerMin)
}

// velocity returns a sample's velocity over the ground, north, east, down in m/s, NaN for what
// it lacks.
func velocity(s *stream.Sample) (north, east, down float64) {
	north, east, down = math.NaN(), math.NaN(), math.NaN()
	speed, moving := s.Get(stream.GroundSpeed)
	track, known := s.Get(stream.Track)
	if moving && (known || speed == 0) {
		sin, cos := math.Sincos(track / degPerRadian)
		north, east = speed*knot*cos, speed*knot*sin
	}
	if v, ok := s.Get(stream.VerticalSpeed); ok {
		down = -v * feetPerMin
	}
	return north, east, down
}

// A Beacon is what X-Plane tells of itself by multicast to 239.255.1.1 port 49707.
type Beacon struct {
	Host    int    // 1: X-Plane, 2: Plane Maker
	Version int    // 120100 is 12.01
	Role    int    // 1: master, 2: visual, 3: instructor's station
	Port    uint16 // it listens on
	Name    string // of the machine
}

const beaconHead = 21

// DecodeBeacon reads a beacon. The error is ErrUnknown for what is none or one of a major
// version other than 1, which must not be read, ErrTruncated for one cut short.
func DecodeBeacon(b []byte) (Beacon, error) {
	if len(b) < 6 || string(b[:5]) != "BECN\x00" || b[5] != 1 {
		return Beacon{}, ErrUnknown
	}
	if len(b) <= beaconHead {
		return Beacon{}, ErrTruncated
	}
	end := bytes.IndexByte(b[beaconHead:], 0)
	if end < 0 {
		return Beacon{}, ErrTruncated
	}
	return Beacon{
		Host:    int(int32(binary.LittleEndian.Uint32(b[7:]))),
		Version: int(int32(binary.LittleEndian.Uint32(b[11:]))),
		Role:    int(int32(binary.LittleEndian.Uint32(b[15:]))),
		Port:    binary.LittleEndian.Uint16(b[19:]),
		Name:    strings.ToValidUTF8(string(b[beaconHead:beaconHead+end]), "?"),
	}, nil
}

// repliesEncoder writes RREF replies to all that Datarefs asks for, as versions 11 and 12 do.
type repliesEncoder struct{}

func (repliesEncoder) Preamble() []byte { return nil }

func (repliesEncoder) Append(dst []byte, s *stream.Sample) []byte {
	dst = append(dst, "RREF,"...)
	for i := range datarefs[:asked] {
		d := &datarefs[i]
		v, ok := s.Get(d.Channel)
		if !ok || d.Channel == stream.Heading && s.Magnetic {
			continue
		}
		dst = binary.LittleEndian.AppendUint32(dst, uint32(i))
		dst = binary.LittleEndian.AppendUint32(dst, math.Float32bits(float32(v/d.scale)))
	}
	return dst
}

// positionEncoder writes replies to RPOS. What a sample lacks is NaN.
type positionEncoder struct{}

func (positionEncoder) Preamble() []byte { return nil }

func (positionEncoder) Append(dst []byte, s *stream.Sample) []byte {
	dst = append(dst, "RPOS,"...)
	le := binary.LittleEndian
	for _, f := range [...]float64{orNaN(s, stream.Longitude), orNaN(s, stream.Latitude), orNaN(s, stream.Altitude) * foot} {
		dst = le.AppendUint64(dst, math.Float64bits(f))
	}
	north, east, down := velocity(s)
	for _, f := range [...]float64{orNaN(s, stream.Height) * foot, orNaN(s, stream.Pitch), trueHeading(s), orNaN(s, stream.Bank), east, -down, -north,
		orNaN(s, stream.RollRate) / degPerRadian, orNaN(s, stream.PitchRate) / degPerRadian, orNaN(s, stream.YawRate) / degPerRadian} {
		dst = le.AppendUint32(dst, math.Float32bits(float32(f)))
	}
	return dst
}

// orNaN returns a channel's value, NaN where the sample lacks it.
func orNaN(s *stream.Sample, c stream.Channel) float64 {
	if v, ok := s.Get(c); ok {
		return v
	}
	return math.NaN()
}

// trueHeading returns the heading, NaN where the sample has no true one.
func trueHeading(s *stream.Sample) float64 {
	if s.Magnetic {
		return math.NaN()
	}
	return orNaN(s, stream.Heading)
}
