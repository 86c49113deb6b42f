package wire

import (
	"encoding/binary"

	"halfturn/stream"
)

// GDL 90 (Garmin, "GDL 90 Data Interface Specification", 560-1058-00 Rev A, 2007), with the two
// attitude messages simulators add to it: 0x65 (ForeFlight, "GDL 90 Extended Specification") and
// 0x4C, of which there is no public specification.
//
// What is taken, and from where:
//
//   - attitude and airspeeds from 0x65 as long as that has a heading, else from 0x4C;
//   - load factor, airspeed and vertical speed from 0x4C. Its altitude has an offset, its slip a
//     scale and its yaw rate a meaning that differ between senders: they are left out;
//   - position, ground speed, vertical speed and track from the ownship report;
//   - altitude: the geometric one where the sender says it is above mean sea level, else pressure
//     altitude, which in most simulators is the true one, else the geometric one as it is, above
//     the ellipsoid.
type gdlReader struct {
	deframer
	levelSea bool    // the sender says that geometric altitude is above mean sea level
	led65    float64 // receive time of the last 0x65 with a heading, s
	led4C    float64 // of the last 0x4C with a heading
	has65    bool
	has4C    bool
	climb4C  float64 // of the last vertical speed by 0x4C
}

const (
	gdlFlag    = 0x7E
	gdlEscape  = 0x7D
	gdlMask    = 0x20
	gdlLongest = 64 // bytes of a frame; those that are read are shorter

	gdlHeartbeat = 0x00
	gdlOwnship   = 0x0A
	gdlGeometric = 0x0B
	gdlExtended  = 0x65
	gdlAttitude  = 0x4C

	gdlLead = 1.0 // s, for how long one attitude message has precedence
)

// Ranks of the sources of altitude.
const (
	rankEllipsoid = iota
	rankPressure
	rankSeaLevel
)

// gdlTable is that of the specification's section 2.2.3.
var gdlTable = func() (table [256]uint16) {
	for i := range table {
		crc := uint16(i) << 8
		for range 8 {
			if crc&0x8000 != 0 {
				crc = crc<<1 ^ 0x1021
			} else {
				crc <<= 1
			}
		}
		table[i] = crc
	}
	return table
}()

// gdlSum is the checksum of a message. It differs from the usual CRC of that polynomial in
// where the byte goes in.
func gdlSum(b []byte) uint16 {
	crc := uint16(0)
	for _, c := range b {
		crc = gdlTable[crc>>8] ^ crc<<8 ^ uint16(c)
	}
	return crc
}

// A deframer takes frames out of a stream of bytes, which datagrams may cut anywhere.
type deframer struct {
	frame  [gdlLongest]byte
	n      int
	open   bool // a flag came
	escape bool
	wrong  bool // the frame is too long or wrongly stuffed
}

func (d *deframer) pending() bool { return d.open && d.n > 0 }

// next returns the next whole message of b without its checksum, and what follows it. The
// message is nil when b ends before; its error tells of a wrong checksum or wrong stuffing.
func (d *deframer) next(b []byte) (message, rest []byte, err error) {
	for i, c := range b {
		switch {
		case c == gdlFlag:
			n, bad := d.n, d.wrong || d.escape
			was := d.open
			d.open, d.n, d.escape, d.wrong = true, 0, false, false
			if !was || n == 0 {
				continue
			}
			switch {
			case bad:
				return nil, b[i+1:], ErrMalformed
			case n < 3 || gdlSum(d.frame[:n-2]) != binary.LittleEndian.Uint16(d.frame[n-2:]):
				return nil, b[i+1:], ErrChecksum
			}
			return d.frame[:n-2], b[i+1:], nil
		case !d.open || d.wrong:
		case c == gdlEscape:
			d.wrong = d.escape
			d.escape = true
		default:
			if d.escape {
				c ^= gdlMask
				d.wrong = c != gdlFlag && c != gdlEscape
				d.escape = false
			}
			if d.n == gdlLongest {
				d.wrong = true
				continue
			}
			d.frame[d.n] = c
			d.n++
		}
	}
	return nil, nil, nil
}

