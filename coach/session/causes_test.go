package session_test

import (
	"slices"
	"strings"
	"testing"

	"halfturn/coach"
)

// intended is the cause of each flawed recording's first leg: the flaw that its pilot was asked to fly.
var intended = map[string]string{
	"wo-turboprop-a-rushed-1":                   "rushed",
	"wo-turboprop-a-abandoned-1":                "abandoned",
	"wo-single-b-rolled-out-early-1":            "rolled-out-early",
	"wo-jet-entry-banked-1":                     "entry-banked",
	"cc-single-a-bank-grows-1":                  "bank-grows",
	"cc-single-a-nose-still-rising-1":           "nose-still-rising",
	"tc-turboprop-a-roll-out-quick-1":           "roll-out-quick",
	"chandelle-traditional-turboprop-a-stalled": "nose-too-high",
}

// TestRecordedCauses: the intended flaw is the first cause or the second, with evidence and
// advice; a good recording has none above minor.
func TestRecordedCauses(t *testing.T) {
	for name, w := range loadTruth(t) {
		t.Run(name, func(t *testing.T) {
			legs := legsOf(grade(t, name, w, nil))
			if len(legs) != len(w.Legs) {
				t.Fatalf("%d legs, want %d", len(legs), len(w.Legs))
			}
			if want := intended[name]; want != "" {
				found := false
				for i, c := range legs[0].Causes {
					found = found || i < 2 && c.ID == want && !c.Evidence.IsZero() && !c.Advice.IsZero() && c.Share > 0
				}
				if !found {
					t.Errorf("%s is not among the first two: %+v", want, legs[0].Causes)
				}
			}
			for i := range legs {
				if good[name] {
					noneAboveMinor(t, &legs[i])
				}
			}
		})
	}
}

// TestRecordedStall: a wing that stalled is named beside what led to it.
func TestRecordedStall(t *testing.T) {
	const name = "chandelle-traditional-turboprop-a-stalled"
	legs := legsOf(grade(t, name, loadTruth(t)[name], nil))
	var ids []string
	for _, c := range legs[0].Causes {
		ids = append(ids, c.ID)
	}
	if !slices.Contains(ids, "stalled") {
		t.Errorf("stalled is not among %v", ids)
	}
}

func noneAboveMinor(t *testing.T, l *coach.Leg) {
	t.Helper()
	for _, c := range l.Causes {
		if !c.Minor {
			t.Errorf("leg %d of a good flight: %s: %s", l.Number, c.ID, c.Evidence)
		}
	}
}

// TestSpeedInTheHeight: where the speed lost is in the height gained (v²/2 + g·h: flight mechanics), power is not to
// blame. A chandelle ends high and slow; judged as a wing-over nose and bank are to blame.
func TestSpeedInTheHeight(t *testing.T) {
	for name, w := range loadTruth(t) {
		if !strings.HasPrefix(w.Maneuver, "chandelle") {
			continue
		}
		w.Maneuver = "wing-over"
		legs := legsOf(grade(t, name, w, nil))
		if len(legs) != len(w.Legs) {
			t.Errorf("%s: %d legs, want %d", name, len(legs), len(w.Legs))
		}
		for _, l := range legs {
			if len(l.Causes) == 0 && l.Outcome == coach.Finished {
				t.Errorf("%s: nothing is said of it", name)
			}
			for _, c := range l.Causes {
				if c.ID == "exit-slow" {
					t.Errorf("%s: %s %s", name, c.Evidence, c.Advice)
				}
			}
		}
	}
}
