// Package tablet reads the text broadcast for tablets, UDP port 49002 (ForeFlight, "Flight Simulator GPS Integration
// (UDP Protocol)"). One message per datagram:
//
//	XGPS<name>,longitude °,latitude °,altitude m above mean sea level,track ° true,ground speed m/s
//	XATT<name>,heading ° true,pitch °,bank °
//
// X-Plane adds nine values to XATT that are not documented; their meaning was found by comparing captures: body rates
// P, Q, R in rad/s, velocity east, up, south in m/s, load factors side, normal, axial in g. Some senders fill them with
// zeros, which then mean nothing. There is no clock and no airspeed.
package tablet

import (
	"bytes"
	"math"

	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/merge"
	"halfturn/stream/wire/scan"
	"halfturn/stream/wire/units"
)

// Format is the text broadcast for tablets.
var Format = &format.Format{
	Names:     []string{name},
	First:     "X",
	Recognize: recognize,
	New:       func(*format.Options) format.Decoder { return &decoder{} },
	Rate:      format.SeldomRate,
}

const name = "XGPS/XATT text"

func recognize(d *format.Datagram) format.Claim {
	if len(d.Bytes) < 5 {
		return format.No
	}
	switch string(d.Bytes[:4]) {
	case "XGPS", "XATT", "XTRA":
		return format.Yes
	}
	return format.No
}

type decoder struct {
	format.Plain
	values merge.Values
}

func (r *decoder) Name() string { return name }

func (r *decoder) Detail() phrase.Phrase {
	return phrase.DetailTablet.Of()
}

func (r *decoder) Advice(q format.Silence) phrase.Phrase {
	if !q.Lasts() {
		return phrase.Phrase{}
	}
	return phrase.NoAttitudeTablet.Of()
}

func (r *decoder) Age(c stream.Channel) float64 { return r.values.Age(c) }

func (r *decoder) Restart() { *r = decoder{} }

// Decode reads the messages of a datagram, one per line.
func (r *decoder) Decode(b []byte, now float64, s *stream.Sample) error {
	return r.values.Sample(r.messages(b, now), now, s)
}

const (
	gpsValues     = 5
	attitudeShort = 3
	attitudeLong  = 12
)

func (r *decoder) messages(b []byte, now float64) error {
	read, broken := false, error(nil)
	for len(b) > 0 {
		line := b
		if end := bytes.IndexByte(b, '\n'); end >= 0 {
			line, b = b[:end], b[end+1:]
		} else {
			b = nil
		}
		if line = scan.TrimEnd(line); len(line) == 0 {
			continue
		}
		if err := message(line, now, &r.values); err != nil {
			broken = err
		} else {
			read = true
		}
	}
	if broken == nil && !read {
		return fault.ErrEmpty
	}
	if r.values.Updated() {
		return nil
	}
	return broken
}

// message reads one message. A message with a wrong count of values is refused: decimal
// commas cut numbers in two, and all that follows would be shifted.
func message(b []byte, now float64, m *merge.Values) error {
	if len(b) > scan.MaxLine {
		return fault.ErrTooLong
	}
	var v [attitudeLong]float64
	n, mark := -1, b
	for more := true; more; n++ {
		var field []byte
		field, b, more = scan.Cut(b, ',')
		switch {
		case n >= attitudeLong:
			return fault.ErrMalformed
		case n >= 0:
			v[n] = value(field)
		}
	}
	switch {
	case bytes.HasPrefix(mark, []byte("XATT")) && (n == attitudeShort || n == attitudeLong):
		attitude(&v, n, now, m)
	case bytes.HasPrefix(mark, []byte("XGPS")) && n == gpsValues:
		position(&v, now, m)
	case bytes.HasPrefix(mark, []byte("XTRAFFIC")):
		return fault.ErrOther
	default:
		return fault.ErrMalformed
	}
	return nil
}

// Values that are not there: empty is absent, anything that is no number is bad.
var (
	absent = math.Inf(-1)
	bad    = math.NaN()
)

func value(field []byte) float64 {
	field = bytes.Trim(field, " ")
	if len(field) == 0 {
		return absent
	}
	v, end, ok := scan.Number(field, 0)
	if !ok || end != len(field) || v == absent {
		return bad
	}
	return v
}

// put stores a value unless it is absent.
func put(c stream.Channel, v, scale, now float64, m *merge.Values) {
	if v == absent {
		m.Lose(c, now, 0)
		return
	}
	m.Put(c, v*scale, now)
}

func attitude(v *[attitudeLong]float64, n int, now float64, m *merge.Values) {
	put(stream.Heading, v[0], 1, now, m)
	put(stream.Pitch, v[1], 1, now, m)
	put(stream.Bank, v[2], 1, now, m)
	zero := true
	for _, x := range v[attitudeShort:] {
		zero = zero && x == 0
	}
	if n == attitudeShort || zero {
		return
	}
	for i, c := range [...]stream.Channel{stream.RollRate, stream.PitchRate, stream.YawRate} {
		put(c, v[3+i], units.DegreesPerRadian, now, m)
	}
	if east, south := v[6], v[8]; east != absent && south != absent {
		speed := math.Hypot(east, south)
		m.Put(stream.GroundSpeed, speed/units.Knot, now)
		if track, ok := units.Track(-south, east); ok || track != track { // what is not a number is bad
			m.Put(stream.Track, track, now)
		}
	}
	put(stream.VerticalSpeed, v[7], 1/units.FootPerMinute, now, m)
	for i, c := range [...]stream.Channel{stream.LateralLoad, stream.NormalLoad, stream.AxialLoad} {
		put(c, v[9+i], 1, now, m)
	}
}

func position(v *[attitudeLong]float64, now float64, m *merge.Values) {
	put(stream.Longitude, v[0], 1, now, m)
	put(stream.Latitude, v[1], 1, now, m)
	put(stream.Altitude, v[2], 1/units.Foot, now, m)
	put(stream.Track, v[3], 1, now, m)
	put(stream.GroundSpeed, v[4], 1/units.Knot, now, m)
}
