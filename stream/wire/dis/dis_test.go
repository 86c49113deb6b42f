package dis_test

import (
	"encoding/binary"
	"math"
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/units"
	"halfturn/stream/wire/wiretest"
)

// D. Koks, "Using Rotations to Build Aerospace Coordinate Systems", DSTO-TN-0640, 2008: an aircraft over Adelaide,
// 34.9° S 138.5° E at 10,000 m, heading 135, nose 20 up, bank 30 right. The report prints psi −123.0, theta 47.8,
// phi −29.7.
func TestKoks(t *testing.T) {
	in := wiretest.SampleOf(stream.Latitude, -34.9, stream.Longitude, 138.5, stream.Altitude, 10000/0.3048,
		stream.Heading, 135, stream.Pitch, 20, stream.Bank, 30)
	b := wiretest.Encode(t, "dis", in)
	f32 := func(i int) float64 {
		return float64(math.Float32frombits(binary.BigEndian.Uint32(b[i:]))) * units.DegreesPerRadian
	}
	// computed in full; they round to the printed ones
	for i, want := range []float64{-122.96992, 47.786475, -29.670167} {
		if got := f32(72 + 4*i); math.Abs(got-want) > 1e-5 {
			t.Errorf("angle %d: %v; must be %v", i, got, want)
		}
	}
	s := wiretest.Decode(t, wire.NewReader(format.Options{}), b)
	for c, want := range map[stream.Channel]float64{stream.Heading: 135, stream.Pitch: 20, stream.Bank: 30,
		stream.Latitude: -34.9, stream.Longitude: 138.5} {
		if !wiretest.Near(c, s.Value(c), want, 2e-5) {
			t.Errorf("%s = %v; must be %v", c, s.Value(c), want)
		}
	}
}

// Velocity and rates by dead-reckoning algorithm: along the Earth's axes, the body's, or not known.
func TestDISAlgorithms(t *testing.T) {
	in := wiretest.SampleOf(stream.Latitude, 47.5, stream.Longitude, -122.25, stream.Altitude, 3500, stream.Heading,
		270, stream.Pitch, 0, stream.Bank, 30,
		stream.GroundSpeed, 100, stream.Track, 270, stream.VerticalSpeed, 0, stream.RollRate, 5, stream.PitchRate, 3,
		stream.YawRate, 2)
	world := wiretest.Encode(t, "dis", in)
	for algorithm := range 12 {
		b := append([]byte{}, world...)
		b[88] = byte(algorithm)
		if algorithm >= 6 { // forward only: that is all there is in this flight
			copy(b[36:48], make([]byte, 12))
			speed := math.Float32bits(float32(100 * units.Knot))
			b[36], b[37], b[38], b[39] = byte(speed>>24), byte(speed>>16), byte(speed>>8), byte(speed)
		}
		s := wiretest.Decode(t, wire.NewReader(format.Options{}), b)
		moves, turns := algorithm >= 1 && algorithm <= 9,
			algorithm == 3 || algorithm == 4 || algorithm == 7 || algorithm == 8
		if s.Has.Has(stream.GroundSpeed) != moves || s.Has.Has(stream.RollRate) != turns {
			t.Errorf("algorithm %d: %v", algorithm, s.Has.Names())
		}
		if moves && (!wiretest.Near(stream.GroundSpeed, s.Value(stream.GroundSpeed), 100, 1e-3) ||
			!wiretest.Near(stream.Track, s.Value(stream.Track), 270, 1e-3)) {
			t.Errorf("algorithm %d: %v kt to %v", algorithm, s.Value(stream.GroundSpeed), s.Value(stream.Track))
		}
	}
}

func TestDISBad(t *testing.T) {
	good := wiretest.Encode(t, "dis", wiretest.SampleOf(stream.Latitude, 1, stream.Longitude, 2, stream.Altitude, 3500,
		stream.Heading, 270, stream.Pitch, 0, stream.Bank, 30))
	change := func(at int, v ...byte) []byte {
		b := append([]byte{}, good...)
		copy(b[at:], v)
		return b
	}
	fire := append([]byte{7, 1, 2, 2, 0, 0, 0, 0, 0, 96, 0, 0}, make([]byte, 84)...)
	tank := change(12, 0, 9, 0, 9, 0, 9)
	tank[21] = 1
	for name, tt := range map[string]struct {
		in  []byte
		err error
	}{
		"cut short":             {good[:143], fault.ErrTruncated},
		"length too long":       {change(8, 1, 0), fault.ErrTruncated},
		"length too short":      {change(8, 0, 100), fault.ErrUnknown},
		"version 4":             {change(0, 4), fault.ErrUnknown},
		"no such family":        {change(3, 9), fault.ErrUnknown},
		"at the Earth's center": {change(48, make([]byte, 24)...), fault.ErrMalformed},
		"position NaN":          {change(48, 0x7F, 0xF8, 0, 0, 0, 0, 0, 1), fault.ErrMalformed},
		"another entity":        {change(12, 0, 5), fault.ErrOther},
		"a tank":                {tank, fault.ErrOther},
		"junk after it":         {append(change(0), 1, 2, 3), nil},
		"two in one":            {append(change(0), good...), nil},
		"something else first":  {append(append([]byte{}, good...), fire...), nil},
	} {
		r := wire.NewReader(format.Options{})
		wiretest.Decode(t, r, good)
		var s stream.Sample
		if err := r.Decode(tt.in, 0, &s); err != tt.err {
			t.Errorf("%s: %v; must be %v", name, err, tt.err)
		}
	}
	r := wire.NewReader(format.Options{}) // an aircraft takes the place of a tank, another after a silence
	var s stream.Sample
	for i, step := range []struct {
		now float64
		in  []byte
		err error
	}{{0, tank, nil}, {1, good, nil}, {2, tank, fault.ErrOther}, {12, change(12, 0, 5), fault.ErrOther},
		{14, change(12, 0, 5), nil}} {
		if err := r.Decode(step.in, step.now, &s); err != step.err {
			t.Errorf("step %d: %v; must be %v", i, err, step.err)
		}
	}
}

func FuzzDIS(f *testing.F) { wiretest.Fuzz(f, "FuzzDIS", "dis") }
