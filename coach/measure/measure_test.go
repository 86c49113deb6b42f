package measure_test

import (
	"math"
	"strings"
	"testing"

	"halfturn/coach/measure"
	"halfturn/stream"
)

// A flight feeds a measurer samples of 50 a second.
type flight struct {
	m    *measure.Measurer
	time float64
}

func newFlight() *flight { return &flight{m: measure.New(), time: 100} }

// fly flies for some seconds with these values; change may vary them with the time since their beginning.
func (f *flight) fly(seconds float64, values map[stream.Channel]float64, change func(t float64, s *stream.Sample)) {
	for i := range int(seconds * 50) {
		var s stream.Sample
		for c, v := range values {
			s.Put(c, v)
		}
		s.Put(stream.Time, f.time)
		if change != nil {
			change(float64(i)/50, &s)
		}
		f.m.Step(&s)
		f.time += 0.02
	}
}

func level(airspeed float64) map[stream.Channel]float64 {
	return map[stream.Channel]float64{
		stream.Airspeed:      airspeed,
		stream.VerticalSpeed: 0,
		stream.Bank:          0,
		stream.Throttle:      airspeed / 200,
		stream.NormalLoad:    1,
		stream.PitchRate:     0,
	}
}

// Only steady, level flight of at least 4 s counts.
func TestSteadyFlight(t *testing.T) {
	put := func(c stream.Channel, v float64) func(float64, *stream.Sample) {
		return func(_ float64, s *stream.Sample) { s.Put(c, v) }
	}
	drop := func(c stream.Channel) func(float64, *stream.Sample) {
		return func(_ float64, s *stream.Sample) { s.Drop(c) }
	}
	for _, c := range []struct {
		name    string
		seconds float64
		change  func(t float64, s *stream.Sample)
		want    int
	}{
		{"level", 6, nil, 1},
		{"4 s", 4.1, nil, 1},
		{"under 4 s", 3.9, nil, 0},
		{"banked", 6, put(stream.Bank, -5.1), 0},
		{"nearly level", 6, put(stream.Bank, -4.9), 1},
		{"climbing", 6, put(stream.VerticalSpeed, 310), 0},
		{"descending", 6, put(stream.VerticalSpeed, -310), 0},
		{"climbing slowly", 6, put(stream.VerticalSpeed, 290), 1},
		{"accelerating", 6, func(t float64, s *stream.Sample) { s.Put(stream.Airspeed, 100+2*t) }, 0},
		{"on the ground", 6, put(stream.OnGround, 1), 0},
		{"in the air", 6, put(stream.OnGround, 0), 1},
		{"taxiing", 6, put(stream.Airspeed, 19), 0},
		{"without vertical speed", 6, drop(stream.VerticalSpeed), 0},
		{"without bank", 6, drop(stream.Bank), 0},
		{"without airspeed", 6, drop(stream.Airspeed), 0},
	} {
		f := newFlight()
		f.fly(c.seconds, level(100), c.change)
		f.m.Break()
		if at, others := f.m.Steady(); len(at) != c.want || others != 0 {
			t.Errorf("%s: %d stretches and %d others; must be %d", c.name, len(at), others, c.want)
		}
	}
}

// The speed that was held for longest counts, in one stretch or several, and the means are by their time.
func TestSpeedHeldForLongest(t *testing.T) {
	f := newFlight()
	turn := func() {
		f.fly(1, level(100), func(_ float64, s *stream.Sample) { s.Put(stream.Bank, 30) })
	}
	f.fly(10, level(100), nil)
	turn()
	f.fly(8, level(120), nil)
	turn()
	f.fly(16, level(124), nil)
	turn()
	f.fly(5, level(140), func(_ float64, s *stream.Sample) { s.Drop(stream.Throttle) })
	f.m.Break()
	at, others := f.m.Steady()
	if len(at) != 2 || others != 2 {
		t.Fatalf("%d stretches and %d others; must be 2 and 2", len(at), others)
	}
	// (8·120 + 16·124) / 24
	if v, ok := measure.Mean(at, stream.Airspeed); !ok || math.Abs(v-122.67) > 0.02 {
		t.Errorf("airspeed %.2f, %v; must be 122.67", v, ok)
	}
	if v, ok := measure.Mean(at, stream.Throttle); !ok || math.Abs(v-0.6133) > 0.001 {
		t.Errorf("throttle %.4f, %v; must be 0.6133", v, ok)
	}
	if _, ok := measure.Mean(at, stream.Torque); ok {
		t.Error("a channel that was not sent has a mean")
	}
	if _, ok := measure.Mean(nil, stream.Airspeed); ok {
		t.Error("no stretch has a mean")
	}
}

