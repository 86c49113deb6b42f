package query_test

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/booktest"
	"halfturn/coach/logbook/sqlite"
	"halfturn/stream/phrase"

	"github.com/google/go-cmp/cmp"
)

// A flown session, for a table.
type flown struct {
	id, student, aircraft string
	legs                  []coach.Leg
	standing              logbook.Standing
	open                  bool // it is still being flown
}

// leg is a finished leg to a side, with a grade and a score.
func leg(n int, direction, grade string, score float64, change string) coach.Leg {
	l := booktest.Flight(n, coach.Finished, coach.Near, grade, score, change)
	l.Direction = direction
	return l
}

// school is three days at a school: Ada flies twice, Bo once, and somebody parks.
func school() []flown {
	remark := func(n int, words string) logbook.Remark {
		return logbook.Remark{ID: n, Words: words, At: booktest.Began, Key: fmt.Sprint("key-", words)}
	}
	return []flown{
		{id: "a1", student: "Ada Example", aircraft: "trainer",
			legs: []coach.Leg{
				leg(1, "right", coach.Fair, 60, "More bank"),
				leg(2, "left", coach.Fair, 64, "More bank"),
				leg(3, "right", coach.Good, 82, "Nose down earlier"),
			},
			standing: logbook.Standing{Remarks: []logbook.Remark{remark(1, "nose too low"), remark(2, "then better")}}},
		{id: "b1", student: "Bo Example", aircraft: "single",
			legs:     []coach.Leg{leg(1, "right", coach.Excellent, 95, ""), leg(2, "right", coach.Good, 90, "")},
			standing: logbook.Standing{Keep: true, Remarks: []logbook.Remark{remark(1, "Nosedive")}}},
		{id: "p1", aircraft: "trainer"},
		{id: "a2", student: "Ada Example", aircraft: "trainer",
			legs: []coach.Leg{leg(1, "right", coach.Good, 85, "More bank")}, open: true},
	}
}

// day is when a session of the table began.
func day(n int) time.Time { return booktest.Began.AddDate(0, 0, n) }

func opened(t *testing.T, sessions ...flown) logbook.Book {
	t.Helper()
	b, err := sqlite.Engine{}.Open(filepath.Join(t.TempDir(), "logbook.db"), false)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := b.Close(); err != nil {
			t.Error(err)
		}
	})
	for n, s := range sessions {
		e := booktest.Entry(s.id, day(n), s.student)
		e.Aircraft = s.aircraft
		must(t, b.Begin(e))
		if len(s.legs) > 0 {
			r := booktest.Report(s.id, s.legs...)
			r.Files[0].Stations[0].Series[0].Aircraft = s.aircraft
			must(t, b.Keep(s.id, r))
		}
		standing := s.standing
		standing.Student = logbook.Student{Name: s.student}
		must(t, b.Act(s.id, &standing))
		if !s.open {
			must(t, b.End(s.id, day(n).Add(time.Hour)))
		}
	}
	return b
}

