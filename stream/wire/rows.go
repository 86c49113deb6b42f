package wire

import (
	"encoding/binary"
	"math"

	"halfturn/stream"
)

// The rows of a DATA datagram that are read. Each is 36 bytes: the row number as an int32
// and eight float32, little endian, after a header of five bytes of which the fifth differs
// between versions (Laminar Research, "Exchanging Data with X-Plane"). The meaning of the
// columns is that of versions 10 to 12.
const (
	rowTimes    = 1  // 2 mission time s
	rowSpeeds   = 3  // 0 indicated, 2 true, 3 ground, kt
	rowLoads    = 4  // 2 vertical speed ft/min, 4 normal, 5 axial, 6 side g
	rowStick    = 8  // 0 elevator (aft positive), 1 aileron, 2 rudder (right positive)
	rowRates    = 16 // by version, see RowsLayout
	rowAttitude = 17 // 0 pitch, 1 bank, 2 true, 3 magnetic heading °
	rowFlow     = 18 // 0 angle of attack, 1 sideslip, 2 track °
	rowPosition = 20 // 0 latitude, 1 longitude °, 2 altitude, 3 height ft
	rowVelocity = 21 // 3 east, 4 up, 5 south m/s
	rowLever    = 25 // throttle as commanded, an engine a column
	rowThrottle = 26 // throttle as it is
	rowEngine   = 37 // engine rpm
	rowProp     = 38 // propeller rpm
	rowN1       = 41 // %

	rowCount  = 64
	rowLength = 36
	rowHead   = 5
	filler    = -999 // an unused column
)

// maxAge is how many samples long a row is good: the rows of one tick may come in several
// datagrams, in any order.
const maxAge = 2

// mark is the number of the sample a row came for; 0 is never.
type mark uint32

func (m mark) in(tick mark) bool { return m != 0 && tick-m <= maxAge }

// rowReader reads DATA datagrams. Only one with row 17 makes a sample; the rows of others
// are kept for it.
type rowReader struct {
	layout RowsLayout
	found  finder
	tick   mark // of the sample being gathered
	parts  int  // datagrams without row 17 since the last with it
	seen   [rowCount]mark
	rows   [rowCount][8]float32
}

func (r *rowReader) decode(b []byte, s *stream.Sample) error {
	b = b[rowHead:]
	if len(b) == 0 || len(b)%rowLength != 0 {
		return ErrTruncated
	}
	if r.tick == 0 {
		r.tick = maxAge + 1
	}
	attitude := false
	for ; len(b) > 0; b = b[rowLength:] {
		n := binary.LittleEndian.Uint32(b)
		if n >= rowCount { // legal, of no use here
			continue
		}
		attitude = attitude || n == rowAttitude
		r.seen[n] = r.tick
		row := &r.rows[n]
		for c := range row {
			row[c] = math.Float32frombits(binary.LittleEndian.Uint32(b[4+4*c:]))
		}
	}
	if !attitude {
		r.parts = min(r.parts+1, 1<<20)
		return ErrPart
	}
	r.parts = 0
	r.fill(s)
	r.tick++
	return hollow(s)
}

// put stores a column in a channel and tells whether the row had it.
func (r *rowReader) put(s *stream.Sample, ch stream.Channel, row, column int, scale float64) bool {
	v := r.rows[row][column]
	if !r.seen[row].in(r.tick) || v == filler {
		return false
	}
	s.Put(ch, float64(v)*scale)
	return true
}

func (r *rowReader) fill(s *stream.Sample) {
	r.put(s, stream.Time, rowTimes, 2, 1)
	r.put(s, stream.Pitch, rowAttitude, 0, 1)
	r.put(s, stream.Bank, rowAttitude, 1, 1)
	if !r.put(s, stream.Heading, rowAttitude, 2, 1) {
		s.Magnetic = r.put(s, stream.Heading, rowAttitude, 3, 1) && s.Has.Has(stream.Heading)
	}
	r.put(s, stream.Airspeed, rowSpeeds, 0, 1)
	r.put(s, stream.TrueAirspeed, rowSpeeds, 2, 1)
	if !r.put(s, stream.GroundSpeed, rowSpeeds, 3, 1) && r.seen[rowVelocity].in(r.tick) {
		v := &r.rows[rowVelocity]
		s.Put(stream.GroundSpeed, math.Hypot(float64(v[3]), float64(v[5]))/knot)
	}
	if !r.put(s, stream.VerticalSpeed, rowLoads, 2, 1) {
		r.put(s, stream.VerticalSpeed, rowVelocity, 4, 1/feetPerMin)
	}
	r.put(s, stream.NormalLoad, rowLoads, 4, 1)
	r.put(s, stream.AxialLoad, rowLoads, 5, 1)
	r.put(s, stream.LateralLoad, rowLoads, 6, 1)
	r.put(s, stream.AngleOfAttack, rowFlow, 0, 1)
	// Sent positive with the nose right of the flight path, that is with the wind from the
	// left: path + sideslip = heading (dataref documentation).
	r.put(s, stream.Sideslip, rowFlow, 1, -1)
	r.put(s, stream.Track, rowFlow, 2, 1)
	r.put(s, stream.Latitude, rowPosition, 0, 1)
	r.put(s, stream.Longitude, rowPosition, 1, 1)
	r.put(s, stream.Altitude, rowPosition, 2, 1)
	r.put(s, stream.Height, rowPosition, 3, 1)
	r.put(s, stream.Elevator, rowStick, 0, 1)
	r.put(s, stream.Aileron, rowStick, 1, 1)
	r.put(s, stream.Rudder, rowStick, 2, 1)
	if !r.put(s, stream.Throttle, rowLever, 0, 1) {
		r.put(s, stream.Throttle, rowThrottle, 0, 1)
	}
	if !r.put(s, stream.RPM, rowProp, 0, 1) {
		r.put(s, stream.RPM, rowEngine, 0, 1)
	}
	r.put(s, stream.N1, rowN1, 0, 1)
	r.rates(s)
}

