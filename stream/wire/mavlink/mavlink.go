// Package mavlink reads MAVLink, versions 1 and 2 (mavlink.io, "Packet Serialization" and the common message set).
// Three messages are read: ATTITUDE, which makes the samples, VFR_HUD and GLOBAL_POSITION_INT. Airspeed is indicated or
// equivalent as the autopilot likes; relative altitude is above the start, not above ground, and is left out.
package mavlink

import (
	"encoding/binary"
	"math"

	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/merge"
	"halfturn/stream/wire/units"
)

// Format is MAVLink.
var Format = &format.Format{
	Names:     []string{"MAVLink 1", "MAVLink 2"},
	First:     string([]byte{Magic1, Magic2}),
	Recognize: recognize,
	New:       func(*format.Options) format.Decoder { return &decoder{} },
}

func recognize(d *format.Datagram) format.Claim {
	return format.Is(d.Known || len(d.Bytes) >= 5 && valid(d.Bytes))
}

// The first bytes of frames of the two versions.
const (
	Magic1 = 0xFE
	Magic2 = 0xFD
)

// The messages that are read (common.xml of MAVLink).
const (
	Attitude = 30 // ATTITUDE
	Position = 33 // GLOBAL_POSITION_INT
	HUD      = 74 // VFR_HUD
)

const (
	longest = 10 + 255 + 2 + 13 // bytes of a frame
	signed  = 0x01              // the one incompatible flag that is known
	silent  = 5.0               // s, after which another vehicle may take the place of the one followed
)

// Known returns the length of a message that is read and the byte that goes into its
// checksum, made from the names and types of its fields.
func Known(id uint32) (length int, extra byte, ok bool) {
	switch id {
	case Attitude:
		return 28, 39, true
	case Position:
		return 28, 104, true
	case HUD:
		return 20, 20, true
	}
	return 0, 0, false
}

// Sum is CRC-16/MCRF4XX, the checksum of X.25 without its last inversion.
func Sum(crc uint16, b []byte) uint16 {
	for _, c := range b {
		c ^= byte(crc)
		c ^= c << 4
		crc = crc>>8 ^ uint16(c)<<8 ^ uint16(c)<<3 ^ uint16(c)>>4
	}
	return crc
}

// A frame is one message.
type frame struct {
	id      uint32
	sender  uint16 // system and component
	second  bool   // version 2
	payload []byte
	sum     []byte // what the checksum covers, then the checksum
}

// size returns how long the frame at the beginning of b is, 0 when b is too short to tell,
// −1 when there is none or one with flags that forbid reading it.
func size(b []byte) int {
	switch {
	case b[0] != Magic1 && b[0] != Magic2:
		return -1
	case len(b) < 3:
		return 0
	case b[0] == Magic1:
		return 8 + int(b[1])
	case b[2]&^signed != 0:
		return -1
	case b[2]&signed != 0:
		return 12 + int(b[1]) + 13
	}
	return 12 + int(b[1])
}

// parse takes a whole frame apart.
func parse(b []byte) frame {
	n := int(b[1])
	if b[0] == Magic1 {
		return frame{id: uint32(b[5]), sender: binary.BigEndian.Uint16(b[3:]), payload: b[6 : 6+n], sum: b[1 : 8+n]}
	}
	return frame{id: uint32(b[7]) | uint32(b[8])<<8 | uint32(b[9])<<16, sender: binary.BigEndian.Uint16(b[5:]),
		second: true, payload: b[10 : 10+n], sum: b[1 : 12+n]}
}

// check reports whether a message is one that is read, and whether its checksum is right.
func (f *frame) check() (known bool, err error) {
	length, extra, ok := Known(f.id)
	if !ok {
		return false, nil
	}
	if !f.second && len(f.payload) != length {
		return true, fault.ErrMalformed
	}
	n := len(f.sum) - 2
	if Sum(Sum(0xFFFF, f.sum[:n]), []byte{extra}) != binary.LittleEndian.Uint16(f.sum[n:]) {
		return true, fault.ErrChecksum
	}
	return true, nil
}

// valid reports whether a datagram is MAVLink: frames one after the other to its end, with the
// right checksum where it can be computed. Text that begins like a frame is not.
func valid(b []byte) bool {
	for len(b) > 0 {
		n := size(b)
		if n <= 0 || n > len(b) {
			return false
		}
		f := parse(b[:n])
		if _, err := f.check(); err != nil {
			return false
		}
		b = b[n:]
	}
	return true
}

// A decoder follows the first vehicle that sends its attitude.
type decoder struct {
	format.Plain
	name     string
	values   merge.Values
	followed uint16
	follows  bool
	heard    float64 // receive time of its last message, s

	buf [longest]byte // a frame that the datagram before began
	n   int
}

func (r *decoder) Name() string { return r.name }

func (r *decoder) Detail() phrase.Phrase {
	return phrase.DetailMAVLink.Of()
}

func (r *decoder) Advice(q format.Silence) phrase.Phrase {
	if !q.Lasts() {
		return phrase.Phrase{}
	}
	return phrase.NoAttitudeMAVLink.Of()
}

