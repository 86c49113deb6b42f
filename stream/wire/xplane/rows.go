package xplane

import (
	"encoding/binary"
	"math"

	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/units"
)

// Rows are DATA datagrams: rows of numbers, of which the user picks some in the simulator's settings.
var Rows = &format.Format{
	Names:     []string{rowsName},
	First:     "D",
	Recognize: func(d *format.Datagram) format.Claim { return format.Is(begins(d.Bytes, "DATA")) },
	New:       func(o *format.Options) format.Decoder { return &rowsDecoder{layout: o.Rows} },
	Setting: func(_ string, c stream.Channel) phrase.Phrase {
		row, ok := rowsFor[c]
		if !ok {
			return phrase.Phrase{}
		}
		return phrase.SwitchOnRow.Of(phrase.Words("row", row))
	},
	Rate: dataOutputRate,
}

const rowsName = "DATA rows"

func dataOutputRate(string) phrase.Phrase { return phrase.RateInDataOutput.Of() }

// The rows that are read. Each is 36 bytes: the row number as an int32 and eight float32, little endian, after a header
// of five bytes of which the fifth differs between versions (Laminar Research, "Exchanging Data with X-Plane"). The
// meaning of the columns is that of versions 10 to 12.
const (
	RowTimes    = 1  // 2 mission time s
	RowSpeeds   = 3  // 0 indicated, 2 true, 3 ground, kt
	RowLoads    = 4  // 2 vertical speed ft/min, 4 normal, 5 axial, 6 side g
	RowStick    = 8  // 0 elevator (aft positive), 1 aileron, 2 rudder (right positive)
	RowRates    = 16 // by version, see format.RowsLayout
	RowAttitude = 17 // 0 pitch, 1 bank, 2 true, 3 magnetic heading °
	RowFlow     = 18 // 0 angle of attack, 1 sideslip, 2 track °
	RowPosition = 20 // 0 latitude, 1 longitude °, 2 altitude, 3 height ft
	RowVelocity = 21 // 3 east, 4 up, 5 south m/s
	RowLever    = 25 // throttle as commanded, an engine a column
	RowThrottle = 26 // throttle as it is
	RowEngine   = 37 // engine rpm
	RowProp     = 38 // propeller rpm
	RowN1       = 41 // %

	RowLength = 36
	Filler    = -999 // an unused column

	rowCount = 64
)

// rowsFor names the row that holds a channel, as the simulator's settings do.
var rowsFor = map[stream.Channel]string{
	stream.Time:          "1 (times)",
	stream.Airspeed:      "3 (speeds)",
	stream.TrueAirspeed:  "3 (speeds)",
	stream.GroundSpeed:   "3 (speeds)",
	stream.VerticalSpeed: "4 (Mach, vertical speed, g load)",
	stream.NormalLoad:    "4 (Mach, vertical speed, g load)",
	stream.LateralLoad:   "4 (Mach, vertical speed, g load)",
	stream.AxialLoad:     "4 (Mach, vertical speed, g load)",
	stream.Elevator:      "8 (joystick)",
	stream.Aileron:       "8 (joystick)",
	stream.Rudder:        "8 (joystick)",
	stream.RollRate:      "16 (angular velocities)",
	stream.PitchRate:     "16 (angular velocities)",
	stream.YawRate:       "16 (angular velocities)",
	stream.Heading:       "17 (pitch, roll, headings)",
	stream.Pitch:         "17 (pitch, roll, headings)",
	stream.Bank:          "17 (pitch, roll, headings)",
	stream.AngleOfAttack: "18 (angle of attack, side-slip)",
	stream.Sideslip:      "18 (angle of attack, side-slip)",
	stream.Track:         "18 (angle of attack, side-slip)",
	stream.Ball:          "4 (Mach, vertical speed, g load)",
	stream.Altitude:      "20 (latitude, longitude, altitude)",
	stream.Height:        "20 (latitude, longitude, altitude)",
	stream.Latitude:      "20 (latitude, longitude, altitude)",
	stream.Longitude:     "20 (latitude, longitude, altitude)",
	stream.Throttle:      "25 (throttle command)",
	stream.RPM:           "37 (engine rpm) and 38 (propeller rpm)",
	stream.N1:            "41 (N1)",
}

// maxAge is for how many samples a row is good: the rows of one tick may come in several datagrams, in any order.
const maxAge = 2

// mark is the number of the sample a row came for; 0 is never.
type mark uint32

func (m mark) in(tick mark) bool { return m != 0 && tick-m <= maxAge }

// A rowsDecoder reads DATA datagrams. Only one with row 17 makes a sample; the rows of others are kept for it.
type rowsDecoder struct {
	format.Plain
	layout format.RowsLayout
	found  finder
	tick   mark // of the sample being gathered
	whole  bool // row 17 came
	seen   [rowCount]mark
	rows   [rowCount][8]float32
}

func (r *rowsDecoder) Name() string {
	if !r.whole {
		return ""
	}
	return rowsName
}

// Detail says which layout of row 16 is used, and why.
func (r *rowsDecoder) Detail() phrase.Phrase {
	switch {
	case r.layout == format.RowsOld:
		return phrase.RowsOldTold.Of()
	case r.layout == format.RowsNew:
		return phrase.RowsNewTold.Of()
	case r.found.layout == format.RowsOld:
		return phrase.RowsOldFound.Of()
	case r.found.layout == format.RowsNew:
		return phrase.RowsNewFound.Of()
	case r.seen[RowRates] != 0:
		return phrase.RowsUnknown.Of()
	}
	return phrase.Phrase{}
}

