package kinds_test

import (
	"math"
	"testing"

	"halfturn/coach/check"
	"halfturn/stream"
)

// 1.5 ft a degree are 270 ft in 180°.
func TestGain(t *testing.T) {
	climb := one(stream.Altitude, line(5000, 1.5))
	gain := &check.Spec{Kind: "gain"}
	for _, r := range []row{
		{
			name:   "all that the numbers promise",
			check:  gain,
			flight: flight{signals: climb, facts: check.Facts{Climb: 270}},
			want:   1,
			at:     none,
		},
		{
			name:   "half of it",
			check:  gain,
			flight: flight{signals: climb, facts: check.Facts{Climb: 540}},
			want:   0.5,
			at:     none,
		},
		{
			name:   "height lost",
			check:  gain,
			flight: flight{signals: one(stream.Altitude, line(5000, -0.3)), facts: check.Facts{Climb: 540}},
			want:   -0.1,
			at:     none,
		},
		{
			name:   "no reference path",
			check:  gain,
			flight: flight{signals: climb, facts: check.Facts{Climb: math.NaN()}},
			reason: "no reference path",
		},
		{name: "no exit", check: gain, flight: flight{signals: climb, noExit: true}, reason: "no exit"},
		{name: "no channel", check: gain, flight: flight{facts: check.Facts{Climb: 540}}, reason: "no altitude"},
	} {
		r.run(t)
	}
}
