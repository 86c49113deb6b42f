package kinds_test

import (
	"testing"

	"halfturn/coach/check"
	"halfturn/stream"
)

func TestCrossingAngle(t *testing.T) {
	falling := func(cross float64) func(*check.Spec) {
		return func(k *check.Spec) { k.Falling, k.Cross = true, cross }
	}
	rising := func(*check.Spec) {}
	down := one(stream.Pitch, line(30, -1.0/3))
	for _, r := range []row{
		{
			name:   "line down",
			check:  with(over("crossing-angle", "pitch", 45, 135), falling(0)),
			flight: flight{signals: down, rate: 6},
			want:   90,
			at:     90,
		},
		{
			name:   "line down, between degrees",
			check:  with(over("crossing-angle", "pitch", 45, 135), falling(0.1)),
			flight: flight{signals: down, rate: 6},
			want:   89.7,
			at:     89.7,
		},
		{
			name:   "below zero",
			check:  with(over("crossing-angle", "pitch", 45, 135), falling(-5)),
			flight: flight{signals: down, rate: 6},
			want:   105,
			at:     105,
		},
		{
			name:   "line up",
			check:  with(over("crossing-angle", "pitch", 0, 180), rising),
			flight: flight{signals: one(stream.Pitch, line(-30, 0.5)), rate: 6},
			want:   60,
			at:     60,
		},
		// A bin of a degree holds samples of a tenth of a degree apart: half a sample's spacing.
		{
			name:   "many samples a degree",
			check:  with(over("crossing-angle", "pitch", 45, 135), falling(0)),
			flight: flight{signals: down},
			want:   90,
			within: 0.061,
			at:     90,
		},
		{
			name:   "one sample in three degrees",
			check:  with(over("crossing-angle", "pitch", 45, 135), falling(0)),
			flight: flight{signals: down, rate: 2},
			want:   90,
			at:     90,
		},
		{
			name:   "three crossings: between the first and the last",
			check:  with(over("crossing-angle", "pitch", 0, 180), falling(0)),
			flight: flight{signals: one(stream.Pitch, corners(0, 20, 60, -20, 90, 20, 150, -20)), rate: 6},
			want:   (30 + 120) / 2,
			at:     75,
		},
		{
			name:   "outside the span",
			check:  with(over("crossing-angle", "pitch", 100, 180), falling(0)),
			flight: flight{signals: down},
			reason: "pitch did not pass 0",
		},
		{
			name:   "the other way",
			check:  with(over("crossing-angle", "pitch", 45, 135), rising),
			flight: flight{signals: down},
			reason: "pitch did not pass 0",
		},
		{
			name:   "span not reached",
			check:  with(over("crossing-angle", "pitch", 45, 135), falling(0)),
			flight: flight{signals: down, end: 30},
			reason: "did not reach 45°",
		},
		{name: "no channel", check: with(over("crossing-angle", "pitch", 45, 135), falling(0)), reason: "no pitch"},
	} {
		r.run(t)
	}
}