// gdlValid tells whether there is a frame with the right checksum: a tilde alone means nothing.
func gdlValid(b []byte) bool {
	var d deframer
	for len(b) > 0 {
		var message []byte
		if message, b, _ = d.next(b); message != nil {
			return true
		}
	}
	return false
}

// decode reads the messages of a datagram. The error is that of a frame only when none was good.
func (g *gdlReader) decode(b []byte, now float64, m *merger) error {
	good, fault := false, error(nil)
	for len(b) > 0 {
		var message []byte
		var err error
		if message, b, err = g.next(b); message != nil {
			err = g.message(message, now, m)
			good = good || err == nil
		}
		if err != nil {
			fault = err
		}
	}
	if good || fault == nil {
		return nil
	}
	return fault
}

// message reads one message. Those not known are no fault.
func (g *gdlReader) message(b []byte, now float64, m *merger) error {
	length := 0
	switch b[0] {
	case gdlHeartbeat: // its time of day is in whole seconds: of no use
		length = 7
	case gdlOwnship:
		if length = 28; len(b) == length {
			g.ownship(b, now, m)
		}
	case gdlGeometric:
		if length = 5; len(b) == length {
			g.geometric(b, now, m)
		}
	case gdlAttitude:
		if len(b) < 4 || b[1] != 0x45 || b[2] != 1 || b[3] != 1 {
			return nil
		}
		if length = 24; len(b) == length {
			g.attitude4C(b, now, m)
		}
	case gdlExtended:
		if len(b) < 2 || b[1] > 1 {
			return nil
		}
		if length = 39; b[1] == 1 {
			length = 12
		}
		if len(b) == length {
			g.extended(b, now, m)
		}
	default:
		return nil
	}
	if len(b) != length {
		return ErrMalformed
	}
	return nil
}

func (g *gdlReader) ownship(b []byte, now float64, m *merger) {
	lat, lon := gdlAngle(b[5:]), gdlAngle(b[8:])
	if lat == 0 && lon == 0 && b[13]>>4 == 0 { // no fix
		m.lose(stream.Latitude, now, 0)
		m.lose(stream.Longitude, now, 0)
	} else {
		m.put(stream.Latitude, lat, now)
		m.put(stream.Longitude, lon, now)
	}
	if v := int(b[11])<<4 | int(b[12])>>4; v != 0xFFF {
		m.offer(stream.Altitude, float64(v)*25-1000, now, rankPressure)
	} else {
		m.lose(stream.Altitude, now, rankPressure)
	}
	if v := int(b[14])<<4 | int(b[15])>>4; v < 0xFFE { // beyond is none, or more than can be said
		m.put(stream.GroundSpeed, float64(v), now)
	} else {
		m.lose(stream.GroundSpeed, now, 0)
	}
	if v := int16(uint16(b[15])<<12|uint16(b[16])<<4) >> 4; v >= -509 && v <= 509 {
		m.offer(stream.VerticalSpeed, float64(v)*64, now, 0)
	} else {
		m.lose(stream.VerticalSpeed, now, 0)
	}
	if b[12]&3 == 1 { // the others are headings, too coarse and too seldom to use
		m.put(stream.Track, float64(b[17])*360/256, now)
	} else {
		m.lose(stream.Track, now, 0)
	}
}

// gdlAngle reads 24 bits, signed, of 180°/2²³.
func gdlAngle(b []byte) float64 {
	v := int32(uint32(b[0])<<24|uint32(b[1])<<16|uint32(b[2])<<8) >> 8
	return float64(v) * 180 / (1 << 23)
}

func (g *gdlReader) geometric(b []byte, now float64, m *merger) {
	rank := uint8(rankEllipsoid)
	if g.levelSea {
		rank = rankSeaLevel
	}
	m.offer(stream.Altitude, float64(int16(binary.BigEndian.Uint16(b[1:])))*5, now, rank)
}

