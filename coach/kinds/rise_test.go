package kinds_test

import (
	"testing"

	"halfturn/stream"
)

func TestRise(t *testing.T) {
	pitch := func(at ...float64) flight { return flight{signals: one(stream.Pitch, corners(at...))} }
	for _, r := range []row{
		{name: "held", check: over("rise", "pitch", 95, 176), flight: pitch(0, 0, 90, 20, 180, 20), want: 0, at: 95},
		{name: "sinks", check: over("rise", "pitch", 95, 176), flight: pitch(0, 0, 90, 20, 180, 10), want: 0, at: 95},
		{
			name:   "raised by 3°",
			check:  over("rise", "pitch", 95, 176),
			flight: pitch(0, 0, 80, 15, 110, 15, 125, 18, 180, 18),
			want:   3,
			at:     125,
			atNear: 3,
		},
		{
			name:   "above the start, not above the lowest",
			check:  over("rise", "pitch", 95, 176),
			flight: pitch(0, 15, 100, 15, 120, 10, 130, 10, 150, 17, 180, 17),
			want:   2,
			at:     150,
			atNear: 3,
		},
		{name: "no channel", check: over("rise", "pitch", 90, 180), reason: "no pitch"},
	} {
		r.run(t)
	}
}
