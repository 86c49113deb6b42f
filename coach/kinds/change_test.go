package kinds_test

import (
	"testing"

	"halfturn/coach/check"
	"halfturn/stream"
)

func TestChange(t *testing.T) {
	height := &check.Spec{Kind: "change", Channel: "altitude"}
	for _, r := range []row{
		{name: "gain", check: height, flight: flight{signals: one(stream.Altitude, line(5000, 2))}, want: 360, at: 180},
		{
			name:   "loss, only the ends count",
			check:  height,
			flight: flight{signals: one(stream.Altitude, corners(0, 5000, 90, 6000, 180, 4900))},
			want:   -100,
			at:     180,
		},
		{
			name:   "none",
			check:  height,
			flight: flight{signals: one(stream.Altitude, constant(5000)), end: 175},
			want:   0,
			at:     175,
		},
		{
			name:   "no exit",
			check:  height,
			flight: flight{signals: one(stream.Altitude, constant(5000)), noExit: true},
			reason: "no exit",
		},
		{name: "no channel", check: height, reason: "no altitude"},
	} {
		r.run(t)
	}
}