// extended reads 0x65: what the sender is, or attitude.
func (g *gdlReader) extended(b []byte, now float64, m *merger) {
	if b[1] == 0 {
		// Bit 0 of a big-endian word, by the specification. A lone bit at the other end can
		// only be the same bit written the wrong way round: the bits there are reserved.
		caps := binary.BigEndian.Uint32(b[35:])
		g.levelSea = caps&1 != 0 || caps == 1<<24
		return
	}
	heading := binary.BigEndian.Uint16(b[6:])
	turn, known := gdlHeading(heading)
	if known {
		g.led65, g.has65 = now, true
	}
	if known || !g.leads(g.has4C, g.led4C, now) {
		gdlPut(m, stream.Bank, b[2:], 0.1, now)
		gdlPut(m, stream.Pitch, b[4:], 0.1, now)
		if known {
			m.put(stream.Heading, turn, now)
			m.latest.Magnetic = heading&0x8000 != 0
		} else {
			m.lose(stream.Heading, now, 0)
		}
	}
	for i, c := range [...]stream.Channel{stream.Airspeed, stream.TrueAirspeed} {
		if v := binary.BigEndian.Uint16(b[8+2*i:]); v != 0xFFFF {
			m.offer(c, float64(v), now, 1)
		} else {
			m.lose(c, now, 1)
		}
	}
}

// gdlHeading reads 15 bits of 0.1°, documented from −360 to 360.
func gdlHeading(v uint16) (deg float64, ok bool) {
	if v == 0xFFFF {
		return 0, false
	}
	tenths := int(v & 0x7FFF)
	if tenths > 3600 {
		tenths -= 1 << 15
	}
	return float64(tenths) / 10, tenths >= -3600
}

// leads tells whether an attitude message with a heading came lately.
func (g *gdlReader) leads(had bool, at, now float64) bool {
	return had && now-at <= gdlLead && now >= at
}

// gdlPut stores a signed value, unless it is the mark for none.
func gdlPut(m *merger, c stream.Channel, b []byte, scale, now float64) {
	if v := int16(binary.BigEndian.Uint16(b)); v != 0x7FFF {
		m.put(c, float64(v)*scale, now)
	} else {
		m.lose(c, now, 0)
	}
}

func (g *gdlReader) attitude4C(b []byte, now float64, m *merger) {
	if !g.leads(g.has65, g.led65, now) {
		gdlPut(m, stream.Bank, b[4:], 0.1, now)
		gdlPut(m, stream.Pitch, b[6:], 0.1, now)
		gdlPut(m, stream.Heading, b[8:], 0.1, now)
		m.latest.Magnetic = false // which it is, nobody says; only its change matters
		if m.latest.Has.Has(stream.Heading) {
			g.led4C, g.has4C = now, true
		}
	}
	gdlPut(m, stream.NormalLoad, b[14:], 0.1, now)
	gdlPut(m, stream.Airspeed, b[16:], 1, now)
	if v := int16(binary.BigEndian.Uint16(b[20:])); v != 0x7FFF {
		m.offer(stream.VerticalSpeed, float64(v), now, 1)
	} else {
		m.lose(stream.VerticalSpeed, now, 1)
	}
}

func (g *gdlReader) detail(m *merger) string {
	altitude := [...]string{"altitude is the height above the ellipsoid, other than mean sea level by up to 350 ft",
		"altitude is pressure altitude, which in most simulators is the true one", "altitude is above mean sea level"}[m.rank[stream.Altitude]]
	if g.has65 {
		return altitude + "; attitude by message 0x65"
	}
	return altitude + "; attitude by message 0x4C"
}

// gdlEncoder writes both attitude messages with each sample, and once a second of stream time
// the heartbeat, what the sender is, the ownship report and the geometric altitude.
type gdlEncoder struct{ due once }

func (*gdlEncoder) Preamble() []byte { return nil }

func (e *gdlEncoder) Append(dst []byte, s *stream.Sample) []byte {
	if e.due.at(s, 1) {
		seconds := uint32(s.Value(stream.Time)) % 86400
		dst = gdlFrame(dst, []byte{gdlHeartbeat, 0x81, byte(seconds>>16)<<7 | 1, byte(seconds), byte(seconds >> 8), 0, 0})
		id := [39]byte{gdlExtended, 0, 1, 38: 1}
		copy(id[3:], "\xff\xff\xff\xff\xff\xff\xff\xffHalfturnHalfturn")
		dst = gdlFrame(dst, id[:])
		dst = gdlOwnshipFrame(dst, s)
		if v, ok := s.Get(stream.Altitude); ok {
			feet := uint16(gdlRound(v/5, -0x8000, 0x7FFF))
			dst = gdlFrame(dst, []byte{gdlGeometric, byte(feet >> 8), byte(feet), 0x7F, 0xFF})
		}
	}
	return gdlAttitudeFrames(dst, s)
}