// rates reads row 16 by the layout that was told or found.
func (r *rowReader) rates(s *stream.Sample) {
	layout := r.layout
	if layout == RowsAuto {
		if r.seen[rowRates] == r.tick && s.Has.Has(stream.Bank) && s.Has.Has(stream.Pitch) && s.Has.Has(stream.Heading) {
			r.found.add(s, float64(r.rows[rowRates][0]), float64(r.rows[rowRates][1]))
		}
		layout = r.found.layout
	}
	switch layout {
	case RowsOld:
		r.put(s, stream.PitchRate, rowRates, 0, degPerRadian)
		r.put(s, stream.RollRate, rowRates, 1, degPerRadian)
		r.put(s, stream.YawRate, rowRates, 2, degPerRadian)
	case RowsNew:
		r.put(s, stream.RollRate, rowRates, 0, 1)
		r.put(s, stream.PitchRate, rowRates, 1, 1)
		r.put(s, stream.YawRate, rowRates, 2, 1)
	}
}

// finder finds the layout of row 16. Columns 0 and 1 are pitch and roll rate in one layout,
// roll and pitch rate in the other; so their difference goes with the difference of the
// turning seen in the attitude in one, against it in the other. Only the sign of that
// correlation counts, so that neither the time between samples nor the unit matters.
type finder struct {
	layout             RowsLayout
	have               bool
	count              int
	pitch, bank, yaw   float64 // attitude before, °
	product, own, seen float64 // sums of (c0−c1)(dq−dp), (c0−c1)², (dq−dp)²
}

const (
	finderTurn  = 0.25 // °², the sum of squares that must have been turned
	finderCount = 20   // samples that must have been compared
	finderClear = 0.8  // correlation that decides
)

func (f *finder) add(s *stream.Sample, c0, c1 float64) {
	pitch, bank, yaw := s.Value(stream.Pitch), s.Value(stream.Bank), s.Value(stream.Heading)
	dPitch, dBank, dYaw := pitch-f.pitch, stream.Wrap180(bank-f.bank), stream.Wrap180(yaw-f.yaw)
	had := f.have
	f.pitch, f.bank, f.yaw, f.have = pitch, bank, yaw, true
	if f.layout != RowsAuto || !had || math.Abs(dPitch)+math.Abs(dBank)+math.Abs(dYaw) > 30 || math.Abs(pitch) > 80 {
		return // a jump, or too steep to tell bank from heading
	}
	// Body rates from Euler angles: p = φ' − ψ' sin θ, q = θ' cos φ + ψ' cos θ sin φ.
	sinT, cosT := math.Sincos(pitch / degPerRadian)
	sinP, cosP := math.Sincos(bank / degPerRadian)
	p := dBank - dYaw*sinT
	q := dPitch*cosP + dYaw*cosT*sinP
	own, seen := c0-c1, q-p
	if own-own != 0 { // NaN or infinite
		return
	}
	f.product += own * seen
	f.own += own * own
	f.seen += seen * seen
	if f.count = min(f.count+1, finderCount); f.count < finderCount || f.seen < finderTurn || f.own == 0 {
		return
	}
	switch corr := f.product / math.Sqrt(f.own*f.seen); {
	case corr > finderClear:
		f.layout = RowsOld
	case corr < -finderClear:
		f.layout = RowsNew
	case f.seen > 100*finderTurn: // undecided: forget slowly
		f.product, f.own, f.seen = f.product/2, f.own/2, f.seen/2
	}
}
