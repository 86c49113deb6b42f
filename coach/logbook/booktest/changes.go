package booktest

import (
	"context"
	"errors"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/ids"
	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
)

// Everything is what a book answers of all its sessions.
type Everything struct {
	Sessions []logbook.SessionRow
	Details  []*logbook.SessionDetail
	Reports  []*debrief.Report
}

// An Asked is asked for everything: a book, or what stands before one.
type Asked interface {
	List(ctx context.Context, f logbook.Filter) (*logbook.SessionList, error)
	Session(ctx context.Context, id string) (*logbook.SessionDetail, error)
	Report(ctx context.Context, id string, n int) (*debrief.Report, error)
}

// Whole asks for everything.
func Whole(t testing.TB, b Asked) (all Everything) {
	t.Helper()
	list, err := b.List(t.Context(), logbook.Filter{})
	must(t, err)
	all.Sessions = list.Sessions
	for _, s := range list.Sessions {
		d, err := b.Session(t.Context(), s.ID)
		must(t, err)
		r, err := b.Report(t.Context(), s.ID, 1)
		must(t, err)
		all.Details, all.Reports = append(all.Details, d), append(all.Reports, r)
	}
	return all
}

// same fails when a book answers otherwise than it did.
func same(t *testing.T, b logbook.Book, was Everything) {
	t.Helper()
	if d := cmp.Diff(was, Whole(t, b)); d != "" {
		t.Errorf("(-was +is):\n%s", d)
	}
}

func twoLegs(id string) *debrief.Report {
	return Report(id, Flight(1, coach.Finished, coach.Met, coach.Good, 90, "More bank"),
		Flight(2, coach.BrokenOff, coach.Missed, coach.Unable, 40, "More bank"))
}

// A session that begins again goes on: nothing of it is lost, and it is not over any more.
func testBeginAgain(t *testing.T, open Opener) {
	b := open(t)
	const id = "2031-05-04T09-00-07Z_seat"
	e := Entry(id, Began, "Ada Example")
	must(t, b.Begin(e), b.Keep(id, twoLegs(id)), b.End(id, Began.Add(time.Hour)))
	again := *e
	again.Began, again.Student, again.Station = Began.Add(time.Minute), logbook.Student{}, "seat 2"
	must(t, b.Begin(&again))
	d, err := b.Session(t.Context(), id)
	must(t, err)
	if d.Began != logbook.Zulu(Began) || d.Ended != "" || d.Student != "Ada Example" || d.Station != "seat 2" ||
		d.Legs != 2 {
		t.Errorf("%+v", d)
	}
	is, err := b.Entry(t.Context(), id)
	must(t, err)
	if is.Key != e.Key || is.Student.ID == "" || !ids.Valid(is.Student.ID) {
		t.Errorf("%+v", is)
	}
	if n, err := b.Legs(t.Context(), id); n != 2 || err != nil {
		t.Errorf("%d legs, %v", n, err)
	}
}

// A session that is kept after every leg is kept once.
func testKeepAgain(t *testing.T, open Opener) {
	b := open(t)
	id := entered(t, b, Began, "")
	one := Flight(1, coach.Finished, coach.Met, coach.Good, 90, "More bank")
	for range 2 {
		must(t, b.Keep(id, Report(id, one)), b.Keep(id, twoLegs(id)))
	}
	is := Whole(t, b)
	if n := len(is.Reports[0].Files[0].Stations[0].Series[0].Legs); n != 2 || is.Sessions[0].Legs != 2 {
		t.Errorf("%d legs, %+v", n, is.Sessions[0])
	}
	must(t, b.Keep(id, Report(id, one))) // fewer than before
	if n, err := b.Legs(t.Context(), id); n != 1 || err != nil {
		t.Errorf("%d legs are left, %v", n, err)
	}
}

