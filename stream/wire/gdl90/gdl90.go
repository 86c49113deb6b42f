// Package gdl90 reads GDL 90 (Garmin, "GDL 90 Data Interface Specification", 560-1058-00 Rev A, 2007), with the two
// attitude messages that simulators add to it: 0x65 (ForeFlight, "GDL 90 Extended Specification") and 0x4C, of which
// there is no public specification.
//
// What is taken, and from where:
//
//   - attitude and airspeeds from 0x65 as long as that has a heading, else from 0x4C;
//   - load factor, airspeed and vertical speed from 0x4C. Its altitude has an offset, its slip a scale and its yaw rate
//     a meaning that differ between senders: they are left out;
//   - position, ground speed, vertical speed and track from the ownship report;
//   - altitude: the geometric one where the sender says it is above mean sea level, else pressure altitude, which in
//     most simulators is the true one, else the geometric one as it is, above the ellipsoid.
package gdl90

import (
	"bytes"
	"encoding/binary"

	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/merge"
)

// Format is GDL 90.
var Format = &format.Format{
	Names: []string{name},
	First: string([]byte{Flag}),
	Recognize: func(d *format.Datagram) format.Claim {
		return format.Is(d.Known || len(d.Bytes) >= 5 && valid(d.Bytes))
	},
	New:  func(*format.Options) format.Decoder { return &decoder{} },
	Rate: format.SeldomRate,
}

const name = "GDL 90"

// The messages that are read.
const (
	Heartbeat = 0x00
	Ownship   = 0x0A
	Geometric = 0x0B
	Extended  = 0x65
	Attitude  = 0x4C
)

// lead is for how many seconds one attitude message has precedence.
const lead = 1.0

// Ranks of the sources of altitude.
const (
	rankEllipsoid = iota
	rankPressure
	rankSeaLevel
)

type decoder struct {
	format.Plain
	deframer
	values   merge.Values
	levelSea bool    // the sender says that geometric altitude is above mean sea level
	led65    float64 // receive time of the last 0x65 with a heading, s
	led4C    float64 // of the last 0x4C with a heading
	has65    bool
	has4C    bool
}

func (g *decoder) Name() string { return name }

func (g *decoder) Detail() phrase.Phrase {
	message := "0x4C"
	if g.has65 {
		message = "0x65"
	}
	switch g.values.Rank(stream.Altitude) {
	case 2:
		return phrase.GDL90Sea.Of(phrase.Words("message", message))
	case 1:
		return phrase.GDL90Pressure.Of(phrase.Words("message", message))
	}
	return phrase.GDL90Ellipsoid.Of(phrase.Number("most", 350, 0, "ft"), phrase.Words("message", message))
}

func (g *decoder) Advice(q format.Silence) phrase.Phrase {
	if !q.Lasts() {
		return phrase.Phrase{}
	}
	return phrase.NoAttitudeGDL90.Of()
}

func (g *decoder) Age(c stream.Channel) float64 { return g.values.Age(c) }

func (g *decoder) Continues(b []byte) bool { return g.pending() && bytes.IndexByte(b, Flag) >= 0 }

func (g *decoder) Restart() { *g = decoder{} }

// Decode reads the messages of a datagram, and one that the datagram before began.
func (g *decoder) Decode(b []byte, now float64, s *stream.Sample) error {
	return g.values.Sample(g.messages(b, now), now, s)
}

// messages returns the error of a frame only when none was good.
func (g *decoder) messages(b []byte, now float64) error {
	good, broken := false, error(nil)
	for len(b) > 0 {
		var message []byte
		var err error
		if message, b, err = g.next(b); message != nil {
			err = g.message(message, now, &g.values)
			good = good || err == nil
		}
		if err != nil {
			broken = err
		}
	}
	if good || broken == nil {
		return nil
	}
	return broken
}

// message reads one message. An unknown one is not a fault.
func (g *decoder) message(b []byte, now float64, m *merge.Values) error {
	length := 0
	switch b[0] {
	case Heartbeat: // its time of day is in whole seconds, too coarse to use
		length = 7
	case Ownship:
		if length = 28; len(b) == length {
			g.ownship(b, now, m)
		}
	case Geometric:
		if length = 5; len(b) == length {
			g.geometric(b, now, m)
		}
	case Attitude:
		if len(b) < 4 || b[1] != 0x45 || b[2] != 1 || b[3] != 1 {
			return nil
		}
		if length = 24; len(b) == length {
			g.attitude4C(b, now, m)
		}
	case Extended:
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
		return fault.ErrMalformed
	}
	return nil
}

