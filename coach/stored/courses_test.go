package stored

import (
	"errors"
	"strings"
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/course"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/booktest"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/maneuver"
	"halfturn/coach/who"
	"halfturn/configs"
)

// lessons are the shipped courses over an empty logbook, and what enters a session of Ada Example at a station: level
// rolls by the standard practice, o a good one and x one that was missed by too much bank, right and left in turns.
func lessons(t *testing.T) (c *Courses, fly func(day int, station, legs string) string) {
	t.Helper()
	cards, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	lib, err := course.LoadLibrary(cards, configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	a, err := archive.Open(t.TempDir(), archive.Options{Engine: sqlite.Engine{}, Version: "1.2"})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = a.Close() })
	return &Courses{Archive: a, Library: lib}, func(day int, station, legs string) string {
		t.Helper()
		began := booktest.Began.AddDate(0, 0, day)
		id, err := a.NewID(began, station)
		if err != nil {
			t.Fatal(err)
		}
		e := booktest.Entry(id, began, "Ada Example")
		e.Key, e.Station = "", station
		s := coach.Series{Maneuver: "level-roll", Standard: "practice", Aircraft: "radial-trainer", Verdict: coach.Met}
		for i, c := range legs {
			l := coach.Leg{Direction: []string{"right", "left"}[i%2], Outcome: coach.Finished, Verdict: coach.Met,
				Score: 90, Grade: coach.Good, Checks: []coach.Check{{ID: "steepest-bank", Label: "Steepest bank",
					Weight: 1, Verdict: coach.Met, Score: 90}}}
			if c == 'x' {
				l.Verdict, l.Score, l.Grade = coach.Missed, 40, coach.Unable
				l.Checks[0].Verdict, l.Checks[0].Score = coach.Missed, 20
				l.Causes = []coach.Cause{{ID: "overbanked", Share: 1}}
			}
			s.Legs = append(s.Legs, l)
		}
		r := booktest.Report(id)
		r.Files[0].Stations[0].Series = []coach.Series{s}
		_, saved := a.Save(id, r)
		err = errors.Join(saved, a.Begin(*e), a.Keep(id, r), a.End(id, began.Add(time.Hour)))
		if err != nil {
			t.Fatal(err)
		}
		return id
	}
}

// asked is what is asked of Ada Example, three days after she first flew.
func asked(course, step string) Asked {
	return Asked{CourseChoice: logbook.CourseChoice{Course: course}, Student: "ada example", Step: step,
		Now: booktest.Began.AddDate(0, 0, 3)}
}

// A ruling counts from when it is given, stands with the latest session at the stations of whoever gives it, and can be
// taken back; what is flown in the same session afterwards comes after it.
func TestRule(t *testing.T) {
	c, fly := lessons(t)
	by := who.Who{ID: "u", Name: "Bo Example", Role: who.RoleInstructor}
	state := func(want string) *course.State {
		t.Helper()
		r, err := c.Record(t.Context(), asked("first", ""))
		if err != nil {
			t.Fatal(err)
		}
		if s := r.Progress.Step("level-roll"); s.State != want {
			t.Errorf("%s; must be %s: %+v", s.State, want, s.Ruled)
		}
		return r.Progress.Step("level-roll")
	}
	rule := func(verdict string, stations ...string) {
		t.Helper()
		o := asked("first", "level-roll")
		o.Stations = stations
		if err := c.Rule(t.Context(), by, o, logbook.Ruling{Verdict: verdict, Reason: "for a test"}); err != nil {
			t.Fatal(err)
		}
	}
	first := fly(0, "Seat 3", "oxo")
	fly(1, "Seat 4", "x")
	state(course.Open)
	rule(logbook.StepPassed, "Seat 3")
	if s := state(course.Passed); s.Ruled.Session != first || s.Ruled.Number != 3 || s.Ruled.By != "Bo Example" {
		t.Errorf("%+v", s.Ruled)
	}
	rule("", "Seat 3")
	state(course.Open)
	rule(logbook.StepPassed)
	fly(2, "Seat 4", "xxx")
	if s := state(course.Slipped); len(s.PassedBy) != 4 || !s.Ruled.Passed {
		t.Errorf("%d tries, %+v", len(s.PassedBy), s.Ruled)
	}
	rule(logbook.StepNotYet)
	state(course.Open)
}

// The course of a student is the one that was chosen, the first one where none was, or where it is there no more. One
// that is built from a weakness stays with the weakness that was found when it was chosen.
func TestChoose(t *testing.T) {
	c, fly := lessons(t)
	flown := func(want logbook.CourseChoice) {
		t.Helper()
		r, err := c.Record(t.Context(), asked("", ""))
		if err != nil || r.Flown != want || r.Course.Name != want.Course {
			t.Errorf("%+v, %v; must be %+v", r, err, want)
		}
	}
	flown(logbook.CourseChoice{Course: "first"})
	if r, err := c.Record(t.Context(), asked("", "")); err != nil || r.Known || r.Plan.Items[0].Step != "level-roll" {
		t.Errorf("before the first flight: %+v, %v", r, err)
	}
	var refused *logbook.Refused
	if _, err := c.Choose(t.Context(), who.Owner(), asked("weakness", "")); !errors.As(err, &refused) ||
		!strings.Contains(err.Error(), "nothing was found") {
		t.Errorf("%v; must be refused", err)
	}
	fly(0, "Seat 3", "xxxx")
	is, err := c.Choose(t.Context(), who.Owner(), asked("weakness", ""))
	want := logbook.CourseChoice{Course: "weakness", Cause: "overbanked", Maneuver: "level-roll"}
	if err != nil || is != want {
		t.Errorf("%+v, %v; must be %+v", is, err, want)
	}
	flown(want)
	if err := c.Archive.RememberCourse(who.Owner(), "Ada Example", logbook.CourseChoice{Course: "gone"}); err != nil {
		t.Fatal(err)
	}
	flown(logbook.CourseChoice{Course: "first"})
	for name, o := range map[string]Asked{"no course": asked("none", ""), "nobody": {Student: " "}} {
		if _, err := c.Choose(t.Context(), who.Owner(), o); !errors.As(err, &refused) {
			t.Errorf("%s: %v; must be refused", name, err)
		}
	}
}

// The record counts what was flown at the stations it is asked of, with the grade that is required beside the latest.
func TestRecord(t *testing.T) {
	c, fly := lessons(t)
	c.Required = func(maneuver string) string {
		return map[string]string{"level-roll": coach.Good}[maneuver]
	}
	fly(0, "Seat 3", "oo")
	fly(1, "Seat 4", "oox")
	for _, x := range []struct {
		stations []string
		tries    int
		reached  bool
	}{{nil, 5, false}, {[]string{"Seat 3"}, 2, true}, {[]string{"Seat 5"}, 0, false}} {
		o := asked("first", "")
		o.Stations = x.stations
		r, err := c.Record(t.Context(), o)
		if err != nil || r.Progress.Steps[0].Tries != x.tries || r.Steps[0].Reached != x.reached ||
			r.Known != (x.tries > 0) || r.Steps[0].Required != coach.Good || r.Steps[1].Required != "" {
			t.Errorf("%v: %+v, %v", x.stations, r, err)
		}
	}
}
