package wire

import (
	"encoding/binary"
	"math"

	"halfturn/stream"
)

// MAVLink, versions 1 and 2 (mavlink.io, "Packet Serialization" and the common message set).
// Three messages are read: ATTITUDE, which makes the samples, VFR_HUD and GLOBAL_POSITION_INT.
// Airspeed is indicated or equivalent as the autopilot likes; relative altitude is above
// the start, not above ground, and is left out.
const (
	mavMagic1   = 0xFE
	mavMagic2   = 0xFD
	mavLongest  = 10 + 255 + 2 + 13 // bytes of a frame
	mavSigned   = 0x01              // the one incompatible flag that is known
	mavAttitude = 30
	mavPosition = 33
	mavHUD      = 74

	mavSilent = 5.0 // s, after which another vehicle may take the place of the one followed
)

// mavKnown returns the length of a message that is read and the byte that goes into its
// checksum, made from the names and types of its fields.
func mavKnown(id uint32) (length int, extra byte, ok bool) {
	switch id {
	case mavAttitude:
		return 28, 39, true
	case mavPosition:
		return 28, 104, true
	case mavHUD:
		return 20, 20, true
	}
	return 0, 0, false
}

// mavSum is CRC-16/MCRF4XX, the checksum of X.25 without its last inversion.
func mavSum(crc uint16, b []byte) uint16 {
	for _, c := range b {
		c ^= byte(crc)
		c ^= c << 4
		crc = crc>>8 ^ uint16(c)<<8 ^ uint16(c)<<3 ^ uint16(c)>>4
	}
	return crc
}

// A mavFrame is one message.
type mavFrame struct {
	id      uint32
	sender  uint16 // system and component
	second  bool   // version 2
	payload []byte
	sum     []byte // what the checksum covers, then the checksum
}

// mavSize returns how long the frame at the beginning of b is, 0 when b is too short to tell,
// −1 when there is none or one with flags that forbid reading it.
func mavSize(b []byte) int {
	switch {
	case b[0] != mavMagic1 && b[0] != mavMagic2:
		return -1
	case len(b) < 3:
		return 0
	case b[0] == mavMagic1:
		return 8 + int(b[1])
	case b[2]&^mavSigned != 0:
		return -1
	case b[2]&mavSigned != 0:
		return 12 + int(b[1]) + 13
	}
	return 12 + int(b[1])
}

// mavParse takes a whole frame apart.
func mavParse(b []byte) mavFrame {
	n := int(b[1])
	if b[0] == mavMagic1 {
		return mavFrame{id: uint32(b[5]), sender: binary.BigEndian.Uint16(b[3:]), payload: b[6 : 6+n], sum: b[1 : 8+n]}
	}
	return mavFrame{id: uint32(b[7]) | uint32(b[8])<<8 | uint32(b[9])<<16, sender: binary.BigEndian.Uint16(b[5:]),
		second: true, payload: b[10 : 10+n], sum: b[1 : 12+n]}
}

// check tells a message that is read, and whether its checksum is right.
func (f *mavFrame) check() (known bool, err error) {
	length, extra, ok := mavKnown(f.id)
	if !ok {
		return false, nil
	}
	if !f.second && len(f.payload) != length {
		return true, ErrMalformed
	}
	n := len(f.sum) - 2
	if mavSum(mavSum(0xFFFF, f.sum[:n]), []byte{extra}) != binary.LittleEndian.Uint16(f.sum[n:]) {
		return true, ErrChecksum
	}
	return true, nil
}

// mavValid tells whether a datagram is MAVLink: frames one after the other to its end, with the
// right checksum where it can be computed. Letters that begin like a frame are not.
func mavValid(b []byte) bool {
	for len(b) > 0 {
		n := mavSize(b)
		if n <= 0 || n > len(b) {
			return false
		}
		f := mavParse(b[:n])
		if _, err := f.check(); err != nil {
			return false
		}
		b = b[n:]
	}
	return true
}

// mavReader follows the first vehicle that sends its attitude.
type mavReader struct {
	followed uint16
	follows  bool
	heard    float64 // receive time of its last message, s

	buf [mavLongest]byte // a frame that the datagram before began
	n   int
}