// Of a session that is not there every change and every question says so.
func testNotThere(t *testing.T, open Opener) {
	b := open(t)
	const id = "nobody"
	_, session := b.Session(t.Context(), id)
	_, report := b.Report(t.Context(), id, 1)
	_, entry := b.Entry(t.Context(), id)
	_, legs := b.Legs(t.Context(), id)
	_, models := b.Models(t.Context(), id, 1)
	for what, err := range map[string]error{
		"keep":    b.Keep(id, Report(id)),
		"end":     b.End(id, Began),
		"act":     b.Act(id, &logbook.Standing{}),
		"regrade": b.Regrade(id, &logbook.Grading{Report: Report(id)}),
		"session": session,
		"report":  report,
		"entry":   entry,
		"legs":    legs,
		"models":  models,
	} {
		var none *logbook.NotFound
		if !errors.As(err, &none) || none.ID != id {
			t.Errorf("%s: %v", what, err)
		}
	}
	must(t, b.Forget(id), b.Undo(id))
	var refused *logbook.Refused
	if _, err := b.Last(t.Context()); !errors.As(err, &refused) {
		t.Errorf("the last of none: %v", err)
	}
	there := entered(t, b, Began, "")
	if _, err := b.Report(t.Context(), there, 2); !errors.As(err, &refused) {
		t.Errorf("a grading that is not there: %v", err)
	}
}

// How a session stands is what it says, whatever it said before.
func testActs(t *testing.T, open Opener) {
	b := open(t)
	id := entered(t, b, Began, "Ada Example")
	remark := func(n int, words string, at *float64) logbook.Remark {
		return logbook.Remark{ID: n, Leg: n, Time: at, By: "instructor", Words: words,
			At: Began.Add(time.Duration(n) * time.Minute)}
	}
	ada, bo := logbook.Student{Name: "Ada Example"}, logbook.Student{Name: "Bo Example"}
	for _, s := range []logbook.Standing{
		{Student: ada, Remarks: []logbook.Remark{remark(1, "one", nil)}},
		{Student: ada, Remarks: []logbook.Remark{remark(1, "one", nil), remark(2, "two", p(12.5))}},
		{Student: bo, Keep: true, Remarks: []logbook.Remark{remark(1, "one", nil), remark(2, "two", p(12.5))}},
		{Student: bo, Remarks: []logbook.Remark{remark(1, "another", nil), remark(2, "two", p(12.5)), remark(4, "four",
			nil)}},
		{Remarks: []logbook.Remark{}},
	} {
		for range 2 {
			must(t, b.Act(id, &s))
			d, err := b.Session(t.Context(), id)
			must(t, err)
			if d.Student != s.Student.Name || d.Keep != s.Keep || d.Remarks != len(s.Remarks) {
				t.Errorf("%+v, want %+v", d, s)
			}
			if diff := cmp.Diff(s.Remarks, d.Said); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		}
	}
	if list, err := b.List(t.Context(), logbook.Filter{Text: "two"}); err != nil || list.Total != 0 {
		t.Errorf("a remark that is gone is found: %+v, %v", list, err)
	}
}

// Other gradings stand beside the first, and change nothing that is read of that.
func testRegrade(t *testing.T, open Opener) {
	b := open(t)
	id := entered(t, b, Began, "")
	must(t, b.Keep(id, twoLegs(id)))
	was := Whole(t, b)
	g := &logbook.Grading{
		At:          Began.Add(time.Hour),
		Version:     "1.3",
		Maneuver:    "wing-over",
		Standard:    "check",
		Aircraft:    "trainer",
		Cards:       Cards,
		Report:      Report(id, Flight(1, coach.Finished, coach.Near, coach.Fair, 70, "")),
		Differences: []phrase.Phrase{phrase.Plain("leg 1 is near")},
	}
	must(t, b.Regrade(id, g))
	is := Whole(t, b)
	want := logbook.Regrade{
		At:          logbook.Zulu(g.At),
		Server:      "1.3",
		Maneuver:    "wing-over",
		Standard:    "check",
		Aircraft:    "trainer",
		Score:       p(70),
		Grade:       coach.Fair,
		Differences: g.Differences,
	}
	if d := cmp.Diff([]logbook.Regrade{want}, is.Details[0].Regrades); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	is.Details[0].Regrades = []logbook.Regrade{}
	if d := cmp.Diff(was, is); d != "" {
		t.Errorf("(-was +is):\n%s", d)
	}
	r, err := b.Report(t.Context(), id, 2)
	must(t, err)
	if got := r.Files[0].Stations[0].Series[0].Legs; len(got) != 1 || got[0].Score != 70 {
		t.Errorf("%+v", got)
	}
}

