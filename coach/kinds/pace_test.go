package kinds_test

import (
	"testing"

	"halfturn/coach/check"
)

func TestPace(t *testing.T) {
	k := &check.Spec{Kind: "pace"}
	for _, r := range []row{ // 180° take 30 s
		{name: "as the reference path", check: k, flight: flight{facts: check.Facts{Duration: 30}}, want: 1, at: none},
		{name: "slow", check: k, flight: flight{facts: check.Facts{Duration: 20}}, want: 1.5, at: none},
		{name: "rushed", check: k, flight: flight{facts: check.Facts{Duration: 40}, end: 120}, want: 0.5, at: none},
		{
			name:   "no reference path",
			check:  k,
			flight: flight{facts: check.Facts{Duration: none}},
			reason: "aircraft card",
		},
		{name: "none either", check: k, reason: "aircraft card"},
		{name: "no exit", check: k, flight: flight{facts: check.Facts{Duration: 30}, noExit: true}, reason: "no exit"},
	} {
		r.run(t)
	}
}
