package course

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/stream/phrase"
)

// planned writes the items of a plan: step, legs, first side, "?" where it is optional, and the code of why.
func planned(p *Plan) string {
	var all []string
	for i := range p.Items {
		x := &p.Items[i]
		mark := ""
		if x.Optional {
			mark = "?"
		}
		why := strings.TrimPrefix(x.Why.Code(), "course.why-")
		all = append(all, fmt.Sprintf("%s %d%s%s %s", x.Step, x.Legs, x.Direction[:1], mark, why))
	}
	return strings.Join(all, ", ")
}

// What is to be flown next, by the rules of the package documentation; each leg takes two minutes.
func TestNext(t *testing.T) {
	c := load(t, small)
	const whole, both = "practice@0 RRLL", "practice@0 RRLL course@0 RRLL"
	for _, x := range []struct {
		name, legs string
		day        int
		minutes    float64
		step, want string
	}{
		{"nothing flown", "", 0, 0, "", "part 4r new"},
		{"new after a week away", whole, 7, 0, "", "part 2r? warm-up, whole 2r new"},
		{"new after two weeks away", whole, 14, 0, "", "part 2r warm-up, whole 2r new"},
		{"the day before", whole, 6, 0, "", "whole 4r new"},
		{"a long evening", whole, 1, 60, "", "whole 8r new"},
		{"no time at all", whole, 1, 1, "", "whole 2r new"},
		{"the side with fewer good ones first", "RrR", 1, 0, "", "part 4l new"},
		{"no longer new", whole + " course@1 Rrlrlr", 2, 9, "", "whole 2l mixed, part 2r again"},
		{"with more time", whole + " course@1 Rrlrlr", 2, 12, "", "whole 2l mixed, part 2r again, whole 2l mixed"},
		{"due", whole + " course@8 Rrlrlr", 9, 9, "", "whole 2l mixed, part 2r due"},
		{"new, and another due", whole + " course@8 R", 9, 0, "", "whole 2l new, part 2r due"},
		{"what slipped comes first", both + " practice@1 rl", 2, 9, "", "part 2r slipped, whole 2r again"},
		{"the check first of all", both, 1, 9, "", "check 2r check, part 2r again"},
		{"the check after two weeks", both, 15, 9, "", "check 2r check, part 2r warm-up"},
		{"a check a day", both + " check@1 Rl", 1, 9, "", "part 2r again, whole 2r again"},
		{"another the day after", both + " check@1 Rl", 2, 5, "", "check 2r check"},
		{"all passed", both + " check@1 RL", 9, 9, "", "part 2r? warm-up, whole 2r due"},
		{"chosen", both, 1, 5, "whole", "whole 2r chosen"},
		{"chosen, not open yet", whole, 1, 5, "check", "check 2r locked"},
	} {
		legs := flown(t, x.legs)
		p, err := c.Next(Follow(c, legs), legs, Options{
			Now: monday.AddDate(0, 0, x.day), Minutes: x.minutes, Step: x.step,
		})
		if err != nil || planned(p) != x.want {
			t.Errorf("%s: %v %v; must be %s", x.name, planned(p), err, x.want)
			continue
		}
		for i := range p.Items {
			if item := &p.Items[i]; (item.Source == "") != (x.step != "") || item.Title == "" || item.Prompts == "" {
				t.Errorf("%s: %+v", x.name, item)
			}
		}
	}
	if _, err := c.Next(Follow(c, nil), nil, Options{Now: monday, Step: "loop"}); err == nil ||
		!phrase.OfError(err).Is(phrase.NoCourseStep) {
		t.Errorf("an unknown step: %v", err)
	}
}

