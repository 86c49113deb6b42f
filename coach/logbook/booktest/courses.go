package booktest

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach/logbook"
	"halfturn/coach/who"
)

// The course of a student is the one that was chosen last, however the name is written, and survives a rebuild.
func testCourses(t *testing.T, open Opener) {
	b := open(t)
	want := map[string]logbook.CourseChoice{"Bo Example": {}}
	for _, c := range []logbook.CourseChoice{{Course: "first"}, {Course: "weakness", Cause: "overbanked",
		Maneuver: "wing-over"}} {
		for _, student := range []string{"Ada Example", c.Course} {
			must(t, b.RememberCourse(who.Owner(), student, c, Began))
		}
		want["ADA example"], want[c.Course] = c, c
	}
	if _, err := b.Rebuild(t.Context(), func(func(*logbook.Stored) bool) {}, nil); err != nil {
		t.Error(err)
	}
	for student, c := range want {
		if is, err := b.CourseOf(t.Context(), student); is != c || err != nil {
			t.Errorf("%s flies %+v, %v; must be %+v", student, is, err, c)
		}
	}
}

// What was ruled on steps comes with the gradings.
func testRulings(t *testing.T, open Opener) {
	b := open(t)
	id := entered(t, b, Began, "Ada Example")
	must(t, b.Keep(id, twoLegs(id)))
	s := logbook.Standing{Judging: logbook.NewJudging(), Remarks: []logbook.Remark{}}
	s.Judging.Rulings = []logbook.Ruling{{
		Course: logbook.CourseChoice{Course: "weakness", Cause: "overbanked", Maneuver: "wing-over"}, Step: "part",
		Verdict: logbook.StepPassed, Legs: 2, By: "Cy Example", At: Began, Reason: "seen at another simulator",
	}}
	must(t, b.Act(id, &s))
	all, err := b.Graded(t.Context(), []string{id})
	if err != nil || len(all) != 1 {
		t.Fatalf("%d, %v", len(all), err)
	}
	if d := cmp.Diff(s.Judging, all[0].Judging); d != "" {
		t.Error(d)
	}
}
