package playback_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/assess"
	"halfturn/coach/callout"
	"halfturn/coach/command"
	"halfturn/coach/course"
	"halfturn/coach/logbook"
	"halfturn/stream/trainer"
)

// monday is when the new student begins; each evening is some days after it.
var (
	monday   = time.Date(2031, time.May, 5, 18, 0, 0, 0, time.UTC)
	evenings = []int{0, 2, 4, 7, 9}
)

// perEvening is how many legs the student flies in an evening, about.
const perEvening = 32

// A student flies what the course says next. The hand is that of the built-in pilot: wrong in some of the first legs of
// what is new, and right later on. Once it slips.
type student struct {
	*school
	legs    []course.Flown
	flown   map[string]int // legs so far, by maneuver and standard
	lost    int            // legs of a wing-over that will be flown wrong again
	slipped bool           // the hand did
	seed    uint64
	passed  []string // steps, in the order in which they were passed
}

// wrongAt is which of the first legs of something new are flown wrong, from 0.
var wrongAt = []int{0, 1, 3}

// flaw is what is wrong with the next leg of a maneuver; "" is nothing. In the wing-over the power is moved at first,
// which the roll-out does not show.
func (s *student) flaw(name, standard string) string {
	key := name + " " + standard
	n := s.flown[key]
	s.flown[key]++
	switch {
	case name == "wing-over" && s.lost > 0:
		s.lost--
		return "early-rollout"
	case standard == "practice" && slices.Contains(wrongAt, n):
	case name == "wing-over" && standard == "practice" && n < 14 && n%4 == 0:
		return "power-changed"
	default:
		return ""
	}
	return "shallow"
}

// progress is how far the student has come.
func (s *student) progress() *course.Progress { return course.Follow(s.course, s.legs) }

// fly flies an item of a plan, and adds its legs to those of the student.
func (s *student) fly(item *course.Item, session string, began time.Time) *exercise {
	s.t.Helper()
	task := item.Task
	task.Aircraft = "radial-trainer"
	var flights []trainer.Flight
	right := item.Direction != "left"
	for range item.Legs {
		f := trainer.Flight{Maneuver: item.Maneuver, Direction: "left", Airplane: task.Aircraft, Seed: s.seed}
		if right {
			f.Direction = "right"
		}
		f.Flaw = s.flaw(item.Maneuver, item.Standard)
		flights = append(flights, f)
		right = !right
		s.seed++
	}
	x := s.school.fly(command.Step{Task: task}, flights...)
	n := 0
	for i := range x.report {
		for k := range x.report[i].Legs {
			n++
			series := &x.report[i]
			before := s.progress()
			if want := before.Step(item.Step).Prompts; x.how[n-1] != want {
				s.t.Errorf("%s, leg %d: what is said is %s; the course has %s", session, n, x.how[n-1], want)
			}
			s.legs = append(s.legs, course.Flown{
				Session: session, Number: n, Began: began, Maneuver: series.Maneuver, Standard: series.Standard,
				Aircraft: series.Aircraft, Within: series.Verdict == coach.Met, Leg: &series.Legs[k],
			})
			s.note(before)
		}
	}
	stands, err := s.course.Task(s.progress(), item.Step, x.task.Aircraft, began)
	if d := cmp.Diff(stands, x.task); err != nil || d != "" {
		s.t.Errorf("%s: the session (+) has the step otherwise; %v\n%s", session, err, d)
	}
	if n != item.Legs || len(x.how) != n {
		s.t.Errorf("%s: %d legs were graded, of %d", session, n, item.Legs)
	}
	return x
}

// note notes the steps that were passed by the latest leg.
func (s *student) note(before *course.Progress) {
	after := s.progress()
	for i := range after.Steps {
		if after.Steps[i].State == course.Passed && before.Steps[i].State != course.Passed {
			s.passed = append(s.passed, after.Steps[i].ID)
		}
	}
}

// A tally is what was said in flight, by how much was to be said.
type tally struct {
	states map[string][]string // how much it was in the legs of a step, by its state before them
	legs   map[string]int
	said   map[string]int // cues, corrections and tones
	steady map[string]int // cues after two good legs of the exercise
}

// take counts an exercise in a step that stood in some state.
func (c *tally) take(step, state string, x *exercise) {
	c.states[step+" "+state] = append(c.states[step+" "+state], x.how...)
	for i, l := range x.legs {
		c.legs[x.how[i]]++
		c.said[x.how[i]] += x.within(l, coach.Cue, coach.Watch, coach.After)
		if i >= 2 && x.legs[i-1].Verdict == coach.Met && x.legs[i-2].Verdict == coach.Met {
			c.steady[x.how[i]] += x.within(l, coach.Cue)
		}
	}
}

