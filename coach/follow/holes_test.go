package follow_test

import (
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/follow"
	"halfturn/coach/judge"
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/trainer"
)

// flyWithHole coaches a wing-over to the right in which the stream loses some seconds, from a turn angle on.
func flyWithHole(t *testing.T, turn, seconds float64) *coach.Leg {
	t.Helper()
	pilot, err := rehearsed.NewSequence(trainer.Flight{Direction: "right", Airplane: "light-single", Seed: 7})
	if err != nil {
		t.Fatal(err)
	}
	c := follow.New(judge.Options{Plan: planOf(t, "wing-over", "light-single")})
	var s stream.Sample
	from := 0.0
	for on := true; on; {
		on = pilot.Step(1.0/60, &s)
		now := s.Value(stream.Time)
		if f := c.Frame(); from == 0 && f.State == "leg" && f.Turn >= turn {
			from = now
		}
		if from == 0 || now-from >= seconds {
			c.Step(&s)
		}
	}
	c.Break(phrase.Plain("the flight is over"))
	for _, e := range c.Take() {
		if l, ok := e.(*coach.Leg); ok {
			return l
		}
	}
	t.Fatal("no leg")
	return nil
}

// TestHoleInTheStream: what lies in a hole is not measured and says why; what does not is.
func TestHoleInTheStream(t *testing.T) {
	lost := func(l *coach.Leg) (ids []string) {
		for _, k := range l.Checks {
			if strings.Contains(k.Reason.String(), "hole") {
				if k.Verdict != coach.NotMeasured || k.Value != nil {
					t.Errorf("%s is in a hole and reads %s", k.ID, k.Verdict)
				}
				ids = append(ids, k.ID)
			}
		}
		return ids
	}
	for _, c := range []struct {
		name          string
		turn, seconds float64
		in, out       []string
	}{
		{"over the top", 85, 1.5, []string{"bank-at-90", "nose-at-90", "steepest-bank", "apex-speed"},
			[]string{"bank-at-45", "bank-at-135", "exit-heading", "coordination", "entry-speed"}},
		{"early", 40, 1.5, []string{"bank-at-45", "highest-nose"}, []string{"bank-at-90", "bank-at-135"}},
		{"a moment lost", 85, 0.2, nil, []string{"bank-at-90", "steepest-bank"}},
	} {
		l := flyWithHole(t, c.turn, c.seconds)
		got := strings.Join(lost(l), " ")
		if l.Outcome != coach.Finished || c.in == nil && got != "" {
			t.Errorf("%s: %s, lost %s", c.name, l.Outcome, got)
		}
		for _, id := range c.in {
			if !strings.Contains(got, id) {
				t.Errorf("%s: %s is measured across the hole", c.name, id)
			}
		}
		for _, id := range c.out {
			if strings.Contains(got, id) {
				t.Errorf("%s: %s is lost to a hole elsewhere", c.name, id)
			}
		}
	}
}

// TestStreamEndsInATurn: of a good leg that the stream leaves at 60° nothing is missed: what the turn had
// not come to is not measured, what it had is.
func TestStreamEndsInATurn(t *testing.T) {
	l := flyWithHole(t, 60, 1000)
	if l.Outcome != coach.BrokenOff || l.Verdict != coach.NotMeasured || !l.Change.IsZero() {
		t.Errorf("%s, %s, to change: %q", l.Outcome, l.Verdict, l.Change)
	}
	read := map[string]string{}
	for _, k := range l.Checks {
		read[k.ID] = k.Verdict
		if k.Verdict == coach.Missed {
			t.Errorf("%s is missed: %+v", k.ID, k)
		}
		if k.Verdict == coach.NotMeasured && k.Reason.IsZero() {
			t.Errorf("%s is not measured without a reason", k.ID)
		}
	}
	for id, want := range map[string]string{"bank-at-45": coach.Met, "entry-speed": coach.Met,
		"coordination": coach.Met,
		"bank-at-90":   coach.NotMeasured, "apex-speed": coach.NotMeasured, "steepest-bank": coach.NotMeasured,
		"exit-heading": coach.NotMeasured} {
		if read[id] != want {
			t.Errorf("%s reads %s, want %s", id, read[id], want)
		}
	}
}

// TestCoarseStreamHasNoHoles: one sample per second all along is coarse, not full of holes.
func TestCoarseStreamHasNoHoles(t *testing.T) {
	pilot, err := rehearsed.NewSequence(trainer.Flight{Direction: "right", Airplane: "light-single", Seed: 7})
	if err != nil {
		t.Fatal(err)
	}
	c := follow.New(judge.Options{Plan: planOf(t, "wing-over", "light-single")})
	var s stream.Sample
	for pilot.Step(1, &s) {
		c.Step(&s)
	}
	c.Break(phrase.Plain("the flight is over"))
	legs := 0
	for _, e := range c.Take() {
		if l, ok := e.(*coach.Leg); ok {
			legs++
			for _, k := range l.Checks {
				if strings.Contains(k.Reason.String(), "hole") {
					t.Errorf("%s: %s", k.ID, k.Reason)
				}
			}
		}
	}
	if legs != 1 {
		t.Errorf("%d legs, want 1", legs)
	}
}
