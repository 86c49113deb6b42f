package kinds_test

import (
	"testing"

	"halfturn/coach/check"
)

func TestSetUp(t *testing.T) {
	known := flight{facts: check.Facts{Setup: map[string]float64{"bank": -3.5, "speed-spread": 0}}}
	for _, r := range []row{
		{name: "mean", check: &check.Spec{Kind: "set-up", Channel: "bank"}, flight: known, want: -3.5, at: none},
		{name: "a mean of 0", check: &check.Spec{Kind: "set-up", Channel: "speed-spread"}, flight: known, at: none},
		{
			name:   "not in the stream",
			check:  &check.Spec{Kind: "set-up", Channel: "ball"},
			flight: known,
			reason: "no ball",
		},
		{name: "no set-up", check: &check.Spec{Kind: "set-up", Channel: "bank"}, reason: "no level flight came before"},
	} {
		r.run(t)
	}
}
