package kinds_test

import (
	"testing"

	"halfturn/coach/check"
	"halfturn/stream"
)

func TestReversal(t *testing.T) {
	pitch := func(at ...float64) flight { return flight{signals: one(stream.Pitch, corners(at...))} }
	for _, r := range []row{
		{
			name:   "only rises",
			check:  over("reversal", "pitch", 0, 180),
			flight: pitch(0, 0, 60, 5, 180, 30),
			want:   0,
			at:     0,
		},
		{name: "level", check: over("reversal", "pitch", 0, 180), flight: pitch(0, 12, 180, 12), want: 0, at: 0},
		{
			name:   "sinks by 3° and rises again",
			check:  over("reversal", "pitch", 0, 180),
			flight: pitch(0, 0, 60, 20, 70, 20, 80, 17, 100, 17, 180, 25),
			want:   3,
			at:     80,
			atNear: 3,
		},
		{
			name:   "the largest, not the sum",
			check:  over("reversal", "pitch", 0, 180),
			flight: pitch(0, 10, 20, 10, 30, 8, 50, 8, 60, 15, 80, 15, 90, 11, 180, 11),
			want:   4,
			at:     90,
			atNear: 3,
		},
		{
			name:   "outside the span",
			check:  over("reversal", "pitch", 90, 180),
			flight: pitch(0, 20, 60, 5, 80, 5, 180, 5),
			want:   0,
			at:     90,
		},
		{
			name:   "not reached",
			check:  over("reversal", "pitch", 90, 180),
			flight: flight{signals: one(stream.Pitch, constant(1)), end: 60},
			reason: "did not reach 90°",
		},
		{
			name:   "what should only fall rises by 4° on the way",
			check:  with(over("reversal", "pitch", 0, 180), func(k *check.Spec) { k.Falling = true }),
			flight: pitch(0, 30, 60, 20, 70, 20, 80, 24, 100, 24, 180, 5),
			want:   4,
			at:     80,
			atNear: 3,
		},
		{
			name:   "only falls",
			check:  with(over("reversal", "pitch", 0, 180), func(k *check.Spec) { k.Falling = true }),
			flight: pitch(0, 30, 180, 5),
			at:     0,
		},
		{name: "no channel", check: over("reversal", "pitch", 90, 180), reason: "no pitch"},
	} {
		r.run(t)
	}
}