func (r *mavReader) decode(b []byte, now float64, name *string, m *merger) error {
	if r.n > 0 {
		b = r.join(b, now, name, m)
	}
	read, fault := m.updated(), error(nil)
	for len(b) > 0 {
		n := mavSize(b)
		if n < 0 {
			fault = ErrMalformed
			break
		}
		if n == 0 || n > len(b) { // goes on in the next datagram
			r.n = copy(r.buf[:], b)
			break
		}
		err := r.take(b[:n], now, name, m)
		if err != nil && err != ErrOther {
			fault = err
			break // a datagram is either whole or not: what follows is not to be trusted
		}
		read = true
		b = b[n:]
	}
	if fault != nil && !read {
		return fault
	}
	return nil
}

// join completes the frame that was begun, and returns what follows it in b. When that gives no
// frame, b stands for itself.
func (r *mavReader) join(b []byte, now float64, name *string, m *merger) []byte {
	n := r.n + copy(r.buf[r.n:], b)
	begun := r.n
	r.n = 0
	if mavValid(b) {
		return b // the rest never came
	}
	size := mavSize(r.buf[:n])
	if size <= 0 || size > n || size <= begun {
		return b
	}
	if err := r.take(r.buf[:size], now, name, m); err != nil && err != ErrOther {
		return b
	}
	return b[size-begun:]
}

// take reads one whole frame.
func (r *mavReader) take(b []byte, now float64, name *string, m *merger) error {
	f := mavParse(b)
	known, err := f.check()
	if err != nil {
		return err
	}
	*name = "MAVLink 1"
	if f.second {
		*name = "MAVLink 2"
	}
	if !known {
		return nil
	}
	if r.follows && f.sender != r.followed && now-r.heard <= mavSilent || !r.follows && f.id != mavAttitude {
		return ErrOther
	}
	if f.id == mavAttitude {
		if r.follows && f.sender != r.followed {
			*m = merger{} // another vehicle
		}
		r.followed, r.follows = f.sender, true
	} else if f.sender != r.followed {
		return ErrOther
	}
	r.heard = now
	var p [28]byte // trailing zeros are not sent in version 2
	copy(p[:], f.payload)
	switch f.id {
	case mavAttitude:
		mavTakeAttitude(&p, now, m)
	case mavPosition:
		mavTakePosition(&p, now, m)
	case mavHUD:
		mavTakeHUD(&p, now, m)
	}
	return nil
}

func mavTakeAttitude(p *[28]byte, now float64, m *merger) {
	m.put(stream.Time, float64(binary.LittleEndian.Uint32(p[:]))/1000, now)
	for i, c := range [...]stream.Channel{stream.Bank, stream.Pitch, stream.Heading, stream.RollRate, stream.PitchRate, stream.YawRate} {
		m.put(c, float64(float32At(p[:], 4+4*i))*degPerRadian, now)
	}
}

func mavTakePosition(p *[28]byte, now float64, m *merger) {
	i32 := func(i int) float64 { return float64(int32(binary.LittleEndian.Uint32(p[i:]))) }
	i16 := func(i int) float64 { return float64(int16(binary.LittleEndian.Uint16(p[i:]))) }
	if lat, lon := i32(4), i32(8); lat != 0 || lon != 0 { // both 0: no position yet
		m.put(stream.Latitude, lat/1e7, now)
		m.put(stream.Longitude, lon/1e7, now)
	} else {
		m.lose(stream.Latitude, now, 0)
		m.lose(stream.Longitude, now, 0)
	}
	m.offer(stream.Altitude, i32(12)/1000/foot, now, 1)
	north, east := i16(20)/100, i16(22)/100
	speed := math.Hypot(north, east)
	m.offer(stream.GroundSpeed, speed/knot, now, 1)
	if speed >= slowest {
		m.put(stream.Track, math.Atan2(east, north)*degPerRadian, now)
	} else {
		m.lose(stream.Track, now, 0)
	}
	m.offer(stream.VerticalSpeed, -i16(24)/100/feetPerMin, now, 1)
}

