package kinds_test

import (
	"testing"

	"halfturn/coach/check"
	"halfturn/stream"
)

// The bank that is held, however far the turn goes: worked out by hand, as the signals are straight lines at 6° of turn
// a second.
func TestSteady(t *testing.T) {
	spec := &check.Spec{Kind: "steady", Channel: "bank"}
	bank := func(end float64, at ...float64) flight {
		return flight{end: end, signals: one(stream.Bank, corners(at...))}
	}
	for _, r := range []row{
		{
			name:   "30° through 90°",
			check:  spec,
			flight: bank(90, 0, 0, 12, 30, 78, 30, 90, 0),
			want:   29.8, // from 24° of bank to 24: 4.8° of turn of 70.8 at a mean of 27
			at:     45,
		},
		{
			name:   "45° through 180°",
			check:  spec,
			flight: bank(180, 0, 0, 20, 45, 160, 45, 180, 0),
			want:   44.7,
			at:     90,
		},
		{
			name:   "it drifts from 30° to 36°",
			check:  spec,
			flight: bank(120, 0, 30, 120, 36),
			want:   33,
			at:     60,
		},
		{
			name:   "over as soon as it is set",
			check:  spec,
			flight: bank(30, 0, 0, 15, 45, 30, 0),
			reason: "too short",
		},
		{name: "no channel", check: spec, reason: "no bank"},
	} {
		r.within = 0.15
		r.run(t)
	}
}