func must(t *testing.T, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

// TestFilters: each filter leaves in what it says, newest first, and filters narrow each other.
func TestFilters(t *testing.T) {
	b := opened(t, school()...)
	for name, c := range map[string]struct {
		filter  logbook.Filter
		ids     string
		unflown int
	}{
		"all":               {logbook.Filter{}, "a2 p1 b1 a1", 0},
		"flown":             {logbook.Filter{Flown: true}, "a2 b1 a1", 1},
		"a student":         {logbook.Filter{Student: "Ada Example"}, "a2 a1", 0},
		"otherwise spelled": {logbook.Filter{Student: " ADA  example"}, "a2 a1", 0},
		"nobody known":      {logbook.Filter{Student: "Cy Example"}, "", 0},
		"an aircraft":       {logbook.Filter{Aircraft: "single"}, "b1", 0},
		"a maneuver":        {logbook.Filter{Maneuver: "wing-over"}, "a2 b1 a1", 0},
		"another maneuver":  {logbook.Filter{Maneuver: "lazy-eight"}, "", 0},
		"a grade":           {logbook.Filter{Grade: coach.Good}, "a2 b1", 0}, // the lower of two in the middle
		"since":             {logbook.Filter{From: day(1)}, "a2 p1 b1", 0},
		"until":             {logbook.Filter{To: day(1)}, "a1", 0},
		"a day":             {logbook.Filter{From: day(1), To: day(2)}, "b1", 0},
		"words":             {logbook.Filter{Text: "nose"}, "b1 a1", 0},
		"all of the words":  {logbook.Filter{Text: "LOW nose"}, "a1", 0},
		"words of two":      {logbook.Filter{Text: "low better"}, "", 0}, // no one remark has both
		"marks":             {logbook.Filter{Text: "?!"}, "", 0},
		"student and since": {logbook.Filter{Student: "Ada Example", From: day(1)}, "a2", 0},
	} {
		list, err := b.List(t.Context(), c.filter)
		must(t, err)
		var ids []string
		for _, s := range list.Sessions {
			ids = append(ids, s.ID)
		}
		if got := strings.Join(ids, " "); got != c.ids || list.Total != len(ids) || list.Unflown != c.unflown {
			t.Errorf("%s: %q, %d in all, %d not flown; must be %q and %d", name, got, list.Total, list.Unflown, c.ids,
				c.unflown)
		}
	}
}

// TestPages: the pages of a list, one after another, are the list, however many sessions begin at one moment.
func TestPages(t *testing.T) {
	b := opened(t)
	want := []string{}
	for n := range 23 {
		id := fmt.Sprintf("s%02d", n)
		must(t, b.Begin(booktest.Entry(id, day(n/4), "")))
		want = append(want, id)
	}
	slices.Reverse(want)
	for _, limit := range []int{1, 4, 10, 23, 50} {
		var got []string
		f := logbook.Filter{Limit: limit}
		for {
			list, err := b.List(t.Context(), f)
			must(t, err)
			if len(list.Sessions) > limit || list.Total != len(want) {
				t.Fatalf("%d on a page of %d, %d in all", len(list.Sessions), limit, list.Total)
			}
			for _, s := range list.Sessions {
				got = append(got, s.ID)
			}
			if f.After = list.Next; f.After == "" {
				break
			}
		}
		if !slices.Equal(got, want) {
			t.Errorf("pages of %d: %v", limit, got)
		}
	}
	for _, after := range []string{"x", "1", "x_1", "_"} {
		var refused *logbook.Refused
		if _, err := b.List(t.Context(), logbook.Filter{After: after}); !errors.As(err, &refused) {
			t.Errorf("after %q: %v", after, err)
		}
	}
}

// TestRow: what a list shows of a session.
func TestRow(t *testing.T) {
	b := opened(t, school()...)
	list, err := b.List(t.Context(), logbook.Filter{Text: "nose"})
	must(t, err)
	s := list.Sessions[1]
	const score = 64 // the middle one of 60, 64 and 82
	if s.Began != "2031-05-04T09:00:07Z" || s.Ended != "2031-05-04T10:00:07Z" || s.Student != "Ada Example" ||
		s.Legs != 3 || s.Score == nil || *s.Score != score || s.Grade != coach.Fair || s.Remarks != 2 ||
		s.Found != "nose too low" || len(s.Verdicts) != 3 || s.Keep {
		t.Errorf("%+v", s)
	}
	if s.Maneuvers[0] != (logbook.Named{Name: "wing-over", Title: "Wing-over"}) ||
		s.Aircraft != (logbook.Named{Name: "trainer", Title: "The trainer"}) {
		t.Errorf("cards %+v, %+v", s.Maneuvers, s.Aircraft)
	}
	if !slices.Equal(list.Students, []string{"Ada Example", "Bo Example"}) || len(list.Maneuvers) != 1 ||
		len(list.Aircraft) != 2 {
		t.Errorf("to filter by: %v, %v, %v", list.Students, list.Maneuvers, list.Aircraft)
	}
}

// TestTrend: sessions, legs, the row of good legs, and what was to change most often. The quartiles are those of
// definition 7 of Hyndman and Fan (The American Statistician 50, 1996): of 60, 64 and 82 they are 62, 64 and 73.
func TestTrend(t *testing.T) {
	b := opened(t, school()...)
	for name, c := range map[string]struct {
		filter         logbook.Filter
		sessions, legs int
		streak         logbook.Streak
		things         []logbook.Thing
	}{
		"all": {logbook.Filter{}, 3, 6, logbook.Streak{Now: 4, Best: 4, Session: "a2"}, []logbook.Thing{
			{Words: phrase.Read("More bank"), Legs: 3, Sessions: 2, Session: "a2"},
			{Words: phrase.Read("Nose down earlier"), Legs: 1, Sessions: 1, Session: "a1"},
		}},
		"a student": {logbook.Filter{Student: "Bo Example"}, 1, 2, logbook.Streak{Now: 2, Best: 2, Session: "b1"},
			[]logbook.Thing{}},
		"until": {logbook.Filter{To: day(1)}, 1, 3, logbook.Streak{Now: 1, Best: 1, Session: "a1"}, []logbook.Thing{
			{Words: phrase.Read("More bank"), Legs: 2, Sessions: 1, Session: "a1"},
			{Words: phrase.Read("Nose down earlier"), Legs: 1, Sessions: 1, Session: "a1"},
		}},
		"another maneuver": {logbook.Filter{Maneuver: "lazy-eight"}, 0, 0, logbook.Streak{}, []logbook.Thing{}},
	} {
		got, err := b.Trend(t.Context(), c.filter)
		must(t, err)
		if got.Sessions != c.sessions || got.Legs != c.legs || got.Streak != c.streak ||
			cmp.Diff(c.things, got.Things) != "" || (got.Maneuver == nil) != (c.sessions == 0) {
			t.Errorf("%s: %+v", name, got)
		}
	}
	got, err := b.Trend(t.Context(), logbook.Filter{To: day(1)})
	must(t, err)
	i := slices.IndexFunc(got.Checks, func(k logbook.TrendCheck) bool { return k.ID == "bank-at-90" })
	if i < 0 || len(got.Checks[i].Points) != 1 {
		t.Fatalf("%+v", got.Checks)
	}
	p := got.Checks[i].Points[0] // its values are the scores less 20
	if p.Session != "a1" || p.Legs != 3 || p.Low != 40 || p.Q1 != 42 || p.Median != 44 || p.Q3 != 53 || p.High != 62 {
		t.Errorf("%+v", p)
	}
}

// TestModels: a leg is held against the best of the same student in the same aircraft to the same side, and against the
// sessions of others that are kept.
func TestModels(t *testing.T) {
	b := opened(t, school()...)
	for _, c := range []struct {
		id   string
		leg  int
		best string
		kept []string
	}{
		{"a2", 1, "a1 3", []string{"b1 1"}},
		{"a1", 1, "a2 1", []string{"b1 1"}},
		{"a1", 2, "", nil}, // nobody else flew to the left
		{"b1", 1, "", nil},
		{"p1", 1, "", nil},
		{"a1", 9, "", nil},
	} {
		m, err := b.Models(t.Context(), c.id, c.leg)
		must(t, err)
		best := ""
		if m.Best != nil {
			best = fmt.Sprint(m.Best.Session, " ", m.Best.Leg)
		}
		var kept []string
		for _, k := range m.Kept {
			kept = append(kept, fmt.Sprint(k.Session, " ", k.Leg))
		}
		if best != c.best || !slices.Equal(kept, c.kept) {
			t.Errorf("leg %d of %s is held against %q and %q; must be %q and %q", c.leg, c.id, best, kept, c.best,
				c.kept)
		}
	}
}

// TestSessions: what is asked of one session, and which session is meant.
func TestSessions(t *testing.T) {
	b, ctx := opened(t, school()...), t.Context()
	d, err := b.Session(ctx, "b1")
	must(t, err)
	if !d.Keep || d.Server != "1.2" || len(d.Said) != 1 || d.Said[0].Words != "Nosedive" || len(d.Regrades) != 0 {
		t.Errorf("%+v", d)
	}
	e, err := b.Entry(ctx, "a1")
	must(t, err)
	if e.Student.Name != "Ada Example" || !e.Began.Equal(day(0)) || !e.Ended.Equal(day(0).Add(time.Hour)) ||
		e.Key == "" || e.Maneuver != "wing-over" || e.Standard != "course" || e.Aircraft != "trainer" {
		t.Errorf("%+v", e)
	}
	for id, want := range map[string]int{"a1": 3, "b1": 2, "p1": 0} {
		if n, err := b.Legs(ctx, id); n != want || err != nil {
			t.Errorf("%s has %d legs, %v; must have %d", id, n, err, want)
		}
	}
	if id, err := b.Last(ctx); id != "a2" || err != nil {
		t.Errorf("the last is %q, %v", id, err)
	}
	spans, err := b.Spans(ctx)
	must(t, err)
	for n, want := range school() {
		if s := spans[n]; s.ID != want.id || !s.Began.Equal(day(n)) || s.Ended.IsZero() != want.open ||
			s.Keep != want.standing.Keep {
			t.Errorf("span %d is %+v", n, s)
		}
	}
	for limit, want := range map[int]int{0: 2, 1: 1, 5: 2} {
		if list, err := b.Students(ctx, limit); len(list) != want || err != nil || list[0] != "Ada Example" {
			t.Errorf("%d students: %q, %v", limit, list, err)
		}
	}
	if s, err := b.Student(ctx, "bo \u00a0 EXAMPLE"); err != nil || s.Name != "Bo Example" {
		t.Errorf("%+v, %v", s, err)
	}
	if s, err := b.Student(ctx, "Cy"); err != nil || s != (logbook.Student{}) {
		t.Errorf("a student who never flew: %+v, %v", s, err)
	}
}

// TestNotInBook: a session that is not in the book is said so, and an empty book has no last one.
func TestNotInBook(t *testing.T) {
	b, ctx := opened(t), t.Context()
	var none *logbook.NotFound
	for what, ask := range map[string]func() error{
		"session": func() error { _, err := b.Session(ctx, "x"); return err },
		"entry":   func() error { _, err := b.Entry(ctx, "x"); return err },
		"legs":    func() error { _, err := b.Legs(ctx, "x"); return err },
		"report":  func() error { _, err := b.Report(ctx, "x", 1); return err },
	} {
		if err := ask(); !errors.As(err, &none) || none.ID != "x" {
			t.Errorf("%s: %v", what, err)
		}
	}
	var refused *logbook.Refused
	if _, err := b.Last(ctx); !errors.As(err, &refused) {
		t.Errorf("the last of none: %v", err)
	}
	if list, err := b.Near(ctx, "x"); len(list) > 0 || err != nil {
		t.Errorf("near is %q, %v", list, err)
	}
	if tr, err := b.Trend(ctx, logbook.Filter{}); err != nil || tr.Maneuver != nil || tr.Checks == nil ||
		tr.Things == nil {
		t.Errorf("%+v, %v", tr, err)
	}
}
