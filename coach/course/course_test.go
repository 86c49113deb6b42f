package course

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/coach/maneuver"
	"halfturn/configs"
)

// shipped are the courses inside the program.
func shipped(t testing.TB) *Library {
	t.Helper()
	cards, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	l, err := LoadLibrary(cards, configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func named(t testing.TB, name string) *Course {
	t.Helper()
	c, err := shipped(t).Named(name)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// small is a course of three steps, the third a check flight, of which two good tries to each side pass the others.
const small = `
name = "small"
title = "Small"
summary = "For tests."
source = "common practice, no source"
[pass]
good = 2
of = 3
sides = "each"
source = "common practice, no source"
[slip]
missed = 2
source = "common practice, no source"
[[step]]
id = "part"
title = "Part"
maneuver = "wing-over"
checks = ["bank-at-45", "highest-nose"]
standard = "practice"
prompts = "all"
unlocks = ["whole"]
source = "common practice, no source"
[[step]]
id = "whole"
title = "Whole"
maneuver = "wing-over"
standard = "course"
prompts = "all"
unlocks = ["check"]
source = "common practice, no source"
[[step]]
id = "check"
title = "Check"
maneuver = "wing-over"
standard = "check"
prompts = "off"
check-flight = true
source = "common practice, no source"
`

func load(t testing.TB, text string) *Course {
	t.Helper()
	c, err := Load("small.toml", []byte(text), shipped(t).Cards())
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// monday is when the student of the tests begins.
var monday = time.Date(2031, time.May, 5, 18, 0, 0, 0, time.UTC)

// flown writes legs of a wing-over: R and L are good ones to the right and left, r and l missed ones; each of the other
// words begins a session of a standard, a number of days after the first.
func flown(t testing.TB, words string) (legs []Flown) {
	t.Helper()
	standard, day, n := "practice", 0, 0
	for _, w := range strings.Fields(words) {
		if name, on, ok := strings.Cut(w, "@"); ok {
			standard, n = name, 0
			if _, err := fmt.Sscan(on, &day); err != nil {
				t.Fatal(err)
			}
			continue
		}
		for _, c := range w {
			n++
			began := monday.AddDate(0, 0, day)
			legs = append(legs, Flown{
				Session: fmt.Sprintf("%s-%s", began.Format("20060102"), standard), Number: n, Began: began,
				Maneuver: "wing-over", Standard: standard, Aircraft: "radial-trainer",
				Within: strings.ContainsRune("RL", c),
				Leg:    legOf(c),
			})
		}
	}
	return legs
}

// legOf makes a leg that is within standard, or was missed by one check, which is part of the small course.
func legOf(c rune) *coach.Leg {
	l := &coach.Leg{Direction: "right", Outcome: coach.Finished, Verdict: coach.Met, Score: 90, Grade: coach.Good}
	if strings.ContainsRune("Ll", c) {
		l.Direction = "left"
	}
	for _, id := range []string{"bank-at-45", "highest-nose", "exit-heading"} {
		l.Checks = append(l.Checks, coach.Check{ID: id, Label: "Label of " + id, Weight: 1, Score: 100,
			Verdict: coach.Met})
	}
	if strings.ContainsRune("rl", c) {
		l.Verdict, l.Score, l.Grade = coach.Missed, 50, coach.Unable
		l.Checks[1].Verdict, l.Checks[1].Score = coach.Missed, 0
	}
	return l
}

// states writes how the steps of a progress stand.
func states(p *Progress) string {
	var all []string
	for i := range p.Steps {
		all = append(all, p.Steps[i].State)
	}
	return strings.Join(all, " ")
}

// A step is passed by enough good tries among the last few to each side, and what it unlocks is open from the next leg.
func TestFollow(t *testing.T) {
	c := load(t, small)
	for _, x := range []struct{ legs, states, now string }{
		{"", "open locked locked", "part"},
		{"RRLL", "passed open locked", "whole"},
		{"RLRL", "passed open locked", "whole"},
		{"RRRRR", "open locked locked", "part"},                          // one side only
		{"RrRLlL", "passed open locked", "whole"},                        // two of three
		{"RrrRLL", "open locked locked", "part"},                         // one of the last three to the right
		{"course@0 RRLL", "open locked locked", "part"},                  // another standard
		{"RRLL course@0 RRLL", "passed passed open", "check"},            //
		{"course@0 RRLL practice@0 RRLL", "passed open locked", "whole"}, // before it was unlocked
		{"RRLL rl", "slipped open locked", "part"},                       // slipped, and nothing is locked again
		{"RRLL rRl", "passed open locked", "whole"},                      // not in a row
		{"RRLL rl RRL", "slipped open locked", "part"},                   // passed again by the same rule
		{"RRLL rl RRLL", "passed open locked", "whole"},                  //
		{"RRLL course@0 RRLL check@1 RL", "passed passed passed", ""},    //
		{"RRLL course@0 RRLL check@1 RlL", "passed passed open", "check"},
		{"RRLL course@0 RRLL check@1 R check@2 L", "passed passed open", "check"}, // not on one day
		{"RRLL course@0 RRLL check@1 rR check@2 LlRr", "passed passed passed", ""},
		{"RRLL course@0 RRLL check@1 RL check@2 rl check@3 rl", "passed passed passed", ""}, // stays passed
	} {
		p := Follow(c, flown(t, x.legs))
		if states(p) != x.states || p.Now != x.now {
			t.Errorf("%q: %s, now %q; must be %s, now %q", x.legs, states(p), p.Now, x.states, x.now)
		}
	}
}

// What a step says of itself: the tries that passed it, its sides, what was missed, how much is said.
func TestState(t *testing.T) {
	c := load(t, small)
	p := Follow(c, flown(t, "RrLR L course@3 rRlr"))
	part, whole := p.Step("part"), p.Step("whole")
	if p.Passed != 1 || p.Step("none") != nil || part.Tries != 5 || part.Good != 4 ||
		part.Last != "2031-05-05T18:00:00Z" || whole.Last != "2031-05-08T18:00:00Z" {
		t.Errorf("%+v", p)
	}
	var by []string
	for _, x := range part.PassedBy {
		by = append(by, fmt.Sprintf("%s %d %s %v", x.Session, x.Number, x.Direction, x.Good))
	}
	if got, want := strings.Join(by, ", "), "20310505-practice 1 right true, 20310505-practice 2 right false, "+
		"20310505-practice 3 left true, 20310505-practice 4 right true, 20310505-practice 5 left true"; got != want {
		t.Errorf("passed by %s; must be %s", got, want)
	}
	if want := []Side{{"right", 1, 3, 2}, {"left", 0, 1, 2}}; !slices.Equal(whole.Sides, want) {
		t.Errorf("sides are %+v", whole.Sides)
	}
	if want := []Missed{{"highest-nose", "Label of highest-nose", 3, 4}}; !slices.Equal(whole.Missed, want) {
		t.Errorf("missed are %+v", whole.Missed)
	}
	if len(whole.Lately) != 4 || len(whole.PassedBy) != 0 || len(part.Lately) != 5 {
		t.Errorf("lately: %+v, %+v", whole.Lately, part.Lately)
	}
}

// Prompts fade as a step is passed, and return when it slips; a check flight is silent.
func TestPrompts(t *testing.T) {
	c := load(t, small)
	for legs, want := range map[string]string{
		"":                              "all all off",
		"R":                             "all all off",
		"RR":                            "fade all off", // two in a row
		"RRr":                           "all all off",
		"RRLL":                          "fade all off", // passed
		"RRLL r":                        "all all off",
		"RRLL rL":                       "fade all off",
		"RRLL rl":                       "all all off", // slipped
		"RRLL rl R":                     "all all off",
		"RRLL rl RL":                    "fade all off",
		"RRLL course@0 RRLL check@0 RL": "fade fade off",
	} {
		p := Follow(c, flown(t, legs))
		got := []string{p.Steps[0].Prompts, p.Steps[1].Prompts, p.Steps[2].Prompts}
		if strings.Join(got, " ") != want {
			t.Errorf("%q: %v; must be %s", legs, got, want)
		}
	}
}

// What is said fades with tries that are good and returns with those that are not: by state, and good tries in a row.
func TestSay(t *testing.T) {
	const all, fade, off = callout.PromptsAll, callout.PromptsFade, callout.PromptsOff
	for _, c := range []struct {
		state          string
		row            int
		all, fade, off string // by what the card has
	}{
		{Locked, 0, all, fade, off},
		{Open, -3, all, fade, off},
		{Open, 1, all, fade, off},
		{Open, 2, fade, fade, off},
		{Passed, 0, fade, off, off},
		{Passed, 1, fade, off, off},
		{Passed, -1, all, fade, off},
		{Slipped, -3, all, all, off},
		{Slipped, 1, all, all, off},
		{Slipped, 2, fade, fade, off},
	} {
		for has, want := range map[string]string{all: c.all, fade: c.fade, off: c.off} {
			if got := (&Step{Prompts: has}).Say(c.state, c.row); got != want {
				t.Errorf("%s of %s, %d in a row: %s; must be %s", has, c.state, c.row, got, want)
			}
			if got := (&Step{Prompts: has, Check: true}).Say(c.state, c.row); got != off {
				t.Errorf("a check flight says %s", got)
			}
		}
	}
}

// A part is judged by its own checks; the whole and the check flight by more.
func TestTries(t *testing.T) {
	change := func(f func(l *coach.Leg)) *coach.Leg { l := legOf('R'); f(l); return l }
	missed := func(id string) *coach.Leg {
		return change(func(l *coach.Leg) {
			l.Verdict = coach.Missed
			for i := range l.Checks {
				if l.Checks[i].ID == id {
					l.Checks[i].Verdict, l.Checks[i].Score = coach.Missed, 0
				}
			}
		})
	}
	given := func(measured bool) *coach.Leg {
		return change(func(l *coach.Leg) {
			l.Verdict, l.Outcome = coach.Missed, coach.BrokenOff
			if !measured {
				l.Checks[0].Verdict = coach.NotMeasured
			}
		})
	}
	nothing := change(func(l *coach.Leg) {
		l.Verdict = coach.NotMeasured
		for i := range l.Checks {
			l.Checks[i].Verdict = coach.NotMeasured
		}
	})
	const good, bad, none = "good", "missed", "no try"
	for _, x := range []struct {
		name               string
		leg                *coach.Leg
		within             bool
		part, whole, check string
	}{
		{"within standard", legOf('R'), true, good, good, good},
		{"missed in the part", missed("bank-at-45"), false, bad, bad, bad},
		{"missed elsewhere", missed("exit-heading"), false, good, bad, bad},
		{"given up after the part", given(true), false, good, bad, bad},
		{"given up before its end", given(false), false, bad, bad, bad},
		{"knocked off", change(func(l *coach.Leg) { l.Verdict, l.Outcome = coach.Missed, coach.KnockOff }), false,
			bad, bad,
			bad},
		{"cut by the stream", change(func(l *coach.Leg) { l.Verdict, l.Outcome = coach.NotMeasured, coach.BrokenOff }),
			false, good, none, none},
		{"not measured", nothing, false, none, none, none},
		{"another maneuver", change(func(l *coach.Leg) {
			l.Verdict, l.Another = coach.NotMeasured, &coach.Another{Maneuver: "lazy-eight"}
		}), false, none, none, none},
		{"with a correction", change(func(l *coach.Leg) { l.Said = 1 }), true, good, good, bad},
		{"in a series that is not", legOf('R'), false, good, good, bad},
		{"overruled as a whole", change(func(l *coach.Leg) {
			l.Overruled, l.Verdict = &coach.Overruled{}, coach.Missed
		}), true, good, bad, bad},
	} {
		c := load(t, small)
		for i, want := range []string{x.part, x.whole, x.check} {
			before := fmt.Sprintf("%+v", *x.leg)
			try, ok := c.Steps[i].judge(&Flown{Leg: x.leg, Within: x.within, Aircraft: "radial-trainer"})
			got := none
			if ok {
				got = map[bool]string{true: good, false: bad}[try.Good]
			}
			if got != want {
				t.Errorf("%s: the %s is %s; must be %s", x.name, c.Steps[i].ID, got, want)
			}
			if fmt.Sprintf("%+v", *x.leg) != before {
				t.Errorf("%s: the leg was changed", x.name)
			}
			if try.Overruled != (x.leg.Overruled != nil && i > 0) && ok {
				t.Errorf("%s: the %s says overruled %v", x.name, c.Steps[i].ID, try.Overruled)
			}
		}
	}
}

// scatter writes legs as flown reads them: after two steps that are passed, sessions of any standard, a day apart, of a
// student who is good four times in five.
func scatter(seed int) string {
	random := rand.New(rand.NewPCG(uint64(seed), 7))
	b := []byte("practice@0 RRLL course@0 RLRL")
	for day := range 6 {
		b = fmt.Appendf(b, " %s@%d ", []string{"practice", "course", "check"}[random.IntN(3)], day)
		for range 2 + random.IntN(10) {
			side := "RL"[random.IntN(2)]
			if random.Float64() > 0.8 {
				side += 'r' - 'R'
			}
			b = append(b, side)
		}
	}
	return string(b)
}

// However somebody flies: what was once passed stays passed or has slipped, a step is open once all that unlock it were
// passed, and the same legs give the same progress.
func TestFollowHolds(t *testing.T) {
	c := load(t, small)
	for seed := range 50 {
		legs := flown(t, scatter(seed))
		once := map[string]bool{}
		for n := range len(legs) + 1 {
			p := Follow(c, legs[:n])
			if again := Follow(c, legs[:n]); fmt.Sprint(*p) != fmt.Sprint(*again) {
				t.Fatalf("seed %d: %v and %v", seed, *p, *again)
			}
			for i := range p.Steps {
				s := &p.Steps[i]
				if once[s.ID] && s.State != Passed && s.State != Slipped {
					t.Fatalf("seed %d: after %d legs %s is %s, and was passed", seed, n, s.ID, s.State)
				}
				once[s.ID] = once[s.ID] || s.State == Passed
				unlocked := i == 0 || once[p.Steps[i-1].ID]
				if (s.State != Locked) != unlocked {
					t.Fatalf("seed %d: after %d legs %s is %s", seed, n, s.ID, s.State)
				}
				if (s.State == Passed || s.State == Slipped) != (len(s.PassedBy) > 0) {
					t.Fatalf("seed %d: %s is %s by %d tries", seed, s.ID, s.State, len(s.PassedBy))
				}
			}
		}
		if !once["whole"] && seed == 0 {
			t.Error("nothing is passed: the test shows nothing")
		}
	}
}