// What to mind is the thing that came most often in the tries of the step; legs take what they took the student.
func TestMindAndMinutes(t *testing.T) {
	c := load(t, small)
	legs := flown(t, "rrRrl")
	for i, words := range []string{"Bank less", "Pull more gently", "", "Pull more gently", "Bank less"} {
		l := legs[i].Leg
		l.Start = float64(i) * 60
		for k := range l.Checks {
			if l.Checks[k].Verdict == coach.Missed {
				l.Checks[k].Words = words
			}
		}
	}
	p, err := c.Next(Follow(c, legs), legs, Options{Now: monday})
	if err != nil {
		t.Fatal(err)
	}
	if x := p.Items[0]; x.Mind.String() != "Bank less" || x.Legs != 8 || x.Minutes != 8 {
		t.Errorf("%+v", x)
	}
}

// Days are those of the calendar where the student is.
func TestDays(t *testing.T) {
	east := time.FixedZone("", 10*3600)
	at := func(day, hour int) time.Time { return time.Date(2031, 5, day, hour, 0, 0, 0, time.UTC) }
	for _, x := range []struct {
		from, to time.Time
		want     int
	}{
		{at(5, 1), at(5, 23), 0}, {at(5, 23), at(6, 1), 1}, {at(5, 23), at(6, 1).In(east), 0}, {at(5, 13), at(5,
			15).In(east), 1},
		{at(1, 12), at(29, 12), 28}, {at(6, 1), at(5, 1), 0},
	} {
		if got := days(x.from, x.to); got != x.want {
			t.Errorf("%v to %v: %d days; must be %d", x.from, x.to, got, x.want)
		}
	}
}

// A student who gets better at what is flown, and does what the plan says, passes the first course: prompts fade step
// by step, and the check flights come last.
func TestFirstEvenings(t *testing.T) {
	c := named(t, "first")
	random := rand.New(rand.NewPCG(3, 1))
	var legs []Flown
	skill := map[string]int{} // legs of a maneuver so far
	evenings, silent := 0, 0
	for p := Follow(c, legs); p.Now != ""; p = Follow(c, legs) {
		if evenings++; evenings > 25 {
			t.Fatalf("after %d evenings: %s", evenings, states(p))
		}
		began := monday.AddDate(0, 0, evenings)
		plan, err := c.Next(p, legs, Options{Now: began, Minutes: 45})
		if err != nil || len(plan.Items) == 0 {
			t.Fatalf("%+v, %v", plan, err)
		}
		n := 0
		for i := range plan.Items {
			x := &plan.Items[i]
			if want := c.Step(x.Step).Say(p.Step(x.Step).State, p.Step(x.Step).stands.Row); x.Prompts != want {
				t.Errorf("%s: prompts are %s, must be %s", x.Step, x.Prompts, want)
			}
			if x.Prompts == callout.PromptsOff {
				silent++
			}
			for k := range x.Legs {
				n++
				skill[x.Maneuver]++
				good := random.Float64() < min(0.97, 0.4+0.04*float64(skill[x.Maneuver]))
				legs = append(legs, practiced(c, x, k, n, began, good))
			}
		}
	}
	first, last := c.Step("level-roll").ID, len(c.Steps)-1
	p := Follow(c, legs)
	if len(p.Step(first).PassedBy) < 10 || p.Steps[last].State != Passed || silent < 2 || evenings < 5 {
		t.Errorf("after %d evenings, silent %d: %s", evenings, silent, states(p))
	}
	t.Logf("%d legs in %d evenings", len(legs), evenings)
}

// practiced is a leg of an item; all checks of the steps of its maneuver are met, or none.
func practiced(c *Course, x *Item, k, n int, began time.Time, good bool) Flown {
	l := &coach.Leg{Direction: []string{"right", "left"}[k%2], Outcome: coach.Finished, Verdict: coach.Missed}
	if good {
		l.Verdict = coach.Met
	}
	for i := range c.Steps {
		for _, id := range c.Steps[i].Checks {
			k := coach.Check{ID: id, Weight: 1, Verdict: l.Verdict}
			if good {
				k.Score = 90
			}
			l.Checks = append(l.Checks, k)
		}
	}
	return Flown{Session: began.Format(time.DateOnly), Number: n, Began: began, Maneuver: x.Maneuver,
		Standard: x.Standard,
		Aircraft: "radial-trainer", Within: good, Leg: l}
}
