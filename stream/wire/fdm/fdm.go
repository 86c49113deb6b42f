// Package fdm reads the native flight model stream of FlightGear, --native-fdm (FlightGear, net_fdm.hxx): one
// structure, big endian. Version 24 has 408 bytes, version 25 has a block of tanks more.
//
// Taken are position, attitude, rates, airspeed, climb, ground velocity, accelerations, stall warning, rpm and wheels.
// Left out, because they differ between senders or versions:
//
//   - the time, which is Unix seconds, a constant or the simulator's, as configured;
//   - the speeds along the body axes, through the air in old versions and over the ground in new ones;
//   - slip_deg, the ball from one program, sideslip from another;
//   - the control surfaces, which are not what the hands do.
//
// Sideslip and rpm stay zero where the sender does not fill them: they are read once they have been other than zero.
// Rates are sent as those of the Euler angles.
package fdm

import (
	"encoding/binary"
	"math"

	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/units"
)

// Format is the native flight model stream.
var Format = &format.Format{
	Names:     []string{"native FDM 24", "native FDM 25"},
	First:     "\x00",
	Recognize: recognize,
	New:       func(*format.Options) format.Decoder { return &decoder{} },
	Setting:   func(string, stream.Channel) phrase.Phrase { return phrase.NoPlaceInModel.Of() },
	Rate:      format.SocketRate,
}

// The structure: lengths, and where the wheels begin in version 24.
const (
	Length24 = 408
	Length25 = 552
	Tanks    = Length25 - Length24
	Wheels   = 304

	noHeight = -9000 // m; below it height above ground is not given
)

func recognize(d *format.Datagram) format.Claim {
	b := d.Bytes
	if len(b) < 8 || binary.BigEndian.Uint32(b[4:]) != 0 {
		return format.No
	}
	version := binary.BigEndian.Uint32(b)
	return format.Is(version == 24 || version == 25)
}

type decoder struct {
	format.Plain
	name         string
	slips, turns bool // sideslip and rpm have been other than 0
}

func (r *decoder) Name() string { return r.name }

func (r *decoder) Detail() phrase.Phrase {
	return phrase.DetailFDM.Of()
}

func (r *decoder) Restart() { *r = decoder{} }

// Decode reads one structure.
func (r *decoder) Decode(b []byte, _ float64, s *stream.Sample) error {
	wheels := Wheels
	switch {
	case b[3] == 24 && len(b) == Length24:
		r.name = "native FDM 24"
	case b[3] == 25 && len(b) == Length25:
		r.name = "native FDM 25"
		wheels += Tanks
	default:
		return fault.ErrTruncated
	}
	u32 := func(i int) uint32 { return binary.BigEndian.Uint32(b[i:]) }
	f64 := func(i int) float64 { return math.Float64frombits(binary.BigEndian.Uint64(b[i:])) }
	f32 := func(i int) float64 { return float64(math.Float32frombits(binary.BigEndian.Uint32(b[i:]))) }

	s.Put(stream.Longitude, f64(8)*units.DegreesPerRadian)
	s.Put(stream.Latitude, f64(16)*units.DegreesPerRadian)
	s.Put(stream.Altitude, f64(24)/units.Foot)
	if agl := f32(32); !(agl < noHeight) {
		s.Put(stream.Height, agl/units.Foot)
	}
	bank, pitch := f32(36), f32(40)
	s.Put(stream.Bank, bank*units.DegreesPerRadian)
	s.Put(stream.Pitch, pitch*units.DegreesPerRadian)
	s.Put(stream.Heading, f32(44)*units.DegreesPerRadian)
	s.Put(stream.AngleOfAttack, f32(48)*units.DegreesPerRadian)
	r.slips = r.slips || f32(52) != 0
	if r.slips {
		s.Put(stream.Sideslip, f32(52)*units.DegreesPerRadian)
	}
	p, q, y := BodyRates(bank, pitch, f32(56), f32(60), f32(64))
	s.Put(stream.RollRate, p*units.DegreesPerRadian)
	s.Put(stream.PitchRate, q*units.DegreesPerRadian)
	s.Put(stream.YawRate, y*units.DegreesPerRadian)
	s.Put(stream.Airspeed, f32(68))
	units.PutVelocity(s, f32(76)*units.Foot, f32(80)*units.Foot, -f32(72)*units.Foot)
	s.Put(stream.AxialLoad, f32(100)*units.Foot/units.Gravity)
	s.Put(stream.LateralLoad, f32(104)*units.Foot/units.Gravity)
	s.Put(stream.NormalLoad, -f32(108)*units.Foot/units.Gravity)
	s.Put(stream.StallWarning, f32(112))
	r.turns = r.turns || f32(140) != 0
	if r.turns && u32(120) > 0 {
		s.Put(stream.RPM, f32(140))
	}
	if n := u32(wheels); n > 0 {
		var on uint32
		for i := range min(int(n&0xFF), 3) {
			on |= u32(wheels + 4 + 4*i)
		}
		s.Put(stream.OnGround, float64(on))
	}
	return fault.OfHollow(s)
}

// BodyRates turns rates of Euler angles into those about the body axes, angles in radians:
// p = φ' − ψ' sin θ, q = θ' cos φ + ψ' cos θ sin φ, r = ψ' cos θ cos φ − θ' sin φ
// (B. Etkin, Dynamics of Atmospheric Flight, 1972, section 4.5; from memory).
func BodyRates(bank, pitch, bankRate, pitchRate, headingRate float64) (p, q, r float64) {
	sinP, cosP := math.Sincos(bank)
	sinT, cosT := math.Sincos(pitch)
	return bankRate - headingRate*sinT, pitchRate*cosP + headingRate*cosT*sinP, headingRate*cosT*cosP - pitchRate*sinP
}
