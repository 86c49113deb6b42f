package wire

import (
	"bytes"
	"math"
	"strconv"

	"halfturn/stream"
)

// The text broadcast for tablets, UDP port 49002 (ForeFlight, "Flight Simulator GPS Integration
// (UDP Protocol)"). One message a datagram:
//
//	XGPS<name>,longitude °,latitude °,altitude m above mean sea level,track ° true,ground speed m/s
//	XATT<name>,heading ° true,pitch °,bank °
//
// X-Plane adds nine values to XATT that no document tells of; their meaning was found by
// comparing captures: body rates P, Q, R in rad/s, velocity east, up, south in m/s, load
// factors side, normal, axial in g. Some senders fill them with zeros, which then mean nothing.
// There is no clock and no airspeed.
type tabletReader struct{}

const (
	gpsValues     = 5
	attitudeShort = 3
	attitudeLong  = 12
)

// decode reads the messages of a datagram.
func (tabletReader) decode(b []byte, now float64, m *merger) error {
	read, fault := false, error(nil)
	for len(b) > 0 {
		line := b
		if end := bytes.IndexByte(b, '\n'); end >= 0 {
			line, b = b[:end], b[end+1:]
		} else {
			b = nil
		}
		if line = trimEnd(line); len(line) == 0 {
			continue
		}
		if err := tabletLine(line, now, m); err != nil {
			fault = err
		} else {
			read = true
		}
	}
	if fault == nil && !read {
		return ErrEmpty
	}
	if m.updated() {
		return nil
	}
	return fault
}

// tabletLine reads one message. A message with a wrong count of values is refused: decimal
// commas cut numbers in two, and all that follows would be shifted.
func tabletLine(b []byte, now float64, m *merger) error {
	if len(b) > maxLine {
		return ErrTooLong
	}
	var v [attitudeLong]float64
	n, mark := -1, b
	for more := true; more; n++ {
		var field []byte
		field, b, more = cut(b, ',')
		switch {
		case n >= attitudeLong:
			return ErrMalformed
		case n >= 0:
			v[n] = tabletNumber(field)
		}
	}
	switch {
	case bytes.HasPrefix(mark, []byte("XATT")) && (n == attitudeShort || n == attitudeLong):
		tabletAttitude(&v, n, now, m)
	case bytes.HasPrefix(mark, []byte("XGPS")) && n == gpsValues:
		tabletPosition(&v, now, m)
	case bytes.HasPrefix(mark, []byte("XTRAFFIC")):
		return ErrOther
	default:
		return ErrMalformed
	}
	return nil
}

// Values that are not there: empty is absent, anything that is no number is bad.
var (
	absent = math.Inf(-1)
	bad    = math.NaN()
)

func tabletNumber(field []byte) float64 {
	field = bytes.Trim(field, " ")
	if len(field) == 0 {
		return absent
	}
	v, end, ok := number(field, 0)
	if !ok || end != len(field) || v == absent {
		return bad
	}
	return v
}

// tabletPut stores a value unless it is absent.
func tabletPut(c stream.Channel, v, scale, now float64, m *merger) {
	if v == absent {
		m.lose(c, now, 0)
		return
	}
	m.put(c, v*scale, now)
}

func tabletAttitude(v *[attitudeLong]float64, n int, now float64, m *merger) {
	tabletPut(stream.Heading, v[0], 1, now, m)
	tabletPut(stream.Pitch, v[1], 1, now, m)
	tabletPut(stream.Bank, v[2], 1, now, m)
	zero := true
	for _, x := range v[attitudeShort:] {
		zero = zero && x == 0
	}
	if n == attitudeShort || zero {
		return
	}
	for i, c := range [...]stream.Channel{stream.RollRate, stream.PitchRate, stream.YawRate} {
		tabletPut(c, v[3+i], degPerRadian, now, m)
	}
	if east, south := v[6], v[8]; east != absent && south != absent {
		speed := math.Hypot(east, south)
		m.put(stream.GroundSpeed, speed/knot, now)
		if !(speed < slowest) {
			m.put(stream.Track, math.Atan2(east, -south)*degPerRadian, now)
		}
	}
	tabletPut(stream.VerticalSpeed, v[7], 1/feetPerMin, now, m)
	for i, c := range [...]stream.Channel{stream.LateralLoad, stream.NormalLoad, stream.AxialLoad} {
		tabletPut(c, v[9+i], 1, now, m)
	}
}

