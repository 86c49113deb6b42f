package course

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/logbook/booktest"
)

// A drill is said for a cause that is named, and for what a student's legs show most: where it is flown, what counts,
// and what is said.
func TestDrill(t *testing.T) {
	run := func(c *drillCmd) (string, error) {
		s, out := streams()
		err := c.Run(t.Context(), s)
		return strings.Join(strings.Fields(out.String()), " "), err
	}
	ada := whom{Student: "Ada Example", Data: bookOf(t, "practice", "RLRLr", booktest.Began)}
	for _, x := range []struct {
		do   *drillCmd
		want string
	}{
		{&drillCmd{whom: whom{Cause: "overbanked", Maneuver: "wing-over"}},
			"fly Wing-over to 90°, wings level on top (wing-over-to-90) standard course what counts Bank at 90°, " +
				"Steepest bank what is said Bank 75, nose level at 90°; Bank slower; Bank more " +
				"done after 3 good legs in a row"},
		{&drillCmd{whom: whom{Cause: "entry-slow", Maneuver: "wing-over"}, Standard: "check"},
			"what is said nothing but safety, and how the leg went"},
		{&drillCmd{whom: whom{Cause: "rolled-out-late", Maneuver: "wing-over"}}, "Level on … at 180°"},
		{&drillCmd{whom: ada}, "Drill: too much bank fly Level roll, the ball held (level-roll)"},
	} {
		if got, err := run(x.do); err != nil || !strings.Contains(got, x.want) {
			t.Errorf("%v; %q is missing in\n%s", err, x.want, got)
		}
	}
	var answer struct {
		Version  int
		Cautions []string
		Student  string
		Drill    drilled
	}
	got, err := run(&drillCmd{whom: ada, Format: "json"})
	if err == nil {
		err = json.Unmarshal([]byte(got), &answer)
	}
	d := answer.Drill
	if err != nil || answer.Version != 1 || len(answer.Cautions) == 0 || answer.Student != ada.Student ||
		d.Cause != "overbanked" || d.Of != "level-roll" || d.Want != 3 || d.Row != nil || len(d.Part.Checks) == 0 {
		t.Errorf("%v, %+v", err, answer)
	}
}

// A check flight is shown with the form of the published test, where there is one; any step with what is said in it
// now.
func TestForm(t *testing.T) {
	ada := whom{Student: "Ada Example", Data: bookOf(t, "practice", "RLRL", booktest.Began)}
	for step, want := range map[string]string{
		"chandelle-check": "form: FAA-S-ACS-7 CA.V.C; it stands with the session",
		"wing-over-check": "form: no test is published; the checks of the card",
		"level-roll":      "prompts now: fading",
	} {
		s, out := streams()
		c := &showCmd{Name: "first", Step: step, whom: ada}
		if err := c.Run(t.Context(), s); err != nil || !strings.Contains(out.String(), want) {
			t.Errorf("%v; %q is missing in\n%s", err, want, out)
		}
		if strings.Contains(out.String(), "form:") != strings.Contains(step, "check") {
			t.Errorf("%s: %s", step, out)
		}
	}
}

// Wrong calls say what there is to say.
func TestDrillWrongly(t *testing.T) {
	well := whom{Student: "Ada Example", Data: bookOf(t, "practice", "RL", booktest.Began)}
	for _, x := range []struct {
		do   *drillCmd
		want string
	}{
		{&drillCmd{}, "say what to drill"},
		{&drillCmd{whom: whom{Cause: "overbanked"}}, "say what to drill"},
		{&drillCmd{whom: whom{Cause: "overbanked", Student: "Ada Example", Data: well.Data}}, "--cause and --maneuver"},
		{&drillCmd{whom: whom{Cause: "stalled", Maneuver: "wing-over"}}, `no check of a leg of "wing-over" shows`},
		{&drillCmd{whom: whom{Cause: "overbanked", Maneuver: "loop"}}, `there is no maneuver card "loop"`},
		{&drillCmd{whom: whom{Cause: "overbanked", Maneuver: "wing-over"}, Standard: "none"}, "there is no standard"},
		{&drillCmd{whom: well}, "nothing that can be drilled was found"},
	} {
		s, _ := streams()
		err := x.do.Run(t.Context(), s)
		var usage base.UsageError
		if !errors.As(err, &usage) || !strings.HasPrefix(err.Error(), x.want) {
			t.Errorf("%v; must be a wrong call: %s", err, x.want)
		}
	}
}