// stored is a session as its folder has it.
func stored(id string, began time.Time) *logbook.Stored {
	e := Entry(id, began, "Ada Example")
	e.Ended = began.Add(time.Hour)
	return &logbook.Stored{
		Entry: *e,
		Standing: logbook.Standing{Student: e.Student, Keep: true,
			Remarks: []logbook.Remark{{ID: 1, Words: "late", At: began}}},
		Report:   twoLegs(id),
		Regrades: []logbook.Grading{{At: began, Report: twoLegs(id), Differences: []phrase.Phrase{}}},
	}
}

// What is taken in from a folder is as if it had been entered step by step, and taken in again it is the same. Without
// a report the legs stay.
func testTake(t *testing.T, open Opener) {
	b, steps := open(t), open(t)
	s := stored("2031-05-04T09-00-07Z_seat", Began)
	id := s.Entry.ID
	must(t, steps.Begin(&s.Entry), steps.Keep(id, s.Report), steps.Act(id, &s.Standing), steps.End(id, s.Entry.Ended),
		steps.Regrade(id, &s.Regrades[0]))
	want := Whole(t, steps)
	for range 2 {
		if why, err := b.Take(s); why != nil || err != nil {
			t.Fatal(why, err)
		}
		same(t, b, want)
		s.Report = nil
	}
	s.Why = errors.New("cannot be read")
	if why, err := b.Take(s); why == nil || err != nil {
		t.Errorf("%v, %v", why, err)
	}
	same(t, b, want)
	if out, err := b.LeftOut(t.Context()); err != nil || out.Total != 0 {
		t.Errorf("a session that is there is left out: %+v, %v", out, err)
	}
}

// A rebuild holds what it is given, and names what it leaves out; of that nothing is in the book.
func testRebuild(t *testing.T, open Opener) {
	b := open(t)
	must(t, b.RememberStation(who.Owner(), "seat", maneuver.Choice{Maneuver: "wing-over"}, Began))
	entered(t, b, Began, "Bo Example")
	good, bad, doubled := stored("2031-05-04T09-00-07Z_good", Began), stored("2031-05-04T10-00-07Z_bad", Began),
		stored("2031-05-04T11-00-07Z_doubled", Began)
	bad.Why = errors.New("cannot be read")
	doubled.Standing.Remarks = append(doubled.Standing.Remarks, doubled.Standing.Remarks[0]) // its id, twice
	told := map[string]string{}
	for range 2 {
		n, err := b.Rebuild(t.Context(), func(yield func(*logbook.Stored) bool) {
			_ = yield(bad) && yield(good) && yield(doubled)
		}, func(id string, why error) { told[id] = why.Error() })
		if n != 1 || err != nil || len(told) != 2 || told[bad.Entry.ID] != "cannot be read" {
			t.Errorf("%d sessions, %v, told %v", n, err, told)
		}
	}
	out, err := b.LeftOut(t.Context())
	must(t, err)
	if out.Total != 2 || out.Sessions[0].ID != doubled.Entry.ID || out.Sessions[1].Why.String() != "cannot be read" {
		t.Errorf("left out %+v", out)
	}
	list, err := b.List(t.Context(), logbook.Filter{})
	must(t, err)
	if list.Total != 1 || list.Sessions[0].ID != good.Entry.ID || cmp.Diff(out, list.LeftOut) != "" ||
		cmp.Diff([]string{"Ada Example"}, list.Students) != "" {
		t.Errorf("%+v", list)
	}
	if all, err := b.Stations(t.Context()); err != nil || len(all) != 1 {
		t.Errorf("stations %v, %v", all, err)
	}
	must(t, b.Begin(&bad.Entry)) // mended, it goes on
	if out, err := b.LeftOut(t.Context()); err != nil || out.Total != 1 {
		t.Errorf("still left out: %+v, %v", out, err)
	}
}

// An interrupted rebuild leaves the book as it was.
func testRebuildInterrupted(t *testing.T, open Opener) {
	b := open(t)
	id := entered(t, b, Began, "Bo Example")
	must(t, b.Keep(id, twoLegs(id)))
	was := Whole(t, b)
	ctx, stop := context.WithCancel(t.Context())
	_, err := b.Rebuild(ctx, func(yield func(*logbook.Stored) bool) {
		s := stored("2031-05-04T09-00-07Z_other", Began)
		stop()
		yield(s)
	}, func(string, error) {})
	if !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
	same(t, b, was)
}