func tabletPosition(v *[attitudeLong]float64, now float64, m *merger) {
	tabletPut(stream.Longitude, v[0], 1, now, m)
	tabletPut(stream.Latitude, v[1], 1, now, m)
	tabletPut(stream.Altitude, v[2], 1/foot, now, m)
	tabletPut(stream.Track, v[3], 1, now, m)
	tabletPut(stream.GroundSpeed, v[4], 1/knot, now, m)
}

// tabletEncoder writes as X-Plane does: XATT with each sample, with twelve values where the
// sample has them all, and XGPS once a second of stream time.
type tabletEncoder struct {
	due  once
	line []byte
}

func (*tabletEncoder) Preamble() []byte { return nil }

// Append writes both messages, when both are due, into one datagram, a line each.
func (e *tabletEncoder) Append(dst []byte, s *stream.Sample) []byte {
	if e.due.at(s, 1) && s.Has.Has(stream.Latitude) && s.Has.Has(stream.Longitude) {
		dst = append(tabletGPS(dst, s), '\n')
	}
	return tabletATT(dst, s)
}

// Datagrams writes each message as a datagram, as tablets want it.
func (e *tabletEncoder) Datagrams(s *stream.Sample, emit func([]byte)) {
	if e.due.at(s, 1) && s.Has.Has(stream.Latitude) && s.Has.Has(stream.Longitude) {
		e.line = tabletGPS(e.line[:0], s)
		emit(e.line)
	}
	e.line = tabletATT(e.line[:0], s)
	emit(e.line)
}

func tabletGPS(dst []byte, s *stream.Sample) []byte {
	dst = append(dst, "XGPS1"...)
	for _, f := range [...]struct {
		channel stream.Channel
		scale   float64
		digits  int
	}{{stream.Longitude, 1, 6}, {stream.Latitude, 1, 6}, {stream.Altitude, foot, 4}, {stream.Track, 1, 4}, {stream.GroundSpeed, knot, 4}} {
		dst = tabletAppend(dst, orNaN(s, f.channel)*f.scale, f.digits)
	}
	return dst
}

func tabletATT(dst []byte, s *stream.Sample) []byte {
	dst = append(dst, "XATT1"...)
	for _, v := range [...]float64{trueHeading(s), orNaN(s, stream.Pitch), orNaN(s, stream.Bank)} {
		dst = tabletAppend(dst, v, 1)
	}
	const all = stream.Set(1<<stream.RollRate | 1<<stream.PitchRate | 1<<stream.YawRate | 1<<stream.GroundSpeed | 1<<stream.Track |
		1<<stream.VerticalSpeed | 1<<stream.LateralLoad | 1<<stream.NormalLoad | 1<<stream.AxialLoad)
	if s.Has&all != all {
		return dst
	}
	for _, c := range [...]stream.Channel{stream.RollRate, stream.PitchRate, stream.YawRate} {
		dst = tabletAppend(dst, s.Value(c)/degPerRadian, 4)
	}
	north, east, down := velocity(s)
	for _, v := range [...]float64{east, -down, -north} {
		dst = tabletAppend(dst, v, 1)
	}
	for _, c := range [...]stream.Channel{stream.LateralLoad, stream.NormalLoad, stream.AxialLoad} {
		dst = tabletAppend(dst, s.Value(c), 2)
	}
	return dst
}

// tabletAppend adds a comma and a value, nothing for NaN.
func tabletAppend(dst []byte, v float64, digits int) []byte {
	dst = append(dst, ',')
	if v != v {
		return dst
	}
	return strconv.AppendFloat(dst, v, 'f', digits, 64)
}

// once tells when something is due that is sent every so many seconds of stream time.
type once struct {
	last    float64
	started bool
}

func (o *once) at(s *stream.Sample, every float64) bool {
	now := s.Value(stream.Time)
	if past := now - o.last; o.started && past >= 0 && past < every-1e-6 {
		return false
	}
	o.last, o.started = now, true
	return true
}
