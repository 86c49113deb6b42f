package wire

import (
	"encoding/binary"
	"math"

	"halfturn/stream"
)

// The native flight model stream of FlightGear, --native-fdm (FlightGear, net_fdm.hxx): one
// structure, big endian. Version 24 has 408 bytes, version 25 has a block of tanks more.
//
// Taken are position, attitude, rates, airspeed, climb, ground velocity, accelerations, stall
// warning, rpm and wheels. Left out, because they differ between senders or versions:
//
//   - the time, which is Unix seconds, a constant or the simulator's, as configured;
//   - the speeds along the body axes, through the air in old versions and over the ground in new;
//   - slip_deg, the ball from one program, sideslip from another;
//   - the control surfaces, which are not what the hands do.
//
// Sideslip and rpm are zero for good where the sender does not fill them: they are taken once
// they were ever other than that. Rates are sent as those of the Euler angles.
type fdmReader struct{ slips, turns bool }

const (
	fdmMark24   = "\x00\x00\x00\x18"
	fdmMark25   = "\x00\x00\x00\x19"
	fdmLength24 = 408
	fdmLength25 = 552
	fdmTanks    = fdmLength25 - fdmLength24
	fdmNoHeight = -9000 // m; below it height above ground is not given
)

func (r *fdmReader) decode(b []byte, name *string, s *stream.Sample) error {
	wheels := 304
	switch {
	case b[3] == 24 && len(b) == fdmLength24:
		*name = "native FDM 24"
	case b[3] == 25 && len(b) == fdmLength25:
		*name = "native FDM 25"
		wheels += fdmTanks
	default:
		return ErrTruncated
	}
	u32 := func(i int) uint32 { return binary.BigEndian.Uint32(b[i:]) }
	f64 := func(i int) float64 { return math.Float64frombits(binary.BigEndian.Uint64(b[i:])) }
	f32 := func(i int) float64 { return float64(math.Float32frombits(binary.BigEndian.Uint32(b[i:]))) }

	s.Put(stream.Longitude, f64(8)*degPerRadian)
	s.Put(stream.Latitude, f64(16)*degPerRadian)
	s.Put(stream.Altitude, f64(24)/foot)
	if agl := f32(32); !(agl < fdmNoHeight) {
		s.Put(stream.Height, agl/foot)
	}
	bank, pitch := f32(36), f32(40)
	s.Put(stream.Bank, bank*degPerRadian)
	s.Put(stream.Pitch, pitch*degPerRadian)
	s.Put(stream.Heading, f32(44)*degPerRadian)
	s.Put(stream.AngleOfAttack, f32(48)*degPerRadian)
	r.slips = r.slips || f32(52) != 0
	if r.slips {
		s.Put(stream.Sideslip, f32(52)*degPerRadian)
	}
	p, q, y := bodyRates(bank, pitch, f32(56), f32(60), f32(64))
	s.Put(stream.RollRate, p*degPerRadian)
	s.Put(stream.PitchRate, q*degPerRadian)
	s.Put(stream.YawRate, y*degPerRadian)
	s.Put(stream.Airspeed, f32(68))
	putVelocity(s, f32(76)*foot, f32(80)*foot, -f32(72)*foot)
	s.Put(stream.AxialLoad, f32(100)*foot/gravity)
	s.Put(stream.LateralLoad, f32(104)*foot/gravity)
	s.Put(stream.NormalLoad, -f32(108)*foot/gravity)
	putFlag(s, stream.StallWarning, f32(112))
	r.turns = r.turns || f32(140) != 0
	if r.turns && u32(120) > 0 {
		s.Put(stream.RPM, f32(140))
	}
	if n := u32(wheels); n > 0 {
		var on uint32
		for i := range min(int(n&0xFF), 3) {
			on |= u32(wheels + 4 + 4*i)
		}
		putFlag(s, stream.OnGround, float64(on))
	}
	return hollow(s)
}

// putFlag stores a flag: whatever is not 0 is set.
func putFlag(s *stream.Sample, c stream.Channel, v float64) {
	if v != 0 && v-v == 0 {
		v = 1
	}
	s.Put(c, v)
}

