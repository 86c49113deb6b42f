package kinds_test

import (
	"math"
	"testing"

	"halfturn/coach/check"
	"halfturn/stream"
)

func TestExtreme(t *testing.T) {
	hill := func(turn float64) float64 { return 20 - (turn-45)*(turn-45)/100 }
	spike := func(turn float64) float64 {
		if math.Abs(turn-60) < 0.01 {
			return 40
		}
		return 10
	}
	for _, r := range []row{
		{
			name:   "highest",
			check:  with(over("extreme", "pitch", 0, 90), highest),
			flight: flight{signals: one(stream.Pitch, hill)},
			want:   20,
			within: 1e-4,
			at:     45,
		},
		{
			name:   "lowest",
			check:  with(over("extreme", "airspeed", 45, 135), lowest),
			flight: flight{signals: one(stream.Airspeed, corners(0, 130, 90, 70, 180, 130))},
			want:   70,
			at:     90,
		},
		{
			name:   "at the end of the span",
			check:  with(over("extreme", "bank", 30, 60), highest),
			flight: flight{signals: one(stream.Bank, line(0, 0.5)), rate: 6},
			want:   30,
			at:     60,
		},
		{
			name:   "at the start of the span",
			check:  with(over("extreme", "bank", 30, 60), lowest),
			flight: flight{signals: one(stream.Bank, line(0, 0.5)), rate: 6},
			want:   15,
			at:     30,
		},
		{
			name:   "below zero",
			check:  with(over("extreme", "pitch", 90, 180), highest),
			flight: flight{signals: one(stream.Pitch, line(0, -0.1)), rate: 6},
			want:   -9,
			at:     90,
		},
		{
			name:   "the first of equals",
			check:  with(over("extreme", "pitch", 10, 90), highest),
			flight: flight{signals: one(stream.Pitch, constant(7)), rate: 6},
			want:   7,
			at:     10,
		},
		// One sample in 0.02 s, through a first-order lag of 1 s: 10 + 30 (1 − e^−0.02).
		{
			name:   "smoothed",
			check:  with(over("extreme", "pitch", 0, 90), func(k *check.Spec) { highest(k); k.Smooth = 1 }),
			flight: flight{signals: one(stream.Pitch, spike)},
			want:   10 + 30*(1-math.Exp(-0.02)),
			within: 1e-6,
			at:     60,
		},
		{
			name:   "not smoothed",
			check:  with(over("extreme", "pitch", 0, 90), highest),
			flight: flight{signals: one(stream.Pitch, spike)},
			want:   40,
			at:     60,
		},
		{
			name:   "no exit is needed",
			check:  with(over("extreme", "pitch", 0, 90), highest),
			flight: flight{signals: one(stream.Pitch, hill), end: 50, noExit: true},
			want:   20,
			within: 1e-4,
			at:     45,
		},
		{
			name:   "span not reached",
			check:  with(over("extreme", "pitch", 120, 180), highest),
			flight: flight{signals: one(stream.Pitch, hill), end: 100},
			reason: "did not reach 120°",
		},
		{name: "no channel", check: with(over("extreme", "pitch", 0, 90), highest), reason: "no pitch"},
	} {
		r.run(t)
	}
}
