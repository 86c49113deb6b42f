package booktest

import (
	"errors"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/logbook"
)

// Of two nodes that have a session one after the other the second is right: what the first one enters after that is
// refused and changes nothing, whatever it is, also where the second one has only begun. What nobody flies has no
// fence.
func testFence(t *testing.T, open Opener) {
	b := open(t)
	fences, ok := b.(logbook.Fencer)
	if !ok {
		t.Fatal("the book knows no fences")
	}
	id := entered(t, b, Began, "Ada Example")
	entry := Entry(id, Began, "Ada Example")
	ended := Began.Add(time.Hour)
	report := func(score float64) *logbook.Stored {
		leg := Flight(1, coach.Finished, coach.Near, coach.Good, score, "")
		return &logbook.Stored{Entry: *entry, Report: Report(id, leg)}
	}
	changes := map[string]func(in logbook.Changes, score float64) error{
		"begin": func(in logbook.Changes, _ float64) error { return in.Begin(entry) },
		"keep":  func(in logbook.Changes, score float64) error { return in.Keep(id, report(score).Report) },
		"end":   func(in logbook.Changes, score float64) error { return in.End(id, ended) },
		"regrade": func(in logbook.Changes, score float64) error {
			return in.Regrade(id, &logbook.Grading{At: ended, Report: report(score).Report})
		},
		"act": func(in logbook.Changes, score float64) error {
			return in.Act(id, &logbook.Standing{Keep: true, Judging: logbook.NewJudging()})
		},
		"take": func(in logbook.Changes, score float64) error {
			_, err := in.Take(report(score))
			return err
		},
		"undo":   func(in logbook.Changes, _ float64) error { return in.Undo(id) },
		"forget": func(in logbook.Changes, _ float64) error { return in.Forget(id) },
	}
	must(t, fences.Under(7).Begin(entry), fences.Under(7).Keep(id, report(70).Report), fences.Under(9).Begin(entry))
	was := Whole(t, b)
	for name, change := range changes {
		var fenced *logbook.Fenced
		if err := change(fences.Under(7), 10); !errors.As(err, &fenced) || fenced.ID != id || fenced.Is != 9 {
			t.Errorf("%s by the former holder: %v", name, err)
		}
		if d := cmp.Diff(was, Whole(t, b)); d != "" {
			t.Fatalf("%s by the former holder changed (-was +is):\n%s", name, d)
		}
	}
	for i, name := range []string{"begin", "keep", "end", "act", "take", "regrade", "forget"} {
		must(t, changes[name](fences.Under(uint64(9+i)), 80), changes[name](fences.Under(uint64(9+i)), 80))
	}
	other := entered(t, b, ended, "")
	must(t, fences.Under(1).Keep(other, Report(other)), b.Keep(other, Report(other)), b.End(other, ended))
}
