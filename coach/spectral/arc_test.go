package spectral_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"halfturn/coach/spectral"
)

// minimumJerk is the speed of a movement of one second from rest to rest with the least jerk.
func minimumJerk(u float64) float64 {
	if u < 0 || u > 1 {
		return 0
	}
	return 30*u*u*u*u - 60*u*u*u + 30*u*u
}

// sampled takes n samples of a signal, fs a second, from t on.
func sampled(v func(t float64) float64, t, fs float64, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = v(t + float64(i)/fs)
	}
	return out
}

// The first two are published: the worked example in the notebook of the authors' code (SPARC),
// and the documentation of the library monalysa. The others were computed with an independent
// implementation in another language, which gives both published numbers.
func TestArcLength(t *testing.T) {
	pair := func(gap float64) func(float64) float64 {
		return func(t float64) float64 { return minimumJerk(t) + minimumJerk(t-1-gap) }
	}
	for _, c := range []struct {
		name   string
		v      func(float64) float64
		from   float64
		fs     float64
		n      int
		want   float64
		within float64
	}{
		{"published: Gaussian", func(t float64) float64 { return math.Exp(-5 * t * t) }, -1, 100, 200, -1.41403, 1e-5},
		{"published: minimum jerk", minimumJerk, 0, 100, 100, -1.4058293244214655, 1e-9},
		{"minimum jerk in 0.5 s", func(t float64) float64 { return minimumJerk(2 * t) }, 0, 100, 51, -1.40583, 1e-4},
		{"minimum jerk in 0.5 s, 50 Hz", func(t float64) float64 { return minimumJerk(2 * t) }, 0, 50, 26, -1.40584,
			1e-4},
		{"minimum jerk in 2 s", func(t float64) float64 { return minimumJerk(t / 2) }, 0, 50, 101, -1.40583, 1e-4},
		{"minimum jerk in 4 s", func(t float64) float64 { return minimumJerk(t / 4) }, 0, 200, 801, -1.40583, 1e-4},
		{"minimum jerk in 8 s", func(t float64) float64 { return minimumJerk(t / 8) }, 0, 100, 801, -1.40583, 1e-4},
		{"two, no gap", pair(0), 0, 100, 201, -2.24455, 1e-4},
		{"two, gap of 0.25 s", pair(0.25), 0, 100, 226, -2.74645, 1e-4},
		{"two, gap of 0.5 s", pair(0.5), 0, 100, 251, -3.11903, 1e-4},
		{"two, gap of 1 s", pair(1), 0, 100, 301, -3.99354, 1e-4},
		{"two, gap of 2 s", pair(2), 0, 100, 401, -5.81387, 1e-4},
		{"half sine", func(t float64) float64 { return math.Sin(math.Pi * t) }, 0, 100, 101, -1.56234, 1e-4},
		{"triangle", func(t float64) float64 { return 1 - math.Abs(2*t-1) }, 0, 100, 101, -1.40851, 1e-4},
		{"box", func(float64) float64 { return 1 }, 0, 100, 101, -2.40585, 1e-4},
	} {
		if got := spectral.ArcLength(sampled(c.v, c.from, c.fs, c.n), c.fs); !(math.Abs(got-c.want) <= c.within) {
			t.Errorf("%s: %.6f, want %g", c.name, got, c.want)
		}
	}
}

// Size, direction and sample rate do not matter; noise does.
func TestArcLengthLaws(t *testing.T) {
	rnd := rand.New(rand.NewPCG(9, 10))
	for range 50 {
		seconds, size := 1+rnd.Float64()*8, 0.01+rnd.Float64()*50
		v := func(t float64) float64 { return minimumJerk(t / seconds) }
		fs := 50 + rnd.Float64()*100
		smooth := sampled(v, 0, fs, int(seconds*fs)+1)
		want := spectral.ArcLength(smooth, fs)
		if math.Abs(want+1.4058) > 0.02 {
			t.Fatalf("%.2f s at %.0f Hz: %g", seconds, fs, want)
		}
		scaled, rough := make([]float64, len(smooth)), make([]float64, len(smooth))
		for i, x := range smooth {
			scaled[i] = -size * x
			rough[i] = x + 0.5*math.Sin(float64(i)/fs*20)
		}
		if got := spectral.ArcLength(scaled, fs); math.Abs(got-want) > 1e-9 {
			t.Fatalf("times −%g: %g, want %g", size, got, want)
		}
		if got := spectral.ArcLength(rough, fs); got > want-0.3 {
			t.Fatalf("with a shake: %g, without %g", got, want)
		}
	}
	for _, v := range [][]float64{nil, {0, 0, 0}, {1, math.NaN()}, {math.Inf(1), 1}} {
		if got := spectral.ArcLength(v, 20); !math.IsNaN(got) {
			t.Errorf("%v: %g, want NaN", v, got)
		}
	}
	// A single value has a flat spectrum: the length of a level line.
	if got := spectral.ArcLength([]float64{3}, 10); math.Abs(got+1) > 1e-9 {
		t.Errorf("one value: %g; must be -1", got)
	}
	if got := spectral.ArcLength([]float64{1, 2, 1}, 0); !math.IsNaN(got) {
		t.Errorf("at 0 Hz: %g, want NaN", got)
	}
}

// A window comes back as it was first worked out, also among others, and after it was forgotten.
func TestMemory(t *testing.T) {
	var m spectral.Memory
	movement := func(n int, size float64) []float64 {
		return sampled(func(u float64) float64 { return size * minimumJerk(u) }, 0, 50, n)
	}
	var windows [][]float64
	for i := range 30 {
		windows = append(windows, movement(50+i, 1), movement(50, float64(i+1)))
	}
	windows = append(windows, movement(200, 1), nil)
	for range 2 {
		for i, v := range windows {
			for range 2 {
				got, want := m.ArcLength(v, 50), spectral.ArcLength(v, 50)
				if got != want && !(math.IsNaN(got) && math.IsNaN(want)) {
					t.Fatalf("window %d: %v, worked out afresh %v", i, got, want)
				}
			}
		}
	}
	v := windows[0]
	if m.ArcLength(v, 50) == m.ArcLength(v, 1000) {
		t.Error("a rate is taken for another")
	}
	if n := testing.AllocsPerRun(100, func() { m.ArcLength(v, 50) }); n != 0 {
		t.Errorf("a remembered window allocates %v times", n)
	}
	var none *spectral.Memory
	if none.ArcLength(v, 50) != spectral.ArcLength(v, 50) {
		t.Error("without a memory it differs")
	}
}

// go test -bench Arc -benchmem ./coach/spectral
func BenchmarkArcLength(b *testing.B) {
	var m spectral.Memory
	v := sampled(func(t float64) float64 { return minimumJerk(t / 8) }, 0, 10, 81)
	b.ReportAllocs()
	for b.Loop() {
		m.ArcLength(v, 10) // longer than what is remembered
	}
}