func (r *rowsDecoder) Advice(q format.Silence) phrase.Phrase {
	if r.whole || q.Parts < 2*maxAge {
		return phrase.Phrase{}
	}
	return phrase.NoAttitudeRows.Of()
}

// Decode reads the rows of a datagram.
func (r *rowsDecoder) Decode(b []byte, _ float64, s *stream.Sample) error {
	b = b[head:]
	if len(b) == 0 || len(b)%RowLength != 0 {
		return fault.ErrTruncated
	}
	if r.tick == 0 {
		r.tick = maxAge + 1
	}
	attitude := false
	for ; len(b) > 0; b = b[RowLength:] {
		n := binary.LittleEndian.Uint32(b)
		if n >= rowCount { // legal, of no use here
			continue
		}
		attitude = attitude || n == RowAttitude
		r.seen[n] = r.tick
		row := &r.rows[n]
		for c := range row {
			row[c] = math.Float32frombits(binary.LittleEndian.Uint32(b[4+4*c:]))
		}
	}
	if !attitude {
		return fault.ErrPart
	}
	r.whole = true
	r.fill(s)
	r.tick++
	return fault.OfHollow(s)
}

// put stores a column in a channel and reports whether the row had it.
func (r *rowsDecoder) put(s *stream.Sample, ch stream.Channel, row, column int, scale float64) bool {
	v := r.rows[row][column]
	if !r.seen[row].in(r.tick) || v == Filler {
		return false
	}
	s.Put(ch, float64(v)*scale)
	return true
}

func (r *rowsDecoder) fill(s *stream.Sample) {
	r.put(s, stream.Time, RowTimes, 2, 1)
	r.put(s, stream.Pitch, RowAttitude, 0, 1)
	r.put(s, stream.Bank, RowAttitude, 1, 1)
	if !r.put(s, stream.Heading, RowAttitude, 2, 1) {
		s.Magnetic = r.put(s, stream.Heading, RowAttitude, 3, 1) && s.Has.Has(stream.Heading)
	}
	r.put(s, stream.Airspeed, RowSpeeds, 0, 1)
	r.put(s, stream.TrueAirspeed, RowSpeeds, 2, 1)
	if !r.put(s, stream.GroundSpeed, RowSpeeds, 3, 1) && r.seen[RowVelocity].in(r.tick) {
		v := &r.rows[RowVelocity]
		s.Put(stream.GroundSpeed, math.Hypot(float64(v[3]), float64(v[5]))/units.Knot)
	}
	if !r.put(s, stream.VerticalSpeed, RowLoads, 2, 1) {
		r.put(s, stream.VerticalSpeed, RowVelocity, 4, 1/units.FootPerMinute)
	}
	r.put(s, stream.NormalLoad, RowLoads, 4, 1)
	r.put(s, stream.AxialLoad, RowLoads, 5, 1)
	r.put(s, stream.LateralLoad, RowLoads, 6, 1)
	r.put(s, stream.AngleOfAttack, RowFlow, 0, 1)
	// Sent positive with the nose right of the flight path, that is with the wind from the
	// left: path + sideslip = heading (dataref documentation).
	r.put(s, stream.Sideslip, RowFlow, 1, -1)
	r.put(s, stream.Track, RowFlow, 2, 1)
	r.put(s, stream.Latitude, RowPosition, 0, 1)
	r.put(s, stream.Longitude, RowPosition, 1, 1)
	r.put(s, stream.Altitude, RowPosition, 2, 1)
	r.put(s, stream.Height, RowPosition, 3, 1)
	r.put(s, stream.Elevator, RowStick, 0, 1)
	r.put(s, stream.Aileron, RowStick, 1, 1)
	r.put(s, stream.Rudder, RowStick, 2, 1)
	if !r.put(s, stream.Throttle, RowLever, 0, 1) {
		r.put(s, stream.Throttle, RowThrottle, 0, 1)
	}
	if !r.put(s, stream.RPM, RowProp, 0, 1) {
		r.put(s, stream.RPM, RowEngine, 0, 1)
	}
	r.put(s, stream.N1, RowN1, 0, 1)
	r.rates(s)
}

// rates reads row 16 by the layout that was given or found.
func (r *rowsDecoder) rates(s *stream.Sample) {
	layout := r.layout
	if layout == format.RowsAuto {
		if r.seen[RowRates] == r.tick && s.Has.Has(stream.Bank) && s.Has.Has(stream.Pitch) &&
			s.Has.Has(stream.Heading) {
			r.found.add(s, float64(r.rows[RowRates][0]), float64(r.rows[RowRates][1]))
		}
		layout = r.found.layout
	}
	switch layout {
	case format.RowsOld:
		r.put(s, stream.PitchRate, RowRates, 0, units.DegreesPerRadian)
		r.put(s, stream.RollRate, RowRates, 1, units.DegreesPerRadian)
		r.put(s, stream.YawRate, RowRates, 2, units.DegreesPerRadian)
	case format.RowsNew:
		r.put(s, stream.RollRate, RowRates, 0, 1)
		r.put(s, stream.PitchRate, RowRates, 1, 1)
		r.put(s, stream.YawRate, RowRates, 2, 1)
	}
}
