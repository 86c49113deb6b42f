package xplane

import (
	"math"

	"halfturn/stream"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/units"
)

// A finder finds the layout of row 16. Columns 0 and 1 are pitch and roll rate in one layout, roll and pitch rate in
// the other; so their difference goes with the difference of the turning seen in the attitude in one, against it in the
// other. Only the sign of that correlation counts, so that neither the time between samples nor the unit matters.
type finder struct {
	layout             format.RowsLayout
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
	jump, steep := math.Abs(dPitch)+math.Abs(dBank)+math.Abs(dYaw) > 30, math.Abs(pitch) > 80
	if f.layout != format.RowsAuto || !had || jump || steep { // too steep to tell bank from heading
		return
	}
	// Body rates from Euler angles: p = φ' − ψ' sin θ, q = θ' cos φ + ψ' cos θ sin φ.
	sinT, cosT := math.Sincos(pitch / units.DegreesPerRadian)
	sinP, cosP := math.Sincos(bank / units.DegreesPerRadian)
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
		f.layout = format.RowsOld
	case corr < -finderClear:
		f.layout = format.RowsNew
	case f.seen > 100*finderTurn: // undecided: forget slowly
		f.product, f.own, f.seen = f.product/2, f.own/2, f.seen/2
	}
}
