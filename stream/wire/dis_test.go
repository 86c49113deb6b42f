package wire

import (
	"math"
	"math/rand/v2"
	"testing"

	"halfturn/stream"
)

// D. Koks, "Using Rotations to Build Aerospace Coordinate Systems", DSTO-TN-0640, 2008: an aircraft
// over Adelaide, 34.9° S 138.5° E at 10,000 m, heading 135, nose 20 up, bank 30 right. The report
// prints psi −123.0, theta 47.8, phi −29.7, the position and the local axes.
func TestKoks(t *testing.T) {
	const lat, lon = -34.9 / degPerRadian, 138.5 / degPerRadian
	for i, want := range []float64{-3928260.52, 3475431.327, -3634495.175} {
		if got := centerOf(lat, lon, 10000)[i]; math.Abs(got-want) > 0.01 {
			t.Errorf("position %d: %v, want %v", i, got, want)
		}
	}
	local := northEastDown(lat, lon)
	for i, want := range [2][3]float64{{-0.429, 0.379, 0.82}, {-0.663, -0.749, 0}} {
		for k := range want {
			if math.Abs(local[i][k]-want[k]) > 6e-4 {
				t.Errorf("axis %d: %v, want %v", i, local[i], want)
			}
		}
	}
	in := sampleOf(stream.Latitude, -34.9, stream.Longitude, 138.5, stream.Altitude, 10000/0.3048, stream.Heading, 135, stream.Pitch, 20, stream.Bank, 30)
	b := disEncoder{}.Append(nil, in)
	f32 := func(i int) float64 {
		return float64(math.Float32frombits(uint32(b[i])<<24|uint32(b[i+1])<<16|uint32(b[i+2])<<8|uint32(b[i+3]))) * degPerRadian
	}
	for i, want := range []float64{-122.96992, 47.786475, -29.670167} { // computed in full; they round to the printed ones
		if got := f32(72 + 4*i); math.Abs(got-want) > 1e-5 {
			t.Errorf("angle %d: %v, want %v", i, got, want)
		}
	}
	s := mustDecode(t, NewReader(Options{}), b)
	for c, want := range map[stream.Channel]float64{stream.Heading: 135, stream.Pitch: 20, stream.Bank: 30, stream.Latitude: -34.9, stream.Longitude: 138.5} {
		if !near(c, s.Value(c), want, 2e-5) {
			t.Errorf("%s = %v, want %v", c, s.Value(c), want)
		}
	}
}

// A position of an independent library's test (open-dis-java, CoordinateConversionsTest, which
// allows 0.1), and the way there and back everywhere.
func TestGeodeticOf(t *testing.T) {
	lat, lon, height := geodeticOf([3]float64{1071401.9738714, -4450059.11156203, 4427050.83344532})
	if math.Abs(lat*degPerRadian-44.2368804) > 1e-7 || math.Abs(lon*degPerRadian+76.4630307) > 1e-7 || math.Abs(height-91) > 0.1 {
		t.Error(lat*degPerRadian, lon*degPerRadian, height)
	}
	random := rand.New(rand.NewPCG(1, 2))
	for range 5000 {
		lat, lon, height := (random.Float64()-0.5)*math.Pi, (random.Float64()*2-1)*math.Pi, random.Float64()*20000-500
		a, o, h := geodeticOf(centerOf(lat, lon, height))
		if math.Abs(a-lat) > 1e-11 || math.Abs(o-lon) > 1e-11 || math.Abs(h-height) > 1e-5 {
			t.Fatalf("%v %v %v gives %v %v %v", lat, lon, height, a, o, h)
		}
	}
}

// Velocity and rates by dead-reckoning algorithm: along the Earth's axes, the body's, or not known.
func TestDISAlgorithms(t *testing.T) {
	in := sampleOf(stream.Latitude, 47.5, stream.Longitude, -122.25, stream.Altitude, 3500, stream.Heading, 270, stream.Pitch, 0, stream.Bank, 30,
		stream.GroundSpeed, 100, stream.Track, 270, stream.VerticalSpeed, 0, stream.RollRate, 5, stream.PitchRate, 3, stream.YawRate, 2)
	world := disEncoder{}.Append(nil, in)
	for algorithm := range 12 {
		b := append([]byte{}, world...)
		b[88] = byte(algorithm)
		if algorithm >= 6 { // forward only: that is all there is in this flight
			copy(b[36:48], make([]byte, 12))
			speed := math.Float32bits(float32(100 * knot))
			b[36], b[37], b[38], b[39] = byte(speed>>24), byte(speed>>16), byte(speed>>8), byte(speed)
		}
		s := mustDecode(t, NewReader(Options{}), b)
		moves, turns := algorithm >= 1 && algorithm <= 9, algorithm == 3 || algorithm == 4 || algorithm == 7 || algorithm == 8
		if s.Has.Has(stream.GroundSpeed) != moves || s.Has.Has(stream.RollRate) != turns {
			t.Errorf("algorithm %d: %v", algorithm, s.Has.Names())
		}
		if moves && (!near(stream.GroundSpeed, s.Value(stream.GroundSpeed), 100, 1e-3) || !near(stream.Track, s.Value(stream.Track), 270, 1e-3)) {
			t.Errorf("algorithm %d: %v kt to %v", algorithm, s.Value(stream.GroundSpeed), s.Value(stream.Track))
		}
	}
}

func TestDISBad(t *testing.T) {
	good := disEncoder{}.Append(nil, sampleOf(stream.Latitude, 1, stream.Longitude, 2, stream.Altitude, 3500, stream.Heading, 270, stream.Pitch, 0, stream.Bank, 30))
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
		"cut short":             {good[:143], ErrTruncated},
		"length too long":       {change(8, 1, 0), ErrTruncated},
		"length too short":      {change(8, 0, 100), ErrUnknown},
		"version 4":             {change(0, 4), ErrUnknown},
		"no such family":        {change(3, 9), ErrUnknown},
		"at the Earth's center": {change(48, make([]byte, 24)...), ErrMalformed},
		"position NaN":          {change(48, 0x7F, 0xF8, 0, 0, 0, 0, 0, 1), ErrMalformed},
		"another entity":        {change(12, 0, 5), ErrOther},
		"a tank":                {tank, ErrOther},
		"junk after it":         {append(change(0), 1, 2, 3), nil},
		"two in one":            {append(change(0), good...), nil},
		"something else first":  {append(append([]byte{}, good...), fire...), nil},
	} {
		r := NewReader(Options{})
		mustDecode(t, r, good)
		var s stream.Sample
		if err := r.Decode(tt.in, &s); err != tt.err {
			t.Errorf("%s: %v, want %v", name, err, tt.err)
		}
	}
	r := NewReader(Options{}) // an aircraft takes the place of a tank, another after a silence
	var s stream.Sample
	for i, step := range []struct {
		now float64
		in  []byte
		err error
	}{{0, tank, nil}, {1, good, nil}, {2, tank, ErrOther}, {12, change(12, 0, 5), ErrOther}, {14, change(12, 0, 5), nil}} {
		if err := r.DecodeAt(step.in, step.now, &s); err != step.err {
			t.Errorf("step %d: %v, want %v", i, err, step.err)
		}
	}
}