func mavTakeHUD(p *[28]byte, now float64, m *merger) {
	f32 := func(i int) float64 { return float64(float32At(p[:], i)) }
	m.put(stream.Airspeed, f32(0)/knot, now)
	m.offer(stream.GroundSpeed, f32(4)/knot, now, 0)
	m.offer(stream.Altitude, f32(8)/foot, now, 0)
	m.offer(stream.VerticalSpeed, f32(12)/feetPerMin, now, 0)
	m.put(stream.Throttle, float64(binary.LittleEndian.Uint16(p[18:]))/100, now)
}

// mavEncoder writes ATTITUDE with each sample and the other two messages five times a second of
// stream time, together in one datagram. Floating-point values that a sample lacks are NaN.
type mavEncoder struct {
	second bool
	seq    byte
	due    once
}

func (*mavEncoder) Preamble() []byte { return nil }

func (e *mavEncoder) Append(dst []byte, s *stream.Sample) []byte {
	le := binary.LittleEndian
	var p [28]byte
	f32 := func(i int, v float64) { le.PutUint32(p[i:], math.Float32bits(float32(v))) }
	le.PutUint32(p[:], uint32(int64(math.Round(s.Value(stream.Time)*1000))))
	for i, v := range [...]float64{orNaN(s, stream.Bank), orNaN(s, stream.Pitch), stream.Wrap180(trueHeading(s)),
		orNaN(s, stream.RollRate), orNaN(s, stream.PitchRate), orNaN(s, stream.YawRate)} {
		f32(4+4*i, v/degPerRadian)
	}
	dst = e.frame(dst, mavAttitude, p[:])
	if !e.due.at(s, 0.2) {
		return dst
	}
	north, east, down := velocity(s)
	lat, here := s.Get(stream.Latitude)
	lon, there := s.Get(stream.Longitude)
	altitude, high := s.Get(stream.Altitude)
	if here && there && high && north == north && down == down {
		p = [28]byte{}
		for i, v := range [...]float64{lat * 1e7, lon * 1e7, altitude * foot * 1000} {
			le.PutUint32(p[4+4*i:], uint32(int32(gdlRound(v, math.MinInt32, math.MaxInt32))))
		}
		le.PutUint32(p[:], uint32(int64(math.Round(s.Value(stream.Time)*1000))))
		for i, v := range [...]float64{north, east, down} {
			le.PutUint16(p[20+2*i:], uint16(gdlRound(v*100, math.MinInt16, math.MaxInt16)))
		}
		le.PutUint16(p[26:], 0xFFFF)
		dst = e.frame(dst, mavPosition, p[:])
	}
	throttle, levered := s.Get(stream.Throttle)
	if !levered {
		return dst // its field has no mark for none
	}
	p = [28]byte{}
	for i, v := range [...]float64{orNaN(s, stream.Airspeed) * knot, orNaN(s, stream.GroundSpeed) * knot, orNaN(s, stream.Altitude) * foot,
		orNaN(s, stream.VerticalSpeed) * feetPerMin} {
		f32(4*i, v)
	}
	le.PutUint16(p[16:], uint16(s.Value(stream.Heading)))
	le.PutUint16(p[18:], uint16(gdlRound(throttle*100, 0, 100)))
	return e.frame(dst, mavHUD, p[:20])
}

func (e *mavEncoder) frame(dst []byte, id byte, payload []byte) []byte {
	start := len(dst)
	n := len(payload)
	if e.second {
		for n > 1 && payload[n-1] == 0 {
			n--
		}
		dst = append(dst, mavMagic2, byte(n), 0, 0, e.seq, 1, 1, id, 0, 0)
	} else {
		dst = append(dst, mavMagic1, byte(n), e.seq, 1, 1, id)
	}
	e.seq++
	dst = append(dst, payload[:n]...)
	_, extra, _ := mavKnown(uint32(id))
	sum := mavSum(mavSum(0xFFFF, dst[start+1:]), []byte{extra})
	return append(dst, byte(sum), byte(sum>>8))
}
