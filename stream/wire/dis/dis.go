// Package dis reads Distributed Interactive Simulation, Entity State PDU (IEEE Std 1278.1), versions 5 to 7. A datagram
// may hold several PDUs; one entity is followed: the first that comes, or an air vehicle in place of any other.
//
// Altitude is the height above the WGS-84 ellipsoid. Ground speed, track and vertical speed come from the linear
// velocity, which is along the Earth's axes or the body's by the dead-reckoning algorithm; body rates are taken where
// that algorithm uses them. Nothing is dead reckoned here. The time stamp is not used as a clock: it starts again every
// hour and many senders put other things there.
package dis

import (
	"encoding/binary"
	"math"

	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/geodesy"
	"halfturn/stream/wire/units"
)

// Format is the entity state.
var Format = &format.Format{
	Names:     []string{name},
	First:     "\x05\x06\x07",
	Recognize: func(d *format.Datagram) format.Claim { return format.Is(isEntityState(d.Bytes)) },
	New:       func(*format.Options) format.Decoder { return &decoder{} },
}

const name = "DIS entity state"

// A decoder follows one entity.
type decoder struct {
	format.Plain
	entity  [6]byte
	air     bool
	follows bool
	heard   float64 // receive time of the entity's last PDU, s
}

func (r *decoder) Name() string { return name }

func (r *decoder) Detail() phrase.Phrase {
	return phrase.DetailEllipsoid.Of(phrase.Number("most", 350, 0, "ft"))
}

func (r *decoder) Advice(q format.Silence) phrase.Phrase {
	if !q.Lasts() {
		return phrase.Phrase{}
	}
	return phrase.NoEntity.Of()
}

func (r *decoder) Restart() { *r = decoder{} }

// Length is that of an Entity State PDU without variable parameters, bytes.
const Length = 144

const (
	header = 12
	silent = 12.0 // s without the entity, more than two heartbeats of 5 s: another may take its place
)

// pdu reports whether b begins with a PDU of a version that is read, and its length.
func pdu(b []byte) (length int, ok bool) {
	if len(b) < header || b[0] < 5 || b[0] > 7 {
		return 0, false
	}
	length = int(binary.BigEndian.Uint16(b[8:]))
	return length, length >= header
}

// isEntityState reports whether a datagram begins with an Entity State PDU.
func isEntityState(b []byte) bool {
	length, ok := pdu(b)
	return ok && b[2] == 1 && b[3] == 1 && length >= Length
}

// Decode reads the PDUs of a datagram.
func (r *decoder) Decode(b []byte, now float64, s *stream.Sample) error {
	read := false
	for len(b) > 0 {
		length, ok := pdu(b)
		switch {
		case !ok:
			return r.unless(read, fault.ErrMalformed, s)
		case length > len(b):
			return r.unless(read, fault.ErrTruncated, s)
		}
		if isEntityState(b) && r.follow(b, now) {
			s.Reset()
			if err := state(b, s); err != nil {
				return err
			}
			read = true
		}
		b = b[length:]
	}
	return r.unless(read, fault.ErrOther, s)
}

func (r *decoder) unless(read bool, err error, s *stream.Sample) error {
	if !read {
		return err
	}
	return fault.OfHollow(s)
}

// follow reports whether a PDU is of the entity that is followed.
func (r *decoder) follow(b []byte, now float64) bool {
	id := [6]byte(b[12:18])
	air := b[20] == 1 && b[21] == 2 // a platform, in the air
	switch {
	case r.follows && id == r.entity:
	case !r.follows, air && !r.air, now-r.heard > silent:
		r.entity, r.air, r.follows = id, air, true
	default:
		return false
	}
	r.heard = now
	return true
}

// The distances from the Earth's center that are believed, m.
const (
	nearest  = 6.3e6
	farthest = 6.45e6
)

// state reads one Entity State PDU.
func state(b []byte, s *stream.Sample) error {
	f64 := func(i int) float64 { return math.Float64frombits(binary.BigEndian.Uint64(b[i:])) }
	f32 := func(i int) float64 { return float64(math.Float32frombits(binary.BigEndian.Uint32(b[i:]))) }
	place := geodesy.Vector{f64(48), f64(56), f64(64)}
	if d := math.Sqrt(place.Dot(place)); !(d > nearest && d < farthest) {
		return fault.ErrMalformed
	}
	lat, lon, height := geodesy.FromCenter(place)
	s.Put(stream.Latitude, lat*units.DegreesPerRadian)
	s.Put(stream.Longitude, lon*units.DegreesPerRadian)
	s.Put(stream.Altitude, height/units.Foot)

	local := geodesy.NorthEastDown(lat, lon)
	body := geodesy.AxesOf(f32(72), f32(76), f32(80))
	heading, pitch, bank := geodesy.Attitude(body, local)
	s.Put(stream.Heading, heading*units.DegreesPerRadian)
	s.Put(stream.Pitch, pitch*units.DegreesPerRadian)
	s.Put(stream.Bank, bank*units.DegreesPerRadian)

	algorithm := b[88]
	v := geodesy.Vector{f32(36), f32(40), f32(44)}
	if algorithm >= 6 && algorithm <= 9 {
		v = body.Back(v)
	}
	if algorithm >= 1 && algorithm <= 9 {
		v = local.Turn(v)
		units.PutVelocity(s, v[0], v[1], v[2])
	}
	switch algorithm {
	case 3, 4, 7, 8:
		s.Put(stream.RollRate, f32(116)*units.DegreesPerRadian)
		s.Put(stream.PitchRate, f32(120)*units.DegreesPerRadian)
		s.Put(stream.YawRate, f32(124)*units.DegreesPerRadian)
	}
	return nil
}
