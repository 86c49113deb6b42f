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
