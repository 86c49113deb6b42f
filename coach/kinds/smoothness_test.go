package kinds_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"halfturn/coach/kinds"
	"halfturn/coach/spectral"
	"halfturn/stream"
)

func TestSmoothness(t *testing.T) {
	whole := over("smoothness", "roll-rate", 0, 180)
	wave := func(seconds float64) signal { // a rate that comes and goes
		return func(turn float64) float64 { return 8 * math.Sin(turn/pace*2*math.Pi/seconds) }
	}
	for _, r := range []row{
		// A constant faded in and out over 8 s is half a cosine wave: the window's own value.
		{
			name:   "steady",
			check:  whole,
			flight: flight{signals: one(stream.RollRate, constant(9))},
			want:   hann(8),
			within: 0.002,
			at:     24,
			atNear: 25,
		},
		{
			name:   "steady, the other way",
			check:  whole,
			flight: flight{signals: one(stream.RollRate, constant(-9))},
			want:   hann(8),
			within: 0.002,
			at:     24,
			atNear: 25,
		},
		{
			name:   "a short leg is one window",
			check:  whole,
			flight: flight{signals: one(stream.RollRate, constant(9)), end: 30},
			want:   hann(5),
			within: 0.002,
			at:     24,
			atNear: 1,
		},
		{
			name:   "nothing moves",
			check:  whole,
			flight: flight{signals: one(stream.RollRate, constant(0.4))},
			reason: "roll-rate hardly moved",
		},
		{
			name:   "too short",
			check:  whole,
			flight: flight{signals: one(stream.RollRate, constant(9)), end: 10},
			reason: "too short",
		},
		{
			name:   "span not reached",
			check:  over("smoothness", "roll-rate", 90, 180),
			flight: flight{signals: one(stream.RollRate, wave(9)), end: 60},
			reason: "did not reach 90°",
		},
		{name: "no channel", check: whole, reason: "no roll-rate"},
	} {
		r.run(t)
	}
}

// hann is the spectral arc length of a fade in and out over some seconds.
func hann(seconds float64) float64 {
	return spectral.ArcLength(sampled(func(t float64) float64 {
		return 0.5 - 0.5*math.Cos(2*math.Pi*t/seconds)
	}, 0.025, 20, int(seconds*20)), 20)
}

// The same roll is rougher in steps, with a shake, or in gusts, and the more the rougher; it is
// as smooth twice as fast.
func TestRougherIsLess(t *testing.T) {
	k := over("smoothness", "roll-rate", 0, 180)
	roll := func(turn float64) float64 { return 9 * math.Cos(turn*math.Pi/180) }
	measure := func(v signal) float64 {
		f := flight{rate: 30, signals: one(stream.RollRate, v)}
		got := f.measure(k)
		if !got.OK {
			t.Fatalf("%+v", got)
		}
		return got.Value
	}
	rnd := rand.New(rand.NewPCG(15, 16))
	smooth := measure(roll)
	for name, rough := range map[string]func(size float64) signal{
		"steps": func(size float64) signal {
			return func(turn float64) float64 { return roll(turn) * (1 - size*(0.5+0.5*math.Sin(turn/pace*2*math.Pi))) }
		},
		"shake": func(size float64) signal {
			return func(turn float64) float64 { return roll(turn) + size*4*math.Sin(turn/pace*9) }
		},
		"gusts": func(size float64) signal {
			return func(turn float64) float64 { return roll(turn) + size*2*rnd.NormFloat64() }
		},
	} {
		some, much := measure(rough(0.35)), measure(rough(1))
		if !(some < smooth-0.02 && much < some-0.1) {
			t.Errorf("%s: %.3f smooth, %.3f, much %.3f", name, smooth, some, much)
		}
	}
	if twice := measure(func(turn float64) float64 { return 2 * roll(turn) }); math.Abs(twice-smooth) > 0.01 {
		t.Errorf("twice as fast %.3f, %.3f", twice, smooth)
	}
}

// A stop and go that a pilot makes once a second misses the cards' band; one smooth roll in and out is well in it.
func TestStopAndGoIsRough(t *testing.T) {
	k := over("smoothness", "roll-rate", 0, 180)
	for _, c := range []struct {
		name      string
		v         signal
		low, high float64
	}{
		{"one roll in, one out", func(turn float64) float64 { return 9 * math.Cos(turn*math.Pi/180) }, -1.9, -1.4},
		{
			name: "on and off each second",
			v:    func(turn float64) float64 { return 12 * math.Max(0, math.Sin(turn/pace*2*math.Pi)) },
			low:  -9,
			high: -2.75,
		},
	} {
		f := flight{signals: one(stream.RollRate, c.v)}
		if got := f.measure(k); !got.OK || got.Value < c.low || got.Value > c.high {
			t.Errorf("%s: %+v, want %g to %g", c.name, got, c.low, c.high)
		}
	}
}

// A leg of many minutes is judged by its first 204 s, in the same memory.
func TestSmoothnessIsBounded(t *testing.T) {
	f := flight{signals: one(stream.RollRate, constant(9)), end: 1000, rate: 5}
	slow := flight{facts: f.facts, signals: f.signals}
	j := kinds.NewJudge(over("smoothness", "roll-rate", 0, 2000), slow.known())
	for i := range 5 * 1200 {
		m := f.moment(float64(i) / 6)
		m.Sample.Put(stream.Time, begin+float64(i)/5)
		j.Step(&m)
	}
	if got := j.Measure(nil); !got.OK || math.Abs(got.Value-hann(8)) > 0.01 {
		t.Errorf("%+v", got)
	}
}

// sampled takes n samples of a signal, fs per second, from t on.
func sampled(v func(t float64) float64, t, fs float64, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = v(t + float64(i)/fs)
	}
	return out
}