// TestFiveEvenings: a new student flies five evenings by the first course, through real coaching. The course leads from
// step to step; what is said fades; a slip brings it back; the checks are flown silent, one try, and passed. At each
// leg the station says as much as the course has for the legs before it. What was recorded gives the same again.
func TestFiveEvenings(t *testing.T) {
	s := &student{school: newSchool(t), flown: map[string]int{}}
	c := &tally{map[string][]string{}, map[string]int{}, map[string]int{}, map[string]int{}}
	for evening := range evenings {
		s.evening(evening, c)
	}
	for _, id := range s.course.IDs() {
		if !slices.Contains(s.passed, id) {
			t.Errorf("%s was not passed: %v", id, s.passed)
		}
	}
	if last := s.progress(); last.Now != "" {
		t.Errorf("after the last evening %s is to be worked on", last.Now)
	}
	s.faded(c.states)
	t.Logf("%d legs: %v; said in flight: %v", len(s.legs), c.legs, c.said)
	const all, fade, off = callout.PromptsAll, callout.PromptsFade, callout.PromptsOff
	share := func(how string) float64 { return float64(c.said[how]) / float64(c.legs[how]) }
	if !(share(all) > 1.3*share(fade) && share(fade) > 1) || c.said[off] > 0 || c.steady[fade] > 0 {
		t.Errorf("said in flight: %v in %v legs; cues after two good ones: %v", c.said, c.legs, c.steady)
	}
}

// evening flies an evening: what the course says next, each time, until it is late or all is passed.
func (s *student) evening(evening int, c *tally) {
	began := monday.AddDate(0, 0, evenings[evening])
	for n, k := 0, 1; n < perEvening; k++ {
		p := s.progress()
		if p.Now == "" {
			return
		}
		plan, err := s.course.Next(p, s.legs, course.Options{Now: began, Minutes: 20})
		if err != nil || len(plan.Items) == 0 {
			s.t.Fatalf("evening %d: nothing to fly; %v", evening+1, err)
		}
		item := &plan.Items[0]
		if item.Step != p.Now {
			s.t.Errorf("evening %d: %s is flown, and %s is to be worked on", evening+1, item.Step, p.Now)
		}
		if slices.Contains(s.passed, "wing-over-roll-out") && !s.slipped {
			s.lost, s.slipped = s.course.Slip.Missed, true
		}
		x := s.fly(item, fmt.Sprintf("evening %d, %d", evening+1, k), began)
		n += item.Legs
		c.take(item.Step, p.Step(item.Step).State, x)
		if s.course.Step(item.Step).Check {
			s.checkFlown(item, x)
		}
		if evening == 2 {
			if d := cmp.Diff(x.log.sent, s.again(x).sent); d != "" {
				s.t.Errorf("evening 3, %d: played again (+), otherwise:\n%s", k, d)
			}
		}
	}
}

// faded holds what was said in the legs of the steps to what must be: all at first, less later; and all again of what
// slipped, until it was good again.
func (s *student) faded(seen map[string][]string) {
	s.t.Helper()
	for _, id := range []string{"level-roll", "wing-over-to-45", "wing-over-to-90", "roll-out-from-90"} {
		how := seen[id+" open"]
		if how[0] != callout.PromptsAll || how[len(how)-1] != callout.PromptsFade {
			s.t.Errorf("%s: %v", id, how)
		}
	}
	for _, id := range []string{"wing-over-standard", "chandelle-standard"} {
		how := seen[id+" open"]
		if how[0] != callout.PromptsFade || how[len(how)-1] != callout.PromptsOff {
			s.t.Errorf("%s: %v", id, how)
		}
	}
	how := seen["wing-over-roll-out slipped"]
	if len(how) < 10 || how[0] != callout.PromptsAll || how[len(how)-1] != callout.PromptsFade {
		s.t.Errorf("after the slip: %v", how)
	}
	passed := 0
	for _, id := range s.passed {
		if id == "wing-over-roll-out" {
			passed++
		}
	}
	if passed != 2 {
		s.t.Errorf("what slipped was passed %d times: %v", passed, s.passed)
	}
}

// checkFlown holds a check flight to what it is: silent, one leg to each side, passed at once, with its form, in which
// no element is unsatisfactory.
func (s *student) checkFlown(item *course.Item, x *exercise) {
	s.t.Helper()
	if n := x.count(coach.Cue, coach.Watch, coach.After); n > 0 || item.Legs != 2 {
		s.t.Errorf("%s: %d legs, in which %d things were said", item.Step, item.Legs, n)
	}
	if at := s.progress().Step(item.Step); at.State != course.Passed || at.Tries != 2 {
		s.t.Errorf("%s: %s after %d tries", item.Step, at.State, at.Tries)
	}
	legs, satisfactory := 0, 0
	for _, f := range assess.Forms(s.cards, x.report, &logbook.Judging{}) {
		legs += f.Legs
		published := f.Document != ""
		form := strings.TrimSpace(f.Document + " " + f.Task)
		if f.Flown != "check" || published != (item.Maneuver == "chandelle-civil") || form != item.Form {
			s.t.Errorf("%s: by the standard %s; the form is %q, must be %q", item.Step, f.Flown, form, item.Form)
		}
		for _, e := range f.Elements {
			switch e.Computed {
			case logbook.Unsatisfactory:
				s.t.Errorf("%s: %s is not satisfactory", item.Step, e.ID)
			case logbook.Satisfactory:
				satisfactory++
			}
		}
	}
	if legs != 2 || item.Maneuver == "chandelle-civil" && satisfactory < 10 {
		s.t.Errorf("%s: forms of %d legs, with %d satisfactory elements", item.Step, legs, satisfactory)
	}
}
