package follow_test

import (
	"math"
	"testing"

	"halfturn/coach"
	"halfturn/coach/follow"
	"halfturn/coach/judge"
	"halfturn/stream"
	"halfturn/stream/trainer"
)

// sampled flies a wing-over and coaches every n-th of its 60 samples a second.
func sampled(t *testing.T, every int) []*coach.Leg {
	t.Helper()
	pilot, err := rehearsed.NewSequence(trainer.Flight{Maneuver: "wing-over", Direction: "both",
		Airplane: "turboprop-trainer", Seed: 4})
	if err != nil {
		t.Fatal(err)
	}
	c := follow.New(judge.Options{Plan: planOf(t, "wing-over", "turboprop-trainer")})
	var s stream.Sample
	var legs []*coach.Leg
	for n := 0; pilot.Step(1.0/60, &s); n++ {
		if n%every != 0 {
			continue
		}
		c.Step(&s)
		for _, e := range c.Take() {
			if l, ok := e.(*coach.Leg); ok {
				legs = append(legs, l)
			}
		}
	}
	return legs
}

// TestCoarseStreams: at five samples a second the same legs are found, the numbers are those
// of the fine stream within what they say of themselves, and fine streams say nothing of it.
func TestCoarseStreams(t *testing.T) {
	fine, coarse := sampled(t, 1), sampled(t, 12)
	if len(fine) != 2 || len(coarse) != 2 {
		t.Fatalf("%d and %d legs", len(fine), len(coarse))
	}
	uncertain := 0
	for i := range fine {
		for j, k := range fine[i].Checks {
			m := coarse[i].Checks[j]
			if k.Uncertainty != nil || k.Doubt != "" {
				t.Errorf("%s of a fine stream is uncertain", k.ID)
			}
			if m.Uncertainty == nil || k.Value == nil || m.Value == nil {
				continue
			}
			uncertain++
			if off := math.Abs(*m.Value - *k.Value); off > *m.Uncertainty {
				t.Errorf("%s: %g at 5 samples a second, %g at 60, said to be within %g",
					k.ID, *m.Value, *k.Value, *m.Uncertainty)
			}
			if m.Verdict != k.Verdict && m.Doubt == "" {
				t.Errorf("%s: %s at 5 samples a second, %s at 60, and no word of doubt", k.ID, m.Verdict, k.Verdict)
			}
		}
		for j, p := range fine[i].Points {
			q := coarse[i].Points[j]
			for _, c := range []string{"pitch", "bank", "airspeed"} {
				if off := math.Abs(p.Values[c] - q.Values[c]); off > 0.6 {
					t.Errorf("%s at %g° is off by %.2f at 5 samples a second", c, p.Turn, off)
				}
			}
		}
	}
	if uncertain < 10 {
		t.Errorf("only %d checks are given an uncertainty", uncertain)
	}
}

// TestHalfTheRate: half the sample rate moves no score by more than two points.
func TestHalfTheRate(t *testing.T) {
	full, half := sampled(t, 1), sampled(t, 2)
	if len(full) != 2 || len(half) != 2 {
		t.Fatalf("%d and %d legs, want 2", len(full), len(half))
	}
	for i := range full {
		if off := math.Abs(full[i].Score - half[i].Score); off > 2 {
			t.Errorf("leg %d scores %.1f at 60 samples a second, %.1f at 30", i+1, full[i].Score, half[i].Score)
		}
	}
}
