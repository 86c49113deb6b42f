package kinds_test

import (
	"math"
	"testing"

	"halfturn/coach/check"
	"halfturn/stream"
)

func TestRMS(t *testing.T) {
	for _, r := range []row{
		{
			name:   "constant",
			check:  over("rms", "ball", 0, 180),
			flight: flight{signals: one(stream.Ball, constant(0.3))},
			want:   0.3,
			at:     none,
		},
		{
			name:   "constant, the other way",
			check:  over("rms", "ball", 0, 180),
			flight: flight{signals: one(stream.Ball, constant(-0.3))},
			want:   0.3,
			at:     none,
		},
		{
			name:   "none",
			check:  over("rms", "ball", 0, 180),
			flight: flight{signals: one(stream.Ball, constant(0))},
			want:   0,
			at:     none,
		},
		{
			name:  "sine of whole periods",
			check: over("rms", "ball", 0, 180),
			flight: flight{
				signals: one(stream.Ball, func(turn float64) float64 { return math.Sin(turn * math.Pi / 30) }),
			},
			want:   math.Sqrt(0.5),
			within: 1e-6,
			at:     none,
		},
		// A sine of period 5 s through a lag of 1 s: 1 over the root of 1 + (2π/5)².
		{name: "smoothed sine", check: with(over("rms", "ball", 60, 180), func(k *check.Spec) { k.Smooth = 1 }),
			flight: flight{
				signals: one(stream.Ball, func(turn float64) float64 { return math.Sin(turn * math.Pi / 15) }),
			}, want: math.Sqrt(0.5 / (1 + 4*math.Pi*math.Pi/25)), within: 0.01, at: none},
		{name: "no channel", check: over("rms", "ball", 0, 180), reason: "no ball"},
	} {
		r.run(t)
	}
}