// A channel that was missing for a moment has no mean.
func TestChannelMissingForAMoment(t *testing.T) {
	f := newFlight()
	f.fly(6, level(100), func(t float64, s *stream.Sample) {
		if t > 3 && t < 3.1 {
			s.Drop(stream.Throttle)
		}
	})
	f.m.Break()
	at, _ := f.m.Steady()
	if _, ok := measure.Mean(at, stream.Throttle); ok || len(at) != 1 {
		t.Errorf("%d stretches, with throttle: %v", len(at), ok)
	}
}

// slow flies an approach to the stall: 2 kt a second slower, then a nose drop at a rate in °/s for some seconds.
func slow(f *flight, load, rate, seconds float64) {
	f.fly(20, level(0), func(t float64, s *stream.Sample) {
		s.Put(stream.Airspeed, 100-2*t)
		s.Put(stream.NormalLoad, load)
	})
	f.fly(seconds, level(0), func(t float64, s *stream.Sample) {
		s.Put(stream.Airspeed, 60+5*t)
		s.Put(stream.NormalLoad, 0.4) // the wing carries little while the nose drops
		s.Put(stream.PitchRate, -rate)
	})
}

// The stall speed at 1 g is the airspeed over the root of the load factor (Vs = V/√n, FAA-H-8083-3C ch. 5).
func TestStall(t *testing.T) {
	for _, load := range []float64{1, 1.44, 0.81} {
		f := newFlight()
		slow(f, load, 12, 1)
		v, at, reason := f.m.Stall()
		// The smoothing over 0.15 s lags by 0.3 kt.
		if want := 60 / math.Sqrt(load); reason != "" || math.Abs(v-want) > 0.6 || math.Abs(at-120) > 0.1 {
			t.Errorf("at %g g: %.2f kt at %.2f s, %s; must be %.2f at 120", load, v, at, reason, want)
		}
		if low := f.m.Lowest(); low != v {
			t.Errorf("at %g g: the lowest speed is %.2f; must be %.2f", load, low, v)
		}
	}
}

func TestNoStall(t *testing.T) {
	for _, c := range []struct {
		name string
		fly  func(f *flight)
		want string
	}{
		{"level flight", func(f *flight) { f.fly(10, level(100), nil) }, "never dropped"},
		{"lowered by hand", func(f *flight) { slow(f, 1, 7, 1) }, "never dropped"},
		{"a short drop", func(f *flight) { slow(f, 1, 12, 0.25) }, "never dropped"},
		{
			"slower before", // 60 kt, and then a nose drop at 100
			func(f *flight) {
				slow(f, 1, 0, 1)
				f.fly(5, level(100), nil)
				f.fly(1, level(100), func(_ float64, s *stream.Sample) { s.Put(stream.PitchRate, -12) })
			}, "never dropped",
		},
		{
			"no load factor",
			func(f *flight) {
				f.fly(5, level(60), func(_ float64, s *stream.Sample) { s.Drop(stream.NormalLoad) })
			}, "no load factor",
		},
		{
			"no pitch rate",
			func(f *flight) {
				f.fly(5, level(60), func(_ float64, s *stream.Sample) { s.Drop(stream.PitchRate) })
			}, "no pitch rate",
		},
		{"nothing", func(*flight) {}, "no load factor"},
	} {
		f := newFlight()
		c.fly(f)
		if v, _, reason := f.m.Stall(); v != 0 || !strings.Contains(reason, c.want) {
			t.Errorf("%s: %g kt, %q; must hold %q", c.name, v, reason, c.want)
		}
	}
	if low := measure.New().Lowest(); !math.IsInf(low, 1) {
		t.Errorf("before any sample the lowest speed is %g", low)
	}
}

// A jump of the stream ends a nose drop: what came before it does not count for it.
func TestBreakEndsANoseDrop(t *testing.T) {
	f := newFlight()
	slow(f, 1, 12, 0.2)
	f.m.Break()
	f.fly(0.2, level(62), func(_ float64, s *stream.Sample) { s.Put(stream.PitchRate, -12) })
	if _, _, reason := f.m.Stall(); reason == "" {
		t.Error("two halves of a nose drop are a stall")
	}
}
