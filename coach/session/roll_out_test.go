package session_test

import (
	"math"
	"testing"
)

// Where the pilot of the recording began to roll out, as the simulation itself recorded it: the
// last whole degree of turn at which the bank was within a twentieth of its steepest.
var rollOuts = map[string][]float64{
	"wo-jet-entry-banked-1":          {102},
	"wo-single-b-rolled-out-early-1": {103},
	"wo-turboprop-a-rushed-1":        {103},
	"wo-turboprop-b-good-1":          {108, 104},
}

// The change point found in the stream lies within 5° of it, with a person's noise on the stick.
func TestRollOutOnset(t *testing.T) {
	for name, want := range rollOuts {
		legs := legsOf(grade(t, name, loadTruth(t)[name], nil))
		if len(legs) < len(want) {
			t.Fatalf("%s: %d legs", name, len(legs))
		}
		for i, at := range want {
			found := false
			for _, k := range legs[i].Checks {
				if k.ID != "roll-out-start" || k.Value == nil {
					continue
				}
				found = true
				if math.Abs(*k.Value-at) > 5 {
					t.Errorf("%s leg %d: %.0f°, want %g° within 5°", name, i+1, *k.Value, at)
				}
			}
			if !found {
				t.Errorf("%s leg %d: not measured", name, i+1)
			}
		}
	}
}
