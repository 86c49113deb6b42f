package course

import (
	"slices"
	"time"

	"halfturn/coach"
)

// The states of a step.
const (
	Locked  = "locked"  // a step that unlocks it was not passed yet
	Open    = "open"    // to be flown
	Passed  = "passed"  //
	Slipped = "slipped" // was passed, and missed again since
)

// A Flown is a graded leg of a student, as it stands once everything that was overruled is counted.
type Flown struct {
	Session  string
	Number   int       // in the session, from 1
	Began    time.Time // when the session did, in the time zone whose days count
	Maneuver string    // names of cards
	Standard string
	Aircraft string // "" is none
	Within   bool   // its series as a whole is within standard
	Signed   bool   // its session is
	Leg      *coach.Leg
}

// A Try is a leg that counts in a step.
type Try struct {
	Session   string  `json:"session"`
	Number    int     `json:"n"`     // of the leg in the session, from 1
	Began     string  `json:"began"` // of the session, RFC 3339
	Direction string  `json:"direction"`
	Verdict   string  `json:"verdict"` // of what counts in the step
	Score     float64 `json:"score"`
	Grade     string  `json:"grade"`
	Good      bool    `json:"good"`
	Overruled bool    `json:"overruled,omitempty"` // a person had a say in the verdict
	Signed    bool    `json:"signed,omitempty"`    // its session is

	at    int // among all tries at the step
	began time.Time
}

// A Progress is how far a student has come in a course.
type Progress struct {
	Course string  `json:"course"`
	Cause  string  `json:"cause,omitempty"` // the weakness that the course was built against
	Now    string  `json:"now"`             // id of the step to work on; "" when all is passed
	Passed int     `json:"passed"`          // steps
	Steps  []State `json:"steps"`
}

// A State is how a step stands.
type State struct {
	ID       string   `json:"id"`
	State    string   `json:"state"`
	Prompts  string   `json:"prompts"`  // how much is said in it now
	Sides    []Side   `json:"sides"`    // what counts toward the rule, until it is passed
	Tries    int      `json:"tries"`    // all there were
	Good     int      `json:"good"`     // of them
	Last     string   `json:"last"`     // when the session of the latest began, RFC 3339; "" before the first
	PassedBy []Try    `json:"passedBy"` // the tries that passed it
	Lately   []Try    `json:"lately"`   // the tries that the rule looks at now, or after it was passed the latest
	Missed   []Missed `json:"missed"`   // in the latest tries, the most frequent first
	Ruled    *Ruling  `json:"ruled"`    // what a person said of it last; null is nothing

	stands Standing
}

// A Side is what counts toward a rule on one side.
type Side struct {
	Direction string `json:"direction"` // "" is either
	Good      int    `json:"good"`
	Of        int    `json:"of"` // tries the rule looks at so far
	Need      int    `json:"need"`
}

// A Missed is a check that was missed.
type Missed struct {
	ID    string `json:"id"`
	Label string `json:"label"`
	Times int    `json:"times"`
	Of    int    `json:"of"` // tries
}

// latest is over how many tries it is counted what was missed; common practice, no source.
const latest = 10

// Follow returns how far a student has come who flew some legs, in this order, with what people said of steps in
// between, oldest first. It changes none of its arguments.
func Follow(c *Course, legs []Flown, said ...Ruling) *Progress {
	steps := make([]follower, len(c.Steps))
	for i := range steps {
		steps[i] = follower{step: &c.Steps[i], slip: c.Slip.Missed, locks: c.unlockedBy(c.Steps[i].ID)}
		steps[i].state = Locked
	}
	unlock(steps)
	for i := range legs {
		said = rule(steps, said, &legs[i])
		for k := range steps {
			steps[k].take(&legs[i])
		}
		unlock(steps)
	}
	rule(steps, said, nil)
	p := &Progress{Course: c.Name, Cause: c.Cause, Steps: make([]State, len(steps))}
	for i := range steps {
		p.Steps[i] = steps[i].stands()
		if p.Steps[i].State == Passed {
			p.Passed++
		}
	}
	p.Now = p.workOn()
	return p
}

// workOn is the step to work on: one that slipped, else the first that is open.
func (p *Progress) workOn() string {
	for _, state := range []string{Slipped, Open} {
		if i := slices.IndexFunc(p.Steps, func(s State) bool { return s.State == state }); i >= 0 {
			return p.Steps[i].ID
		}
	}
	return ""
}

// Step finds the state of a step; nil when there is none.
func (p *Progress) Step(id string) *State {
	i := slices.IndexFunc(p.Steps, func(s State) bool { return s.ID == id })
	if i < 0 {
		return nil
	}
	return &p.Steps[i]
}

// unlock opens the steps that all have been passed for which that asks.
func unlock(steps []follower) {
	passed := func(id string) bool {
		return slices.ContainsFunc(steps, func(f follower) bool { return f.step.ID == id && f.passedOnce })
	}
	for i := range steps {
		if f := &steps[i]; f.state == Locked && !slices.ContainsFunc(f.locks,
			func(id string) bool { return !passed(id) }) {
			f.state = Open
		}
	}
}