func (r *decoder) Age(c stream.Channel) float64 { return r.values.Age(c) }

func (r *decoder) Continues([]byte) bool { return r.n > 0 }

func (r *decoder) Restart() { *r = decoder{} }

// Decode reads the frames of a datagram, and one that the datagram before began.
func (r *decoder) Decode(b []byte, now float64, s *stream.Sample) error {
	return r.values.Sample(r.frames(b, now), now, s)
}

func (r *decoder) frames(b []byte, now float64) error {
	if r.n > 0 {
		b = r.join(b, now)
	}
	read, broken := r.values.Updated(), error(nil)
	for len(b) > 0 {
		n := size(b)
		if n < 0 {
			broken = fault.ErrMalformed
			break
		}
		if n == 0 || n > len(b) { // goes on in the next datagram
			r.n = copy(r.buf[:], b)
			break
		}
		err := r.take(b[:n], now)
		if err != nil && err != fault.ErrOther {
			broken = err
			break // what follows a damaged frame cannot be trusted
		}
		read = true
		b = b[n:]
	}
	if broken != nil && !read {
		return broken
	}
	return nil
}

// join completes the frame that was begun, and returns what follows it in b. When that gives no
// frame, b stands for itself.
func (r *decoder) join(b []byte, now float64) []byte {
	n := r.n + copy(r.buf[r.n:], b)
	begun := r.n
	r.n = 0
	if valid(b) {
		return b // the rest never came
	}
	length := size(r.buf[:n])
	if length <= 0 || length > n || length <= begun {
		return b
	}
	if err := r.take(r.buf[:length], now); err != nil && err != fault.ErrOther {
		return b
	}
	return b[length-begun:]
}

// take reads one whole frame.
func (r *decoder) take(b []byte, now float64) error {
	f := parse(b)
	known, err := f.check()
	if err != nil {
		return err
	}
	r.name = "MAVLink 1"
	if f.second {
		r.name = "MAVLink 2"
	}
	if !known {
		return nil
	}
	if r.follows && f.sender != r.followed && now-r.heard <= silent || !r.follows && f.id != Attitude {
		return fault.ErrOther
	}
	if f.id == Attitude {
		if r.follows && f.sender != r.followed {
			r.values = merge.Values{} // another vehicle
		}
		r.followed, r.follows = f.sender, true
	} else if f.sender != r.followed {
		return fault.ErrOther
	}
	r.heard = now
	var p [28]byte // trailing zeros are not sent in version 2
	copy(p[:], f.payload)
	switch f.id {
	case Attitude:
		takeAttitude(&p, now, &r.values)
	case Position:
		takePosition(&p, now, &r.values)
	case HUD:
		takeHUD(&p, now, &r.values)
	}
	return nil
}

func float32At(b []byte, i int) float32 {
	return math.Float32frombits(binary.LittleEndian.Uint32(b[i:]))
}

func takeAttitude(p *[28]byte, now float64, m *merge.Values) {
	m.Put(stream.Time, float64(binary.LittleEndian.Uint32(p[:]))/1000, now)
	for i, c := range [...]stream.Channel{stream.Bank, stream.Pitch, stream.Heading, stream.RollRate, stream.PitchRate,
		stream.YawRate} {
		m.Put(c, float64(float32At(p[:], 4+4*i))*units.DegreesPerRadian, now)
	}
}

func takePosition(p *[28]byte, now float64, m *merge.Values) {
	i32 := func(i int) float64 { return float64(int32(binary.LittleEndian.Uint32(p[i:]))) }
	i16 := func(i int) float64 { return float64(int16(binary.LittleEndian.Uint16(p[i:]))) }
	if lat, lon := i32(4), i32(8); lat != 0 || lon != 0 { // both 0: no position yet
		m.Put(stream.Latitude, lat/1e7, now)
		m.Put(stream.Longitude, lon/1e7, now)
	} else {
		m.Lose(stream.Latitude, now, 0)
		m.Lose(stream.Longitude, now, 0)
	}
	m.Offer(stream.Altitude, i32(12)/1000/units.Foot, now, 1)
	north, east := i16(20)/100, i16(22)/100
	speed := math.Hypot(north, east)
	m.Offer(stream.GroundSpeed, speed/units.Knot, now, 1)
	if track, ok := units.Track(north, east); ok {
		m.Put(stream.Track, track, now)
	} else {
		m.Lose(stream.Track, now, 0)
	}
	m.Offer(stream.VerticalSpeed, -i16(24)/100/units.FootPerMinute, now, 1)
}

func takeHUD(p *[28]byte, now float64, m *merge.Values) {
	f32 := func(i int) float64 { return float64(float32At(p[:], i)) }
	m.Put(stream.Airspeed, f32(0)/units.Knot, now)
	m.Offer(stream.GroundSpeed, f32(4)/units.Knot, now, 0)
	m.Offer(stream.Altitude, f32(8)/units.Foot, now, 0)
	m.Offer(stream.VerticalSpeed, f32(12)/units.FootPerMinute, now, 0)
	m.Put(stream.Throttle, float64(binary.LittleEndian.Uint16(p[18:]))/100, now)
}
