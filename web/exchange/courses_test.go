package exchange

import (
	"errors"
	"testing"

	"halfturn/coach/archive"
	"halfturn/coach/course"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/maneuver"
	"halfturn/coach/who"
	"halfturn/configs"
	"halfturn/web"
)

// The pages read, choose and rule by the courses of the configuration as they are then; courses that cannot be read are
// an error of each call.
func TestCourses(t *testing.T) {
	a, err := archive.Open(t.TempDir(), archive.Options{Engine: sqlite.Engine{}, Version: "1.2"})
	if err != nil {
		t.Fatal(err)
	}
	defer a.Close()
	cards, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	lib, err := course.LoadLibrary(cards, configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	var wrong error
	c := &Courses{Archive: a, Library: func() (*course.Library, error) { return lib, wrong }}
	ask := web.CourseQuestion{Student: "Ada Example", Minutes: 20}
	ask.Course = "performance"
	calls := map[string]func() error{
		"list": func() error {
			list, err := c.List()
			if err == nil && len(list) != len(lib.Courses()) {
				t.Errorf("%d courses", len(list))
			}
			return err
		},
		"record": func() error {
			r, err := c.Record(t.Context(), ask)
			if err == nil && (r.Course.Name != "performance" || r.Plan.Minutes != 20) {
				t.Errorf("%+v", r)
			}
			return err
		},
		"choose": func() error {
			is, err := c.Choose(t.Context(), who.Owner(), ask)
			if err == nil && is.Course != "performance" {
				t.Errorf("%+v", is)
			}
			return err
		},
	}
	rule := func() error {
		o := ask
		o.Step = "steep-turn"
		return c.Rule(t.Context(), who.Owner(), o, logbook.Ruling{Verdict: logbook.StepPassed, Reason: "x"})
	}
	for name, call := range calls {
		if err := call(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	var refused *logbook.Refused
	if err := rule(); !errors.As(err, &refused) {
		t.Errorf("%v; must be refused: nothing was flown", err)
	}
	wrong = errors.New("first.toml: cannot be read")
	calls["rule"] = rule
	for name, call := range calls {
		if err := call(); !errors.Is(err, wrong) {
			t.Errorf("%s: %v; must be %v", name, err, wrong)
		}
	}
}
