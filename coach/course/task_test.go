package course

import (
	"encoding/json"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
)

// A trial that goes on from a task, also from one that was written and read back, comes to what following all legs
// comes to.
func TestResume(t *testing.T) {
	c := load(t, small)
	random := rand.New(rand.NewPCG(5, 1))
	for range 300 {
		words := []string{"practice@0", letters(random, 12), "course@0", letters(random, 6), "check@0",
			letters(random, 3)}
		legs := flown(t, strings.Join(words, " "))
		cut := random.IntN(len(legs))
		for i := range c.Steps {
			id := c.Steps[i].ID
			task, err := c.Task(Follow(c, legs[:cut]), id, "radial-trainer", monday)
			if err != nil || task.Validate() != nil {
				t.Fatal(err, task.Validate())
			}
			if task.Stands.State == Locked {
				continue // what unlocks it is another step's
			}
			data, err := json.Marshal(task)
			if err != nil {
				t.Fatal(err)
			}
			var read Task
			if err := json.Unmarshal(data, &read); err != nil {
				t.Fatal(err)
			}
			r := Resume(read)
			for k := cut; k < len(legs); k++ {
				r.Take(legs[k])
			}
			p := Follow(c, legs)
			want, err := c.Task(p, id, "radial-trainer", monday)
			if err != nil {
				t.Fatal(err)
			}
			if d := cmp.Diff(want, r.Task()); d != "" {
				t.Fatalf("%v after %d: %s\n%s", words, cut, id, d)
			}
			if r.Prompts() != p.Step(id).Prompts {
				t.Fatalf("%v after %d: %s says %s, must be %s", words, cut, id, r.Prompts(), p.Step(id).Prompts)
			}
		}
	}
}

// letters are legs of a student who meets the standard three times in four.
func letters(random *rand.Rand, n int) string {
	var b strings.Builder
	for range n {
		b.WriteByte("RLRLRLrl"[random.IntN(8)])
	}
	return b.String()
}

// A check flight that was tried yesterday can be tried again today; one that was tried today cannot.
func TestTaskOfCheck(t *testing.T) {
	c := load(t, small)
	p := Follow(c, flown(t, "RRLL course@0 RRLL check@1 Rl"))
	for day, want := range map[int]string{1: Open, 2: Passed} {
		task, err := c.Task(p, "check", "radial-trainer", monday.AddDate(0, 0, day))
		if err != nil {
			t.Fatal(err)
		}
		r := Resume(task)
		for _, l := range flown(t, "check@2 RL") {
			r.Take(l)
		}
		if got := r.Task().Stands.State; got != want {
			t.Errorf("on day %d: %s, must be %s", day, got, want)
		}
	}
	if _, err := c.Task(p, "loop", "", monday); err == nil || !strings.Contains(err.Error(), "part, whole, check") {
		t.Errorf("a step that is not there: %v", err)
	}
}

// What somebody sends as a task is held to its bounds.
func TestValidate(t *testing.T) {
	c := load(t, small)
	good, err := c.Task(Follow(c, nil), "part", "", monday)
	if err != nil || good.Validate() != nil {
		t.Fatal(err, good.Validate())
	}
	for what, change := range map[string]func(t *Task){
		"step":     func(t *Task) { t.Step = "" },
		"maneuver": func(t *Task) { t.Maneuver = "" },
		"checks":   func(t *Task) { t.Checks = slices.Repeat([]string{"x"}, 101) },
		"prompts":  func(t *Task) { t.Prompts = "card" },
		"good":     func(t *Task) { t.Good = t.Of + 1 },
		"of":       func(t *Task) { t.Of = 0 },
		"sides":    func(t *Task) { t.Sides = "both" },
		"slip":     func(t *Task) { t.Slip = 1000 },
		"stands":   func(t *Task) { t.Stands.State = "done" },
	} {
		bad := good
		change(&bad)
		if err := bad.Validate(); err == nil || !strings.Contains(err.Error(), `"`+what+`" is missing or wrong`) {
			t.Errorf("%s: %v", what, err)
		}
	}
	long := good
	long.Stands.Left = make([]bool, 4)
	if long.Validate() == nil {
		t.Error("more tries than the rule looks at are taken")
	}
}

// A leg that was not measured is no try, also in a trial.
func TestTrialLeavesOut(t *testing.T) {
	c := load(t, small)
	task, err := c.Task(Follow(c, nil), "whole", "", monday)
	if err != nil {
		t.Fatal(err)
	}
	task.Stands.State = Open
	r := Resume(task)
	l := flown(t, "course@0 R")[0]
	l.Leg.Verdict = coach.NotMeasured
	r.Take(l)
	if got := r.Task().Stands; got.Row != 0 || len(got.Right) != 0 {
		t.Errorf("counted: %+v", got)
	}
}
