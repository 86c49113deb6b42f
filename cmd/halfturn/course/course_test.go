package course

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/course"
	"halfturn/coach/grading"
	"halfturn/coach/logbook/booktest"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/maneuver"
	"halfturn/configs"
)

// streams writes to a buffer, with an environment that has no variables.
func streams() (base.Streams, *bytes.Buffer) {
	var out bytes.Buffer
	return base.Streams{Out: &out, Err: &out, Env: func(string) (string, bool) { return "", false }}, &out
}

// courses are the shipped ones.
func courses(t *testing.T) *course.Library {
	t.Helper()
	cards, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	lib, err := course.LoadLibrary(cards, configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	return lib
}

// The list names every course, and show every step of each.
func TestListAndShow(t *testing.T) {
	s, out := streams()
	if err := (&listCmd{}).Run(s); err != nil {
		t.Fatal(err)
	}
	list := out.String()
	for _, c := range courses(t).Courses() {
		if !strings.Contains(list, c.Name) || !strings.Contains(list, c.Title) {
			t.Errorf("%s is missing in\n%s", c.Name, list)
		}
		s, out := streams()
		if err := (&showCmd{Name: c.Name}).Run(t.Context(), s); err != nil {
			t.Fatal(err)
		}
		for i := range c.Steps {
			if !strings.Contains(out.String(), c.Steps[i].ID) || !strings.Contains(out.String(), c.Steps[i].Title) {
				t.Errorf("%s is missing in\n%s", c.Steps[i].ID, out)
			}
		}
		s, out = streams()
		if err := (&showCmd{Name: c.Name, Raw: true}).Run(t.Context(), s); err != nil {
			t.Fatal(err)
		}
		if o, _ := courses(t).Origin(c.Name); out.String() != string(o.Text) {
			t.Errorf("%s: the file is not printed as it is", c.Name)
		}
	}
}

// A course begun from a shipped one is good, has the name of its file, and is never written over.
func TestNewAndCheck(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "courses", "mine.toml")
	if err := os.Mkdir(filepath.Dir(file), 0o700); err != nil {
		t.Fatal(err)
	}
	s, out := streams()
	if err := (&newCmd{From: "performance", File: file}).Run(s); err != nil {
		t.Fatal(err)
	}
	if err := (&checkCmd{Files: []string{file}}).Run(t.Context(), s); err != nil ||
		!strings.Contains(out.String(), file+": a good course, steps: 10") {
		t.Errorf("%v: %s", err, out)
	}
	s, out = streams()
	if err := (&listCmd{flags: flags{Cards: []string{dir}}}).Run(s); err != nil || !strings.Contains(out.String(),
		"mine") {
		t.Errorf("%v: %s", err, out)
	}
	if err := (&newCmd{From: "first", File: file}).Run(s); err == nil {
		t.Error("a file was written over")
	}
	bad := filepath.Join(dir, "bad.toml")
	if err := os.WriteFile(bad, []byte("name = 'bad'\nsteps = 3\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	s, out = streams()
	err := (&checkCmd{Files: []string{bad, filepath.Join(dir, "none.toml"), file}}).Run(t.Context(), s)
	if err == nil || !strings.Contains(err.Error(), "bad.toml:2: steps: is not a known key") ||
		!strings.Contains(err.Error(), "none.toml") || !strings.Contains(out.String(), "mine.toml: a good course") {
		t.Errorf("%v: %s", err, out)
	}
	over, cancel := context.WithCancel(t.Context())
	cancel()
	if err := (&checkCmd{Files: []string{file}}).Run(over, s); !errors.Is(err, grading.ErrInterrupted) {
		t.Errorf("interrupted: %v", err)
	}
}

// Wrong names are wrong calls, and the errors say what there is.
func TestWrongCalls(t *testing.T) {
	file := filepath.Join(t.TempDir(), "mine.txt")
	for _, x := range []struct {
		run  func(base.Streams) error
		want string
	}{
		{func(s base.Streams) error { return (&showCmd{Name: "second"}).Run(t.Context(), s) },
			`there is no course "second"; there are: first, performance, weakness`},
		{func(s base.Streams) error { return (&showCmd{Name: "performance", Step: "loop"}).Run(t.Context(), s) },
			`the course "performance" has no step "loop"; it has: steep-turn, `},
		{func(s base.Streams) error { return (&newCmd{From: "second", File: file}).Run(s) },
			`there is no course "second"`},
		{func(s base.Streams) error { return (&newCmd{From: "first", File: file}).Run(s) }, file +
			": a card's file ends in"},
		{func(s base.Streams) error {
			return (&showCmd{Name: "first", whom: whom{Cause: "overbanked", Maneuver: "wing-over"}}).Run(t.Context(), s)
		}, "the course first is not built from a cause; leave out --cause and --maneuver"},
		{func(s base.Streams) error {
			return (&showCmd{Name: "weakness", whom: whom{Cause: "overbanked"}}).Run(t.Context(), s)
		}, "--cause and --maneuver must be given together"},
		{func(s base.Streams) error {
			return (&showCmd{Name: "weakness", whom: whom{Cause: "same-direction",
				Maneuver: "wing-over"}}).Run(t.Context(), s)
		}, `no check of a leg of "wing-over" shows "same-direction"; halfturn causes lists the causes`},
	} {
		s, _ := streams()
		err := x.run(s)
		var usage base.UsageError
		if !errors.As(err, &usage) || !strings.HasPrefix(err.Error(), x.want) {
			t.Errorf("%v; must be a wrong call: %s", err, x.want)
		}
	}
}

// bookOf makes a data directory with one session of Ada Example: legs of a level roll by a standard, R and L good ones
// to the right and left, r and l missed ones.
func bookOf(t *testing.T, standard, legs string, began time.Time) (data string) {
	t.Helper()
	data = t.TempDir()
	a, err := archive.Open(data, archive.Options{Engine: sqlite.Engine{}, Version: "1.2"})
	if err != nil {
		t.Fatal(err)
	}
	id, err := a.NewID(began, "seat")
	if err != nil {
		t.Fatal(err)
	}
	e := booktest.Entry(id, began, "Ada Example")
	e.Key = ""
	s := coach.Series{Maneuver: "level-roll", Standard: standard, Aircraft: "radial-trainer", Verdict: coach.Met}
	for _, c := range legs {
		s.Legs = append(s.Legs, legOf(c))
	}
	r := booktest.Report(id)
	r.Files[0].Stations[0].Series = []coach.Series{s}
	_, saved := a.Save(id, r)
	for _, err := range []error{saved, a.Begin(*e), a.Keep(id, r), a.End(id, began.Add(time.Hour)), a.Close()} {
		if err != nil {
			t.Fatal(err)
		}
	}
	return data
}

func legOf(c rune) coach.Leg {
	l := coach.Leg{Direction: "right", Outcome: coach.Finished, Verdict: coach.Met, Score: 90, Grade: coach.Good,
		Checks: []coach.Check{{ID: "steepest-bank", Label: "Steepest bank", Weight: 1, Verdict: coach.Met, Score: 90}}}
	if c == 'L' || c == 'l' {
		l.Direction = "left"
	}
	if c == 'r' || c == 'l' {
		l.Verdict, l.Score, l.Grade = coach.Missed, 40, coach.Unable
		l.Checks[0].Verdict, l.Checks[0].Score = coach.Missed, 20
		l.Causes = []coach.Cause{{ID: "overbanked", Share: 1}}
	}
	return l
}

// How a student stands, as text and as JSON, and the legs that a step rests on.
func TestProgress(t *testing.T) {
	data := bookOf(t, "practice", "RLRLRLRLRLr", booktest.Began)
	show := func(c *showCmd) string {
		t.Helper()
		s, out := streams()
		c.whom = whom{Student: "ada example", Data: data}
		if err := c.Run(t.Context(), s); err != nil {
			t.Fatal(err)
		}
		return strings.Join(strings.Fields(out.String()), " ")
	}
	for _, x := range []struct {
		do   *showCmd
		want []string
	}{
		{&showCmd{Name: "first"}, []string{"Ada Example, steps passed: 1 of 13",
			"level-roll Level roll, the ball held passed", "wing-over Wing-over, the whole not yet open"}},
		{&showCmd{Name: "first", Step: "level-roll"}, []string{"state: passed, tries: 11, good: 10",
			"passed by these legs", "leg 1 right good 90", "leg 10 left good 90", "latest legs",
			"leg 11 right not good 40"}},
		{&showCmd{Name: "performance"}, []string{"steps passed: 0 of 10", "open right 0 of 5, left 0 of 5"}},
		{&showCmd{Name: "weakness"}, []string{"against: ",
			"part The part that shows it open"}},
	} {
		got := show(x.do)
		for _, want := range x.want {
			if !strings.Contains(got, want) {
				t.Errorf("%s %s: %q is missing in\n%s", x.do.Name, x.do.Step, want, got)
			}
		}
	}
	var answer struct {
		Version  int
		Cautions []string
		Student  string
		Progress course.Progress
	}
	if err := json.Unmarshal([]byte(show(&showCmd{Name: "first", Format: "json"})), &answer); err != nil {
		t.Fatal(err)
	}
	if answer.Version != 1 || len(answer.Cautions) == 0 || answer.Student != "Ada Example" ||
		answer.Progress.Step("level-roll").State != course.Passed {
		t.Errorf("%+v", answer)
	}
	s, _ := streams()
	stranger := &showCmd{Name: "first", whom: whom{Student: "Bo", Data: data}}
	if err := stranger.Run(t.Context(), s); err == nil || !strings.Contains(err.Error(), "Bo") {
		t.Errorf("a stranger: %v", err)
	}
}

// The plan for today and the week, as text and as JSON.
func TestNextAndWeek(t *testing.T) {
	data := bookOf(t, "practice", "RLRLRLRLRLr", time.Now().AddDate(0, 0, -1))
	run := func(c interface {
		Run(context.Context, base.Streams) error
	}) (string, error) {
		s, out := streams()
		err := c.Run(t.Context(), s)
		return strings.Join(strings.Fields(out.String()), " "), err
	}
	ada := whom{Student: "Ada Example", Data: data}
	for _, x := range []struct {
		do interface {
			Run(context.Context, base.Streams) error
		}
		want string
	}{
		{&nextCmd{whom: ada, Course: "first", Minutes: 10}, "First course, for Ada Example: 10 min"},
		{&nextCmd{whom: ada, Course: "first", Minutes: 10},
			"Wing-over to 45°, back to level 4 right practice all cues 8 new: several " +
				"in a row first (FAA-H-8083-9B ch. 3; Guadagnoli and Lee 2004)"},
		{&nextCmd{whom: ada, Course: "first", Minutes: 10, Step: "level-roll"}, "chosen by hand"},
		{&nextCmd{whom: ada, Course: "weakness", Minutes: 10}, "The part that shows it"},
		{&nextCmd{whom: ada, Course: "first", Minutes: 10, Format: "json"}, `"step": "wing-over-to-45"`},
		{&weekCmd{Student: "Ada Example", Data: data},
			"Ada Example, legs in the last seven days: 11, in the four weeks before: 0"},
		{&weekCmd{Student: "Ada Example", Data: data}, "No check has changed clearly."},
		{&weekCmd{Student: "Ada Example", Data: data, Format: "json"}, `"legs": 11`},
	} {
		if got, err := run(x.do); err != nil || !strings.Contains(got, x.want) {
			t.Errorf("%v; %q is missing in\n%s", err, x.want, got)
		}
	}
	for _, x := range []struct {
		do   *nextCmd
		want string
	}{
		{&nextCmd{Course: "first", Minutes: 10}, "--student is missing: say whose"},
		{&nextCmd{whom: ada, Course: "first"}, "--minutes is 0; must be between 1 and 480"},
		{&nextCmd{whom: ada, Course: "second", Minutes: 10}, `there is no course "second"`},
		{&nextCmd{whom: ada, Course: "first", Minutes: 10, Step: "loop"}, `the course "first" has no step "loop"`},
	} {
		_, err := run(x.do)
		var usage base.UsageError
		if !errors.As(err, &usage) || !strings.HasPrefix(err.Error(), x.want) {
			t.Errorf("%v; must be a wrong call: %s", err, x.want)
		}
	}
}

// What moved is printed under its heading.
func TestPrintWeek(t *testing.T) {
	var out bytes.Buffer
	moved := []course.Moved{{Maneuver: "wing-over", Label: "Bank at 90°", Met: 7, Of: 8, MetThen: 2, OfThen: 9}}
	if err := printWeek(&out, "Ada Example", &course.Week{Steadier: moved, Still: moved}, nil); err != nil {
		t.Fatal(err)
	}
	got := strings.Join(strings.Fields(out.String()), " ")
	if line := "wing-over Bank at 90° met 7 of 8, before 2 of 9"; !strings.Contains(got,
		"Steadier "+line+" Still missed "+
			line) {
		t.Error(got)
	}
}

// A course is chosen and then shown without naming it; a step is ruled on, and the record written as files.
func TestChooseRuleExport(t *testing.T) {
	data := bookOf(t, "practice", "RLRLRLRLRLr", booktest.Began)
	ada := whom{Student: "ada example", Data: data}
	run := func(c interface {
		Run(context.Context, base.Streams) error
	}) (string, error) {
		s, out := streams()
		err := c.Run(t.Context(), s)
		return strings.Join(strings.Fields(out.String()), " "), err
	}
	page := filepath.Join(data, "ada.html")
	for _, x := range []struct {
		do interface {
			Run(context.Context, base.Streams) error
		}
		want string
	}{
		{&showCmd{whom: ada}, "First course"},
		{&chooseCmd{whom: ada, Name: "performance"}, "ada example now flies: Commercial performance"},
		{&showCmd{whom: ada}, "steps passed: 0 of 10"},
		{&nextCmd{whom: ada, Minutes: 10}, "for Ada Example: 10 min"},
		{&chooseCmd{whom: ada, Name: "first", Format: "json"}, `"course": "first"`},
		{&ruleCmd{whom: ada, Step: "level-roll", Verdict: "not-yet", Reason: []string{"the", "ball"}, By: "Bo Example"},
			"The ruling on level-roll is kept."},
		{&showCmd{whom: ada, Step: "level-roll"}, "not yet, says Bo Example: the ball"},
		{&exportCmd{whom: ada, Format: "csv"}, ",not-yet,Bo Example,"},
		{&exportCmd{whom: ada, Format: "json"}, `"reason": "the ball"`},
		{&exportCmd{whom: ada, Format: "html", Output: page}, ""},
		{&ruleCmd{whom: ada, Step: "level-roll", Verdict: byRule}, "The step level-roll is by the rule again."},
		{&showCmd{whom: ada, Step: "level-roll"}, "state: passed"},
	} {
		if got, err := run(x.do); err != nil || !strings.Contains(got, x.want) {
			t.Errorf("%+v: %v; %q is missing in\n%s", x.do, err, x.want, got)
		}
	}
	if html, err := os.ReadFile(page); err != nil || !bytes.Contains(html, []byte("halfturn/course.js")) ||
		bytes.Contains(html, []byte("Ada Example")) {
		t.Errorf("%v: the page is %d bytes", err, len(html))
	}
	for _, x := range []struct {
		do interface {
			Run(context.Context, base.Streams) error
		}
		want string
	}{
		{&showCmd{}, "the course is missing"},
		{&chooseCmd{Name: "first"}, "--student is missing"},
		{&chooseCmd{whom: ada, Name: "second"}, `there is no course "second"`},
		{&ruleCmd{whom: ada, Step: "level-roll"}, `--verdict is ""; must be passed, not-yet, by-rule`},
		{&ruleCmd{whom: ada, Step: "loop", Course: "first", Verdict: "passed"},
			`the course "first" has no step "loop"`},
		{&showCmd{whom: whom{Student: "ada example", Data: data, Cause: "overbanked", Maneuver: "wing-over"}},
			"name the course that --cause and --maneuver are for"},
	} {
		_, err := run(x.do)
		var usage base.UsageError
		if !errors.As(err, &usage) || !strings.HasPrefix(err.Error(), x.want) {
			t.Errorf("%+v: %v; must be a wrong call: %s", x.do, err, x.want)
		}
	}
	for _, x := range []struct{ step, verdict, want string }{
		{"level-roll", "passed", "the reason is missing"},
		{"level-roll", "good", "verdict is"},
		{"level-roll", byRule, "nobody has ruled"},
		{"loop", "passed", "has no step"},
	} {
		if _, err := run(&ruleCmd{whom: ada, Step: x.step, Verdict: x.verdict}); err == nil ||
			!strings.Contains(err.Error(), x.want) {
			t.Errorf("%+v: %v; must say %s", x, err, x.want)
		}
	}
}