// bodyRates turns rates of Euler angles into those about the body axes, angles in radians:
// p = φ' − ψ' sin θ, q = θ' cos φ + ψ' cos θ sin φ, r = ψ' cos θ cos φ − θ' sin φ
// (B. Etkin, Dynamics of Atmospheric Flight, 1972, section 4.5; from memory).
func bodyRates(bank, pitch, bankRate, pitchRate, headingRate float64) (p, q, r float64) {
	sinP, cosP := math.Sincos(bank)
	sinT, cosT := math.Sincos(pitch)
	return bankRate - headingRate*sinT, pitchRate*cosP + headingRate*cosT*sinP, headingRate*cosT*cosP - pitchRate*sinP
}

// eulerRates is the way back. Near the vertical there is none.
func eulerRates(bank, pitch, p, q, r float64) (bankRate, pitchRate, headingRate float64) {
	sinP, cosP := math.Sincos(bank)
	sinT, cosT := math.Sincos(pitch)
	headingRate = (q*sinP + r*cosP) / max(cosT, 1e-3)
	return p + headingRate*sinT, q*cosP - r*sinP, headingRate
}

// fdmEncoder writes version 24 or 25. What a sample lacks is NaN.
type fdmEncoder struct{ version uint32 }

func (fdmEncoder) Preamble() []byte { return nil }

func (e fdmEncoder) Append(dst []byte, s *stream.Sample) []byte {
	length, wheels := fdmLength24, 304
	if e.version == 25 {
		length, wheels = fdmLength25, wheels+fdmTanks
	}
	start := len(dst)
	for range length {
		dst = append(dst, 0)
	}
	b := dst[start:]
	be := binary.BigEndian
	f64 := func(i int, v float64) { be.PutUint64(b[i:], math.Float64bits(v)) }
	f32 := func(i int, v float64) { be.PutUint32(b[i:], math.Float32bits(float32(v))) }

	be.PutUint32(b, e.version)
	f64(8, orNaN(s, stream.Longitude)/degPerRadian)
	f64(16, orNaN(s, stream.Latitude)/degPerRadian)
	f64(24, orNaN(s, stream.Altitude)*foot)
	f32(32, -9999)
	if v, ok := s.Get(stream.Height); ok {
		f32(32, v*foot)
	}
	bank, pitch := orNaN(s, stream.Bank)/degPerRadian, orNaN(s, stream.Pitch)/degPerRadian
	f32(36, bank)
	f32(40, pitch)
	f32(44, trueHeading(s)/degPerRadian)
	f32(48, orNaN(s, stream.AngleOfAttack)/degPerRadian)
	f32(52, s.Value(stream.Sideslip)/degPerRadian)
	for i, v := range ratesOf(s, bank, pitch) {
		f32(56+4*i, v)
	}
	f32(68, orNaN(s, stream.Airspeed))
	north, east, down := velocity(s)
	for i, v := range [...]float64{-down, north, east, down} {
		f32(72+4*i, v/foot)
	}
	f32(100, orNaN(s, stream.AxialLoad)*gravity/foot)
	f32(104, orNaN(s, stream.LateralLoad)*gravity/foot)
	f32(108, -orNaN(s, stream.NormalLoad)*gravity/foot)
	f32(112, orNaN(s, stream.StallWarning))
	be.PutUint32(b[120:], 1)
	be.PutUint32(b[124:], 2)
	f32(140, s.Value(stream.RPM))
	if v, ok := s.Get(stream.OnGround); ok {
		be.PutUint32(b[wheels:], 3)
		for i := range 3 {
			be.PutUint32(b[wheels+4+4*i:], uint32(v))
		}
	}
	return dst
}

// ratesOf returns a sample's rates of the Euler angles in rad/s, NaN when it lacks any.
func ratesOf(s *stream.Sample, bank, pitch float64) [3]float64 {
	var out [3]float64
	out[0], out[1], out[2] = eulerRates(bank, pitch, orNaN(s, stream.RollRate)/degPerRadian,
		orNaN(s, stream.PitchRate)/degPerRadian, orNaN(s, stream.YawRate)/degPerRadian)
	return out
}
