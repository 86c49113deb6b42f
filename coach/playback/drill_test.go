package playback_test

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/command"
	"halfturn/coach/drill"
	"halfturn/coach/maneuver"
	"halfturn/stream/trainer"
)

// TestDrill: of a drill on too little bank only what belongs to it is said, whatever else is wrong; good legs are
// counted in a row, a miss begins again, and what was recorded gives the same again.
func TestDrill(t *testing.T) {
	s := newSchool(t)
	choice := maneuver.Choice{Maneuver: "wing-over", Standard: "course", Aircraft: "radial-trainer"}
	var flights []trainer.Flight
	flaws := []string{"shallow", "", "nose-high", "shallow", "", "feet-off", "", ""}
	for i, flaw := range flaws {
		flights = append(flights, trainer.Flight{
			Maneuver: "wing-over", Direction: trainer.Directions()[1+i%2], Airplane: choice.Aircraft, Flaw: flaw,
			Seed: uint64(i),
		})
	}
	x := s.fly(command.Drill{Choice: choice, Cause: "underbanked"}, flights...)

	var rows []string
	for _, l := range x.legs {
		if l.Drill == nil || l.Drill.Cause != "underbanked" || l.Drill.Want != 3 {
			t.Fatalf("leg %d: %+v", l.Number, l.Drill)
		}
		rows = append(rows, strconv.Itoa(l.Drill.Row)+" "+l.Drill.Verdict)
	}
	want := "0 missed, 1 met, 2 met, 0 missed, 1 met, 2 met, 3 met, 4 met"
	if got := strings.Join(rows, ", "); got != want {
		t.Errorf("in a row: %s; must be %s", got, want)
	}

	var results []string
	for _, k := range x.said {
		if k.Kind == coach.Result {
			results = append(results, k.Words)
		}
	}
	if d := cmp.Diff([]string{
		"Not yet, from one again", "Good, one of three", "Good, two of three", "Not yet, from one again",
		"Good, one of three", "Good, two of three", "Three in a row", "Good",
	}, results); d != "" {
		t.Error(d)
	}
	belongs(t, s, x, choice, "underbanked")
	if d := cmp.Diff(x.log.sent, s.again(x).sent); d != "" {
		t.Errorf("played again (+), otherwise:\n%s", d)
	}
}

// belongs holds what was said in flight to what belongs to a cause, and to more than nothing. After a leg nothing else
// is asked for.
func belongs(t *testing.T, s *school, x *exercise, choice maneuver.Choice, cause string) {
	t.Helper()
	card, err := s.cards.Judged(choice.Maneuver, choice.Standard)
	if err != nil {
		t.Fatal(err)
	}
	part, ok := drill.PartOf(card, cause)
	if !ok {
		t.Fatalf("%s cannot be drilled in %s", cause, choice.Maneuver)
	}
	said := 0
	for _, k := range x.said {
		fits := true
		switch k.Kind {
		case coach.Cue:
			of, err := strconv.ParseFloat(strings.TrimPrefix(k.ID, "cue-"), 64)
			fits = err == nil && part.HasCue(of)
		case coach.Watch:
			fits = part.HasWatch(k.ID) || k.ID == "stall-near" // safety
		case coach.After:
			fits = k.ID == "" || part.HasCheck(k.ID)
		case coach.NextTime:
			fits = strings.Contains(k.Words, "ank")
		default:
			continue
		}
		said++
		if !fits {
			t.Errorf("%s %s %q does not belong to %s: %+v", k.Kind, k.ID, k.Words, cause, part)
		}
	}
	if said < len(x.legs) {
		t.Errorf("only %d things are said of %s in %d legs", said, cause, len(x.legs))
	}
}

// TestDrillEnds: another choice ends a drill, and what is said then is what the pilot chose before.
func TestDrillEnds(t *testing.T) {
	s := newSchool(t)
	l := &log{t: t}
	live := &seat{school: s, session: s.begin(l)}
	choice := maneuver.Choice{Maneuver: "wing-over", Standard: "course", Aircraft: "radial-trainer"}
	do := func(a command.Action) {
		t.Helper()
		if err := (command.Command{Action: a}).Do(live); err != nil {
			t.Fatal(err)
		}
		live.session.Tick(0)
	}
	task, err := s.course.Task((&student{school: s}).progress(), "level-roll", "radial-trainer", monday)
	if err != nil {
		t.Fatal(err)
	}
	now := func() string {
		info := live.session.Info(0)
		if info.Task == nil {
			return info.Prompts
		}
		return info.Task.Step + info.Task.Cause + " " + info.Prompts
	}
	for _, c := range []struct {
		does command.Action
		want string
	}{
		{command.Prompt{How: "off"}, "off"},
		{command.Drill{Choice: choice, Cause: "underbanked"}, "underbanked all"},
		{command.Student{Name: "Ada Example"}, "underbanked all"},
		{command.Step{Task: task}, "level-roll all"},
		{command.Prompt{How: "fade"}, "level-roll fade"},
		{command.Drill{Choice: choice, Cause: "overbanked"}, "overbanked all"},
		{command.Choose{Choice: choice}, "fade"},
		{command.Step{Task: task}, "level-roll all"},
		{command.Student{Name: "Ben Example"}, "fade"},
	} {
		if do(c.does); now() != c.want {
			t.Errorf("after %+v: %s, must be %s", c.does, now(), c.want)
		}
	}
	if kept := live.session.Prompts(); kept != "fade" {
		t.Errorf("what the pilot chose is %s", kept)
	}
	if !slices.ContainsFunc(l.sent, func(m string) bool { return strings.Contains(m, `"cause":"underbanked"`) }) {
		t.Error("the pages are not told of the drill")
	}
}
