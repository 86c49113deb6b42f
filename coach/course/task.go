package course

import (
	"slices"
	"time"

	"halfturn/coach/callout"
	"halfturn/coach/maneuver"
	"halfturn/stream/phrase"
)

// A Task is a step as a station is set up for it: what is flown, what passes it, and how the student stands in it. It
// holds all that is needed to go on counting without the course and without the legs before, so that a recording in
// which it stands can be played anywhere.
type Task struct {
	Course string `json:"course"`
	Step   string `json:"step"` // its id
	Title  string `json:"title"`
	maneuver.Choice
	Checks  []string `json:"checks"`  // the part that counts; none is all of it
	Prompts string   `json:"prompts"` // as the course has it
	Check   bool     `json:"checkFlight"`
	Good    int      `json:"good"` // good legs that pass it
	Of      int      `json:"of"`   // among this many of the last
	Sides   string   `json:"sides"`
	Slip    int      `json:"slip"` // missed in a row that take it back
	Stands  Standing `json:"stands"`
}

// A Standing is how a student stands in a step, as far as the next tries depend on it.
type Standing struct {
	State string  `json:"state"`
	Row   int     `json:"row"`   // good tries in a row; below 0 those that were not
	Right []bool  `json:"right"` // whether the tries that the rule looks at were good, oldest first; or of either side
	Left  []bool  `json:"left"`
	Tried [2]bool `json:"tried"` // the check flight of the day, to the right and to the left
}

// Task is a step of the course as a station is set up for it, for a student who stands as Follow says, on a day, in an
// aircraft; "" is none. The error is a step that the course does not have.
func (c *Course) Task(p *Progress, step, aircraft string, now time.Time) (Task, error) {
	s := c.Step(step)
	if s == nil {
		return Task{}, NoStep(c, step)
	}
	stands := p.Step(step).stands
	if last, err := time.Parse(time.RFC3339, p.Step(step).Last); err != nil || days(last, now) != 0 {
		stands.Tried = [2]bool{}
		if s.Check && stands.State != Passed {
			stands.Right, stands.Left = []bool{}, []bool{}
		}
	}
	return Task{
		Course:  c.Name,
		Step:    s.ID,
		Title:   s.Title,
		Choice:  maneuver.Choice{Maneuver: s.Maneuver, Standard: s.Standard, Aircraft: aircraft},
		Checks:  s.Checks,
		Prompts: s.Prompts,
		Check:   s.Check,
		Good:    s.Pass.Good,
		Of:      s.Pass.Of,
		Sides:   s.Pass.Sides,
		Slip:    c.Slip.Missed,
		Stands:  stands,
	}, nil
}

// Bounds of what a task says.
const (
	longestWord = 100 // letters of a name or a title
	mostChecks  = 100
)

// Validate returns an error that names what is wrong with a task that somebody sent.
func (t *Task) Validate() error {
	wrong := func(what string) error { return phrase.CourseTask.Error(phrase.Name("what", what)) }
	words := append([]string{t.Course, t.Step, t.Title, t.Maneuver, t.Standard, t.Aircraft}, t.Checks...)
	switch {
	case t.Step == "":
		return wrong("step")
	case t.Maneuver == "":
		return wrong("maneuver")
	case len(t.Checks) > mostChecks || slices.ContainsFunc(words, func(w string) bool { return len(w) > longestWord }):
		return wrong("checks")
	case !slices.Contains(callout.Prompts()[1:], t.Prompts):
		return wrong("prompts")
	case t.Of < 1 || t.Of > mostOf:
		return wrong("of")
	case t.Good < 1 || t.Good > t.Of:
		return wrong("good")
	case t.Sides != EachSide && t.Sides != EitherSide:
		return wrong("sides")
	case t.Slip < 1 || t.Slip > mostOf:
		return wrong("slip")
	case !slices.Contains([]string{Locked, Open, Passed, Slipped}, t.Stands.State),
		len(t.Stands.Right) > t.Of, len(t.Stands.Left) > t.Of:
		return wrong("stands")
	}
	return nil
}

// A Trial goes on counting the tries at a step, leg by leg, while a session is flown. It is not safe for concurrent
// use.
type Trial struct {
	task Task
	at   follower
}

// flying is the day of the legs of a session: they have no date there.
var flying = time.Time{}

// Resume begins where a task stands. The task is valid.
func Resume(t Task) *Trial {
	step := &Step{
		ID: t.Step, Title: t.Title, Maneuver: t.Maneuver, Checks: t.Checks, Standard: t.Standard, Prompts: t.Prompts,
		Check: t.Check, Pass: &Rule{Good: t.Good, Of: t.Of, Sides: t.Sides},
	}
	r := &Trial{task: t, at: follower{step: step, slip: t.Slip, state: t.Stands.State, row: t.Stands.Row}}
	for side, tries := range [][]bool{t.Stands.Right, t.Stands.Left} {
		for _, good := range tries {
			r.at.windows[side] = append(r.at.windows[side], Try{Good: good})
		}
	}
	year, month, day := flying.Date()
	r.at.day, r.at.flown = [3]int{year, int(month), day}, t.Stands.Tried
	return r
}

// Task is what was set up, with how it stands now.
func (r *Trial) Task() Task {
	t := r.task
	t.Stands = r.at.standing()
	return t
}

// Take counts a leg of the session that is flown. Of a check flight it is to be called once the series is over, since
// that counts too.
func (r *Trial) Take(l Flown) {
	l.Began = flying
	r.at.take(&l)
}

// Prompts is how much is said in the next leg.
func (r *Trial) Prompts() string { return r.at.step.Say(r.at.state, r.at.row) }

// Sides are what counts toward the rule.
func (r *Trial) Sides() []Side { return r.at.sides() }

// standing is how the follower stands, as data.
func (f *follower) standing() Standing {
	s := Standing{State: f.state, Row: f.row, Right: []bool{}, Left: []bool{}, Tried: f.flown}
	for i := range f.windows[0] {
		s.Right = append(s.Right, f.windows[0][i].Good)
	}
	for i := range f.windows[1] {
		s.Left = append(s.Left, f.windows[1][i].Good)
	}
	return s
}
