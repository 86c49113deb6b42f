package booktest

import (
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach/ids"
	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
	"halfturn/coach/who"
)

// A session that is forgotten is gone with its remarks; who flew it stays known, as spelled.
func testForget(t *testing.T, open Opener) {
	b := open(t)
	stays := entered(t, b, Began.Add(-time.Hour), "Bo Example")
	was := Whole(t, b)
	id := entered(t, b, Began, "Ada Example")
	must(t, b.Keep(id, twoLegs(id)),
		b.Act(id, &logbook.Standing{Student: logbook.Student{Name: "Ada Example"},
			Remarks: []logbook.Remark{{ID: 1, Words: "late", At: Began}}}),
		b.Forget(id))
	same(t, b, was)
	if list, err := b.List(t.Context(), logbook.Filter{Text: "late"}); err != nil || list.Total != 0 {
		t.Errorf("%+v, %v", list, err)
	}
	if s, err := b.Student(t.Context(), "ADA  EXAMPLE"); err != nil || s.Name != "Ada Example" {
		t.Errorf("%+v, %v", s, err)
	}
	if spans, err := b.Spans(t.Context()); err != nil || len(spans) != 1 || spans[0].ID != stays ||
		!spans[0].Ended.IsZero() {
		t.Errorf("%+v, %v", spans, err)
	}
}

// A session that is taken back leaves nothing, also no student who flew no other.
func testUndo(t *testing.T, open Opener) {
	b := open(t)
	entered(t, b, Began.Add(-time.Hour), "Bo Example")
	was := Whole(t, b)
	must(t, b.Undo(entered(t, b, Began, "Ada Example")), b.Undo(entered(t, b, Began, "Bo Example")))
	same(t, b, was)
	for name, want := range map[string]string{"Ada Example": "", "Bo Example": "Bo Example"} {
		if s, err := b.Student(t.Context(), name); err != nil || s.Name != want {
			t.Errorf("%s: %+v, %v", name, s, err)
		}
	}
}

func testStations(t *testing.T, open Opener) {
	b := open(t)
	want := map[string]maneuver.Choice{}
	for _, c := range []maneuver.Choice{{Maneuver: "wing-over"}, {Maneuver: "lazy-eight", Standard: "check",
		Aircraft: "trainer"}} {
		for _, station := range []string{"seat", "seat " + c.Maneuver} {
			must(t, b.RememberStation(who.Owner(), station, c, Began))
		}
		want["seat"], want["seat "+c.Maneuver] = c, c
	}
	all, err := b.Stations(t.Context())
	if d := cmp.Diff(want, all); d != "" || err != nil {
		t.Errorf("%v %s", err, d)
	}
}

func testNear(t *testing.T, open Opener) {
	b := open(t)
	for day := range 9 {
		entered(t, b, Began.AddDate(0, 0, day), "")
	}
	last := entered(t, b, Began.AddDate(0, 0, 9), "")
	if id, err := b.Last(t.Context()); id != last || err != nil {
		t.Errorf("%s, %v", id, err)
	}
	for _, like := range []string{last[:len(last)-1], last[4:], strings.ToLower(last)} {
		near, err := b.Near(t.Context(), like)
		if err != nil || len(near) != 5 || near[0] != last {
			t.Errorf("near %s: %v, %v", like, near, err)
		}
	}
}

// A student is one, however the name is written, and keeps the id.
func testStudents(t *testing.T, open Opener) {
	b := open(t)
	first := entered(t, b, Began, "Ada Example")
	e, err := b.Entry(t.Context(), first)
	must(t, err)
	for i, name := range []string{"Ada  Example", "ada\u00a0example", "ADA EXAMPLE"} {
		id := entered(t, b, Began.Add(time.Duration(i+1)*time.Hour), "")
		must(t, b.Act(id, &logbook.Standing{Student: logbook.Student{ID: ids.New(Began), Name: name}}))
		again, err := b.Entry(t.Context(), id)
		must(t, err)
		if again.Student != e.Student {
			t.Errorf("%q is %+v, want %+v", name, again.Student, e.Student)
		}
	}
	later := logbook.Student{ID: ids.New(Began), Name: "Bo Example"}
	must(t, b.Act(entered(t, b, Began.Add(9*time.Hour), ""), &logbook.Standing{Student: later}))
	if s, err := b.Student(t.Context(), "bo example"); s != later || err != nil {
		t.Errorf("%+v, %v", s, err)
	}
	for limit, want := range map[int][]string{0: {"Bo Example", "Ada Example"}, 1: {"Bo Example"}} {
		list, err := b.Students(t.Context(), limit)
		if d := cmp.Diff(want, list); d != "" || err != nil {
			t.Errorf("%v %s", err, d)
		}
	}
}
