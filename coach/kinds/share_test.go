package kinds_test

import (
	"testing"

	"halfturn/coach/check"
	"halfturn/stream"
)

func TestShare(t *testing.T) {
	quarter := func(k *check.Spec) { k.Within = 0.25 }
	ball := func(at ...float64) flight { return flight{signals: one(stream.Ball, corners(at...))} }
	for _, r := range []row{
		{
			name:   "all",
			check:  with(over("share", "ball", 0, 180), quarter),
			flight: ball(0, 0.2, 180, 0.2),
			want:   1,
			at:     0,
		},
		{
			name:   "at the edge",
			check:  with(over("share", "ball", 0, 180), quarter),
			flight: ball(0, -0.25, 180, -0.25),
			want:   1,
			at:     0,
		},
		{
			name:   "none",
			check:  with(over("share", "ball", 0, 180), quarter),
			flight: ball(0, -0.6, 180, -0.6),
			want:   0,
			at:     0,
		},
		{
			name:   "half",
			check:  with(over("share", "ball", 0, 180), quarter),
			flight: ball(0, 0, 90, 0, 90.001, 1, 180, 1),
			want:   0.5,
			within: 0.001,
			at:     90,
		},
		{
			name:   "a third, worst at 120°",
			check:  with(over("share", "ball", 0, 180), quarter),
			flight: ball(0, 0.3, 60, 0.3, 120, -0.9, 150, 0, 180, 0),
			want:   (12.5*2 + 25.0/3 + 30) / 180,
			within: 0.002,
			at:     120,
		},
		{name: "no channel", check: with(over("share", "ball", 0, 180), quarter), reason: "no ball"},
	} {
		r.run(t)
	}
}
