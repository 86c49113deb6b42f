package print

import (
	"bytes"
	"testing"

	"halfturn/coach"
	"halfturn/coach/message"
)

// flownOut is a leg with 80° of bank from 60° to 100° of the turn, where at most 70° is allowed, and a bump of 2°
// before.
func flownOut(verdict string) *Leg {
	l := &Leg{
		Leg: coach.Leg{Checks: []coach.Check{{Channel: "bank", Verdict: verdict}}},
		Plan: &message.Chart{Turn: 180, Lanes: []message.Lane{{Channel: "bank", High: 90, Corridor: []message.Corridor{
			{Turn: 0, Low: -5, Aim: 0, High: 70}, {Turn: 180, Low: -5, Aim: 0, High: 70},
		}}}},
	}
	for turn := 0.0; turn <= 180; turn++ {
		bank := 60.0
		if turn >= 60 && turn <= 100 || turn >= 20 && turn <= 22 {
			bank = 80
		}
		l.Trace = append(l.Trace, coach.Trace{Turn: turn, Bank: bank})
	}
	return l
}

func TestExcursions(t *testing.T) {
	l := flownOut(coach.Missed)
	lane := &l.Plan.Lanes[0]
	all := excursions(l, lane)
	if len(all) != 1 || len(all[0]) != 41 || all[0][0] != (outside{60, 80, 70}) {
		t.Errorf("outside %v; must be from 60° to 100°, 10° past the edge", all)
	}
	lane.Corridor[1].Turn = 80 // nothing is planned past it
	if all := excursions(l, lane); len(all) != 1 || len(all[0]) != 21 {
		t.Errorf("outside %v; must end with the corridor", all)
	}
	if all := excursions(l, &message.Lane{Channel: "bank"}); all != nil {
		t.Errorf("outside %v of no corridor", all)
	}
}

// What no check minds is not marked as a fault, whatever the corridor between the posts.
func TestHatchesWhatDecided(t *testing.T) {
	size := map[string]int{}
	for _, verdict := range []string{coach.Met, coach.NotMeasured, coach.Near, coach.Missed} {
		l := flownOut(coach.Met)
		l.Verdict, l.Outcome = coach.Met, coach.Finished
		l.Checks[0].Verdict = verdict
		if got, want := decided(l, "bank"), verdict == coach.Near || verdict == coach.Missed; got != want {
			t.Errorf("%s: decided is %v", verdict, got)
		}
		if decided(l, "pitch") {
			t.Errorf("%s of bank decides the nose", verdict)
		}
		var b bytes.Buffer
		if err := Write(&b, "a4", &Debrief{Legs: []Leg{*l}}); err != nil {
			t.Fatal(err)
		}
		size[verdict] = b.Len()
	}
	if size[coach.Missed] < size[coach.Met]+200 {
		t.Errorf("%d bytes with an excursion that decided, %d without: no hatching",
			size[coach.Missed], size[coach.Met])
	}
}
