package booktest

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/logbook"
)

// A leg is held against the student's best to the same side in the same aircraft, and against demonstrations: the best
// legs of
// others whose sessions are kept.
func testModels(t *testing.T, open Opener) {
	b := open(t)
	n := 0
	fly := func(student, aircraft string, keep bool, legs ...coach.Leg) string {
		n++
		at := Began.Add(time.Duration(n) * time.Hour)
		id := entered(t, b, at, student)
		r := Report(id, legs...)
		r.Files[0].Stations[0].Series[0].Aircraft = aircraft
		must(t, b.Keep(id, r), b.End(id, at.Add(time.Minute)), b.Act(id,
			&logbook.Standing{Student: logbook.Student{Name: student}, Keep: keep}))
		return id
	}
	leg := func(n int, outcome, direction string, score float64) coach.Leg {
		l := Flight(n, outcome, coach.Met, coach.Good, score, "")
		l.Direction = direction
		return l
	}
	fly("Ada", "trainer", false, leg(1, coach.Finished, "right", 95), leg(2, coach.Finished, "left", 99))
	equal := fly("Ada", "trainer", false, leg(1, coach.Finished, "left", 70), leg(2, coach.Finished, "right", 95))
	fly("Ada", "jet", true, leg(1, coach.Finished, "right", 100)) // her own is no demonstration
	fly("Ada", "trainer", false, leg(1, coach.BrokenOff, "right", 98))
	other := fly("Instructor", "jet", true, leg(1, coach.Finished, "right", 90))
	shown := fly("", "trainer", true, leg(1, coach.Finished, "right", 80), leg(2, coach.Finished, "right", 92), leg(3,
		coach.Finished, "left", 99))
	fly("Bo", "trainer", false, leg(1, coach.Finished, "right", 100))
	now := fly("Ada", "trainer", false, leg(1, coach.Finished, "left", 60), leg(2, coach.Finished, "right", 97))

	at := func(id string, leg, hour int, student string, score float64) logbook.Model {
		return logbook.Model{Session: id, Leg: leg, Began: logbook.Zulu(Began.Add(time.Duration(hour) * time.Hour)),
			Student: student, Score: score, Grade: coach.Good}
	}
	best := at(equal, 2, 2, "Ada", 95)
	want := &logbook.Models{Version: 1, Best: &best, Kept: []logbook.Model{at(shown, 2, 6, "", 92),
		at(other, 1, 5, "Instructor", 90)}}
	got, err := b.Models(t.Context(), now, 2)
	must(t, err)
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	for what, leg := range map[string]int{"the other side has another": 1, "no leg": 9} {
		got, err := b.Models(t.Context(), now, leg)
		must(t, err)
		if leg == 9 && (got.Best != nil || len(got.Kept) > 0) || leg == 1 && (got.Best == nil || got.Best.Score != 99) {
			t.Errorf("%s: %+v", what, got)
		}
	}
	modelsStand(t, b, now, equal, shown)
	if got, err := b.Models(t.Context(), shown, 1); err != nil || got.Best != nil {
		t.Errorf("who is not named has %+v, %v", got, err)
	}
	if _, err := b.Models(t.Context(), "2030-01-01T00-00-00Z_none", 1); err == nil {
		t.Error("a session that is not there has models")
	}
}

// modelsStand: once verdicts are overruled, legs are compared by their grades as they stand, and as before when that is
// taken back.
func modelsStand(t *testing.T, b logbook.Book, now, equal, shown string) {
	t.Helper()
	overrule := func(id, student string, keep bool, all ...logbook.Overrule) {
		s := logbook.Standing{Student: logbook.Student{Name: student}, Keep: keep, Judging: logbook.NewJudging()}
		s.Judging.Overruled = append(s.Judging.Overruled, all...)
		must(t, b.Act(id, &s))
	}
	stands := func(what, best string, score float64, leg int, grade string) {
		got, err := b.Models(t.Context(), now, 2)
		must(t, err)
		if got.Best == nil || got.Best.Session == equal != (best == equal) || got.Best.Score != score {
			t.Errorf("%s: the best is %+v; must be of %s with %g", what, got.Best, best, score)
		}
		if k := got.Kept; len(k) != 2 || k[0].Session != shown || k[0].Leg != leg || k[0].Grade != grade {
			t.Errorf("%s: kept are %+v; must begin with leg %d, %s", what, k, leg, grade)
		}
	}
	worse := logbook.Overrule{Leg: 2, Verdict: coach.Missed, By: "B", Reason: "a gust"}
	overrule(equal, "Ada", false, worse)
	overrule(shown, "", true, worse)
	stands("the best is overruled", "the one before", 95, 1, coach.Good)
	overrule(equal, "Ada", false)
	overrule(shown, "", true, worse, logbook.Overrule{Leg: 1, Verdict: coach.Missed, By: "B", Reason: "late"})
	stands("both legs of the demonstration are", equal, 95, 1, coach.Fair)
	overrule(shown, "", true)
	stands("all is taken back", equal, 95, 2, coach.Good)
}