func gdlOwnshipFrame(dst []byte, s *stream.Sample) []byte {
	f := [28]byte{gdlOwnship, 18: 1}
	lat, here := s.Get(stream.Latitude)
	lon, there := s.Get(stream.Longitude)
	if here && there {
		for i, deg := range [...]float64{lat, lon} {
			v := uint32(gdlRound(deg*(1<<23)/180, -1<<23, 1<<23-1))
			f[5+3*i], f[6+3*i], f[7+3*i] = byte(v>>16), byte(v>>8), byte(v)
		}
		f[13] = 0xA9
	}
	altitude, speed, climb := uint16(0xFFF), uint16(0xFFF), uint16(0x800)
	if v, ok := s.Get(stream.Altitude); ok {
		altitude = uint16(gdlRound((v+1000)/25, 0, 0xFFE))
	}
	if v, ok := s.Get(stream.GroundSpeed); ok {
		speed = uint16(gdlRound(v, 0, 0xFFE))
	}
	if v, ok := s.Get(stream.VerticalSpeed); ok {
		climb = uint16(gdlRound(v/64, -510, 510)) & 0xFFF
	}
	f[11], f[12] = byte(altitude>>4), byte(altitude<<4)|8
	if v, ok := s.Get(stream.Track); ok {
		f[12] |= 1
		f[17] = byte(int(gdlRound(v*256/360, 0, 256)))
	}
	f[14], f[15], f[16] = byte(speed>>4), byte(speed<<4)|byte(climb>>8), byte(climb)
	copy(f[19:27], "HALFTURN")
	return gdlFrame(dst, f[:])
}

func gdlAttitudeFrames(dst []byte, s *stream.Sample) []byte {
	f := [12]byte{gdlExtended, 1}
	be := binary.BigEndian
	be.PutUint16(f[2:], gdlTenths(s, stream.Bank))
	be.PutUint16(f[4:], gdlTenths(s, stream.Pitch))
	heading := uint16(0xFFFF)
	if v, ok := s.Get(stream.Heading); ok {
		if heading = uint16(gdlRound(v*10, 0, 3600)) % 3600; s.Magnetic {
			heading |= 0x8000
		}
	}
	be.PutUint16(f[6:], heading)
	for i, c := range [...]stream.Channel{stream.Airspeed, stream.TrueAirspeed} {
		v := uint16(0xFFFF)
		if kt, ok := s.Get(c); ok {
			v = uint16(gdlRound(kt, 0, 0xFFFE))
		}
		be.PutUint16(f[8+2*i:], v)
	}
	dst = gdlFrame(dst, f[:])

	const none = 0x7FFF
	g := [24]byte{gdlAttitude, 0x45, 1, 1}
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
	return gdlFrame(dst, g[:])
}

// gdlRound rounds to a whole number within limits.
func gdlRound(v, least, most float64) int64 {
	v = min(max(v, least), most)
	if v < 0 {
		return -int64(0.5 - v)
	}
	return int64(v + 0.5)
}

func gdlTenths(s *stream.Sample, c stream.Channel) uint16 { return gdlSigned(s, c, 10) }
func gdlWhole(s *stream.Sample, c stream.Channel) uint16  { return gdlSigned(s, c, 1) }

func gdlSigned(s *stream.Sample, c stream.Channel, scale float64) uint16 {
	v, ok := s.Get(c)
	if !ok {
		return 0x7FFF
	}
	return uint16(gdlRound(v*scale, -0x8000, 0x7FFE))
}

// gdlFrame adds a message with its checksum, stuffed and between flags.
func gdlFrame(dst, message []byte) []byte {
	dst = append(dst, gdlFlag)
	for _, c := range message {
		dst = gdlStuff(dst, c)
	}
	sum := gdlSum(message)
	dst = gdlStuff(gdlStuff(dst, byte(sum)), byte(sum>>8))
	return append(dst, gdlFlag)
}

func gdlStuff(dst []byte, c byte) []byte {
	if c == gdlFlag || c == gdlEscape {
		return append(dst, gdlEscape, c^gdlMask)
	}
	return append(dst, c)
}
