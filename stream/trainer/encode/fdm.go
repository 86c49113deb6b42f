package encode

import (
	"encoding/binary"
	"math"

	"halfturn/stream"
	"halfturn/stream/wire/fdm"
	"halfturn/stream/wire/units"
)

var nativeLoss = Loss{
	Abs:    1e-4,
	Rel:    1e-6,
	Blanks: true,
}

// The native flight model, version 24.
var fdm24Format = &written{
	Name:  "fdm24",
	Reads: "native FDM 24",
	Loss:  nativeLoss,
	make:  ready(native{version: 24}),
}

// The native flight model, version 25.
var fdm25Format = &written{
	Name:  "fdm25",
	Reads: "native FDM 25",
	Loss:  nativeLoss,
	make:  ready(native{version: 25}),
}

// eulerRates turns rates about the body axes into those of Euler angles, in radians. Near the vertical there is none.
func eulerRates(bank, pitch, p, q, r float64) (bankRate, pitchRate, headingRate float64) {
	sinP, cosP := math.Sincos(bank)
	sinT, cosT := math.Sincos(pitch)
	headingRate = (q*sinP + r*cosP) / max(cosT, 1e-3)
	return p + headingRate*sinT, q*cosP - r*sinP, headingRate
}

// native writes version 24 or 25. What a sample lacks is NaN.
type native struct{ version uint32 }

func (native) Preamble() []byte { return nil }

func (native) Channels() stream.Set {
	return flown | bodyRates | loads | 1<<stream.Airspeed | 1<<stream.Height | 1<<stream.AngleOfAttack |
		1<<stream.Sideslip | 1<<stream.RPM | 1<<stream.StallWarning | 1<<stream.OnGround
}

func (e native) Append(dst []byte, s *stream.Sample) []byte {
	length, wheels := fdm.Length24, fdm.Wheels
	if e.version == 25 {
		length, wheels = fdm.Length25, wheels+fdm.Tanks
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
	f64(8, orNaN(s, stream.Longitude)/units.DegreesPerRadian)
	f64(16, orNaN(s, stream.Latitude)/units.DegreesPerRadian)
	f64(24, orNaN(s, stream.Altitude)*units.Foot)
	f32(32, -9999)
	if v, ok := s.Get(stream.Height); ok {
		f32(32, v*units.Foot)
	}
	bank, pitch := orNaN(s, stream.Bank)/units.DegreesPerRadian, orNaN(s, stream.Pitch)/units.DegreesPerRadian
	f32(36, bank)
	f32(40, pitch)
	f32(44, trueHeading(s)/units.DegreesPerRadian)
	f32(48, orNaN(s, stream.AngleOfAttack)/units.DegreesPerRadian)
	f32(52, s.Value(stream.Sideslip)/units.DegreesPerRadian)
	for i, v := range ratesOf(s, bank, pitch) {
		f32(56+4*i, v)
	}
	f32(68, orNaN(s, stream.Airspeed))
	north, east, down := velocity(s)
	for i, v := range [...]float64{-down, north, east, down} {
		f32(72+4*i, v/units.Foot)
	}
	f32(100, orNaN(s, stream.AxialLoad)*units.Gravity/units.Foot)
	f32(104, orNaN(s, stream.LateralLoad)*units.Gravity/units.Foot)
	f32(108, -orNaN(s, stream.NormalLoad)*units.Gravity/units.Foot)
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
	out[0], out[1], out[2] = eulerRates(bank, pitch, orNaN(s, stream.RollRate)/units.DegreesPerRadian,
		orNaN(s, stream.PitchRate)/units.DegreesPerRadian, orNaN(s, stream.YawRate)/units.DegreesPerRadian)
	return out
}