func (g *decoder) ownship(b []byte, now float64, m *merge.Values) {
	lat, lon := angle(b[5:]), angle(b[8:])
	if lat == 0 && lon == 0 && b[13]>>4 == 0 { // no fix
		m.Lose(stream.Latitude, now, 0)
		m.Lose(stream.Longitude, now, 0)
	} else {
		m.Put(stream.Latitude, lat, now)
		m.Put(stream.Longitude, lon, now)
	}
	if v := int(b[11])<<4 | int(b[12])>>4; v != 0xFFF {
		m.Offer(stream.Altitude, float64(v)*25-1000, now, rankPressure)
	} else {
		m.Lose(stream.Altitude, now, rankPressure)
	}
	if v := int(b[14])<<4 | int(b[15])>>4; v < 0xFFE { // beyond is none, or more than can be said
		m.Put(stream.GroundSpeed, float64(v), now)
	} else {
		m.Lose(stream.GroundSpeed, now, 0)
	}
	if v := int16(uint16(b[15])<<12|uint16(b[16])<<4) >> 4; v >= -509 && v <= 509 {
		m.Offer(stream.VerticalSpeed, float64(v)*64, now, 0)
	} else {
		m.Lose(stream.VerticalSpeed, now, 0)
	}
	if b[12]&3 == 1 { // the others are headings, too coarse and too seldom to use
		m.Put(stream.Track, float64(b[17])*360/256, now)
	} else {
		m.Lose(stream.Track, now, 0)
	}
}

// angle reads 24 bits, signed, of 180°/2²³.
func angle(b []byte) float64 {
	v := int32(uint32(b[0])<<24|uint32(b[1])<<16|uint32(b[2])<<8) >> 8
	return float64(v) * 180 / (1 << 23)
}

func (g *decoder) geometric(b []byte, now float64, m *merge.Values) {
	rank := uint8(rankEllipsoid)
	if g.levelSea {
		rank = rankSeaLevel
	}
	m.Offer(stream.Altitude, float64(int16(binary.BigEndian.Uint16(b[1:])))*5, now, rank)
}

// extended reads 0x65: what the sender is, or attitude.
func (g *decoder) extended(b []byte, now float64, m *merge.Values) {
	if b[1] == 0 {
		// Bit 0 of a big-endian word, by the specification. A lone bit at the other end can
		// only be the same bit written the wrong way round: the bits there are reserved.
		caps := binary.BigEndian.Uint32(b[35:])
		g.levelSea = caps&1 != 0 || caps == 1<<24
		return
	}
	heading := binary.BigEndian.Uint16(b[6:])
	turn, known := heading15(heading)
	if known {
		g.led65, g.has65 = now, true
	}
	if known || !g.leads(g.has4C, g.led4C, now) {
		put(m, stream.Bank, b[2:], 0.1, now)
		put(m, stream.Pitch, b[4:], 0.1, now)
		if known {
			m.Put(stream.Heading, turn, now)
			m.SetMagnetic(heading&0x8000 != 0)
		} else {
			m.Lose(stream.Heading, now, 0)
		}
	}
	for i, c := range [...]stream.Channel{stream.Airspeed, stream.TrueAirspeed} {
		if v := binary.BigEndian.Uint16(b[8+2*i:]); v != 0xFFFF {
			m.Offer(c, float64(v), now, 1)
		} else {
			m.Lose(c, now, 1)
		}
	}
}

// heading15 reads 15 bits of 0.1°, documented from −360 to 360.
func heading15(v uint16) (deg float64, ok bool) {
	if v == 0xFFFF {
		return 0, false
	}
	tenths := int(v & 0x7FFF)
	if tenths > 3600 {
		tenths -= 1 << 15
	}
	return float64(tenths) / 10, tenths >= -3600
}

// leads reports whether an attitude message with a heading came lately.
func (g *decoder) leads(had bool, at, now float64) bool {
	return had && now-at <= lead && now >= at
}

// put stores a signed value, unless it is the mark for none.
func put(m *merge.Values, c stream.Channel, b []byte, scale, now float64) {
	if v := int16(binary.BigEndian.Uint16(b)); v != 0x7FFF {
		m.Put(c, float64(v)*scale, now)
	} else {
		m.Lose(c, now, 0)
	}
}

func (g *decoder) attitude4C(b []byte, now float64, m *merge.Values) {
	if !g.leads(g.has65, g.led65, now) {
		put(m, stream.Bank, b[4:], 0.1, now)
		put(m, stream.Pitch, b[6:], 0.1, now)
		put(m, stream.Heading, b[8:], 0.1, now)
		m.SetMagnetic(false) // the format does not say which it is; only its change matters
		if m.Has(stream.Heading) {
			g.led4C, g.has4C = now, true
		}
	}
	put(m, stream.NormalLoad, b[14:], 0.1, now)
	put(m, stream.Airspeed, b[16:], 1, now)
	if v := int16(binary.BigEndian.Uint16(b[20:])); v != 0x7FFF {
		m.Offer(stream.VerticalSpeed, float64(v), now, 1)
	} else {
		m.Lose(stream.VerticalSpeed, now, 1)
	}
}
