package kinds_test

import (
	"testing"

	"halfturn/stream"
)

func TestUpDown(t *testing.T) {
	pitch := func(at ...float64) flight { return flight{signals: one(stream.Pitch, corners(at...))} }
	for _, r := range []row{
		{
			name:   "as deep as high, from a nose that stands at 3°",
			check:  over("up-down", "pitch", 0, 180),
			flight: pitch(0, 3, 45, 13, 135, -7, 180, 3),
			want:   1,
			at:     none,
		},
		{
			name:   "the lower half flat",
			check:  over("up-down", "pitch", 0, 180),
			flight: pitch(0, 3, 45, 13, 135, -1, 180, 3),
			want:   0.4,
			at:     none,
		},
		{
			name:   "a dive",
			check:  over("up-down", "pitch", 0, 180),
			flight: pitch(0, 0, 45, 10, 135, -20, 180, 0),
			want:   2,
			at:     none,
		},
		{
			name:   "never below the entry",
			check:  over("up-down", "pitch", 0, 180),
			flight: pitch(0, 3, 45, 13, 180, 5),
			at:     none,
		},
		{
			name:   "nothing to compare with",
			check:  over("up-down", "pitch", 0, 180),
			flight: pitch(0, 3, 45, 3.5, 180, -5),
			reason: "hardly moved",
		},
		{name: "no channel", check: over("up-down", "pitch", 0, 180), reason: "no pitch"},
	} {
		r.within = 0.01 // a sample may miss a corner by a little
		r.run(t)
	}
}
