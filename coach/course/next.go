package course

import (
	"cmp"
	"slices"
	"time"

	"halfturn/coach"
	"halfturn/stream/phrase"
)

// The rules by which it is said what to fly next, each with what it rests on.
//
//   - After 14 days without flying, one thing that was passed is flown first; after 7 it may be (CNATRAINST 1542.158B
//     p. I-15: after a break of 14 days or more one mandatory and one optional warm-up, of 7 to 13 days an optional
//
// one).
//   - What has slipped comes before what is new (FAA-H-8083-9B ch. 8: a poor item is practiced under direction, then
//     judged again).
//   - What is new is flown in a block until it has had as many tries as its rule looks at; then it is mixed with what
//
// was
//
//	passed (FAA-H-8083-9A ch. 2 and 9B ch. 3: blocked practice gains quickly and is kept badly, random practice of
//
// what
//
//	  is already introduced is kept better; Guadagnoli and Lee 2004). How much it helps outside the laboratory is in
//	  doubt: Czyż et al. 2024 and Ammar et al. 2024 found little.
//	- What was passed is flown again when it was not for 7 days, the longest first: practice that is spaced is kept
//
// better
//
//	than the same in one day (Moulton et al. 2006; gaps that grow do no better than equal ones: Latimier et al.
//
// 2021).
//
//	  The number is that of the warm-up above.
//	- A check flight is flown first of all on a day, since what is kept is what was learned (Winstein and Schmidt
//
// 1990).
//
// The shares of a plan are common practice, no source.
const (
	mayWarmUp  = 7  // days
	mustWarmUp = 14 // days
	dueAfter   = 7  // days without a try at a step that was passed
)

// What a plan takes, common practice, no source.
const (
	usualPlan  = 10.0 // min
	usualCycle = 2.0  // min from the beginning of a leg to that of the next, where it was not flown yet
	mostCycle  = 6.0  // min: after a longer pause something else was done
	pair       = 2    // legs in a row of one step: one to each side
	block      = 8    // legs in a row of a new step, at most
)

// Options say for when a plan is made, and what somebody wants otherwise.
type Options struct {
	Now     time.Time // in the time zone whose days count
	Minutes float64   // of the plan; 0 is ten
	Step    string    // the step to work on instead of the one that the rules give; "" is that one
}

// A Plan says what to fly today. Its first item is the next thing to fly.
type Plan struct {
	Course  string  `json:"course"`
	Cause   string  `json:"cause,omitempty"`
	Minutes float64 `json:"minutes"`
	Away    int     `json:"away"` // days since the student last flew; −1 never
	Items   []Item  `json:"items"`
}

// An Item is a number of legs of one step.
type Item struct {
	Step      string        `json:"step"`
	Title     string        `json:"title"`
	Maneuver  string        `json:"maneuver"`
	Checks    []string      `json:"checks"`
	Standard  string        `json:"standard"`
	Prompts   string        `json:"prompts"`
	Direction string        `json:"direction"` // of the first leg
	Legs      int           `json:"legs"`
	Minutes   float64       `json:"minutes"`
	Optional  bool          `json:"optional,omitempty"`
	Why       phrase.Phrase `json:"why"`
	Source    string        `json:"source"`         // of the rule
	Mind      phrase.Phrase `json:"mind,omitzero"`  // the thing to change that came most often
	Form      string        `json:"form,omitempty"` // of a check flight; see Step
	Task      Task          `json:"task"`           // sets a station up for it; the aircraft is left open
}

// A planner makes a plan.
type planner struct {
	course *Course
	at     *Progress
	legs   []Flown
	opt    Options
	plan   *Plan
	left   float64 // min
}

// Next says what a student should fly now, who flew some legs and stands as Follow says. It is a function of its
// arguments alone. The error is a step that the course does not have.
func (c *Course) Next(p *Progress, legs []Flown, o Options) (*Plan, error) {
	if o.Minutes == 0 {
		o.Minutes = usualPlan
	}
	if o.Step != "" && c.Step(o.Step) == nil {
		return nil, NoStep(c, o.Step)
	}
	n := &planner{course: c, at: p, legs: legs, opt: o, left: o.Minutes}
	n.plan = &Plan{Course: c.Name, Cause: c.Cause, Minutes: o.Minutes, Away: -1, Items: []Item{}}
	if len(legs) > 0 {
		n.plan.Away = days(legs[len(legs)-1].Began, o.Now)
	}
	n.fill()
	return n.plan, nil
}

// days is how many days lie between two times, by the calendar of the second.
func days(from, to time.Time) int {
	date := func(t time.Time) time.Time {
		year, month, day := t.In(to.Location()).Date()
		return time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
	}
	return max(0, int(date(to).Sub(date(from)).Hours()/24))
}

// fill puts the items into the plan.
func (n *planner) fill() {
	review := n.reviews()
	main := n.course.Step(cmp.Or(n.opt.Step, n.workOn()))
	if main != nil {
		review = slices.DeleteFunc(review, func(s *Step) bool { return s.ID == main.ID })
	}
	if main != nil && main.Check {
		n.add(main, pair, n.why(main))
	}
	review = n.warmUp(review)
	switch {
	case main == nil:
		n.mix(nil, review)
	case main.Check:
		n.mix(nil, review)
	case n.isNew(main) || len(review) == 0:
		n.inBlock(main, review)
	default:
		n.mix(main, review)
	}
}

// workOn is the step of the progress, but for a check flight that was tried today: then another that is open.
func (n *planner) workOn() string {
	for _, state := range []string{Slipped, Open} {
		for i := range n.at.Steps {
			s := &n.at.Steps[i]
			if s.State == state && !(n.course.Steps[i].Check && n.since(s) == 0) {
				return s.ID
			}
		}
	}
	return ""
}

// since is how many days ago a step was last tried; −1 never.
func (n *planner) since(s *State) int {
	last, err := time.Parse(time.RFC3339, s.Last)
	if err != nil {
		return -1
	}
	return days(last, n.opt.Now)
}

// reviews are the steps that were passed and can be flown again, the one that was not flown for longest first.
func (n *planner) reviews() []*Step {
	var list []*Step
	for i := range n.course.Steps {
		if s := &n.course.Steps[i]; n.at.Steps[i].State == Passed && !s.Check {
			list = append(list, s)
		}
	}
	slices.SortStableFunc(list, func(a, b *Step) int {
		return cmp.Compare(n.since(n.at.Step(b.ID)), n.since(n.at.Step(a.ID)))
	})
	return list
}

// warmUp plans what comes first after a break, and returns what is left to be flown again.
func (n *planner) warmUp(review []*Step) []*Step {
	if n.plan.Away < mayWarmUp || len(review) == 0 {
		return review
	}
	why := reason{phrase.CourseWhyWarmUp.Of(phrase.Int("days", n.plan.Away)), "CNATRAINST 1542.158B p. I-15"}
	n.add(review[0], pair, why)
	if at := len(n.plan.Items) - 1; at >= 0 {
		n.plan.Items[at].Optional = n.plan.Away < mustWarmUp
	}
	return review[1:]
}

// isNew reports whether a step has had fewer tries than its rule looks at.
func (n *planner) isNew(s *Step) bool {
	of := s.Pass.Of
	if s.Pass.Sides == EachSide {
		of *= 2
	}
	return n.at.Step(s.ID).Tries < of
}

// inBlock plans a new step in a block, and after it one that is due.
func (n *planner) inBlock(main *Step, review []*Step) {
	due := len(review) > 0 && n.since(n.at.Step(review[0].ID)) >= dueAfter
	keep := 0.0
	if due {
		keep = pair * n.cycle(review[0])
	}
	legs := int((n.left-keep)/n.cycle(main)) / pair * pair
	n.add(main, max(pair, min(block, legs)), n.why(main))
	if due && n.left >= keep {
		n.add(review[0], pair, n.whyAgain(review[0]))
	}
}

// mix plans a step and what was passed in turns, as long as there is time. Without a step, nothing is flown twice.
func (n *planner) mix(main *Step, review []*Step) {
	if main != nil {
		n.add(main, pair, n.why(main))
	}
	for i := 0; len(review) > 0; i++ {
		s := review[i%len(review)]
		if main == nil && i == len(review) || n.left < pair*n.cycle(s) {
			return
		}
		n.add(s, pair, n.whyAgain(s))
		if main != nil {
			if n.left < pair*n.cycle(main) {
				return
			}
			n.add(main, pair, n.why(main))
		}
	}
}

// add plans legs of a step; the first item whatever time there is.
func (n *planner) add(s *Step, legs int, why reason) {
	task, _ := n.course.Task(n.at, s.ID, "", n.opt.Now) // the step is of the course
	state := n.at.Step(s.ID)
	minutes := coach.Round(float64(legs)*n.cycle(s), 1)
	n.left -= minutes
	n.plan.Items = append(n.plan.Items, Item{
		Step:      s.ID,
		Title:     s.Title,
		Maneuver:  s.Maneuver,
		Checks:    s.Checks,
		Standard:  s.Standard,
		Prompts:   state.Prompts,
		Direction: n.first(s, state),
		Legs:      legs,
		Minutes:   minutes,
		Why:       why.words,
		Source:    why.source,
		Mind:      n.mind(s),
		Form:      s.Form,
		Task:      task,
	})
}

// first is the side to begin with: the one with fewer good tries, else the other than was flown last. A check flight
// begins again each day, to the right.
func (n *planner) first(step *Step, s *State) string {
	if step.Check {
		return "right"
	}
	if len(s.Sides) == 2 && s.Sides[0].Good != s.Sides[1].Good {
		if s.Sides[0].Good > s.Sides[1].Good {
			return s.Sides[1].Direction
		}
		return s.Sides[0].Direction
	}
	if k := len(s.Lately); k > 0 && s.Lately[k-1].Direction == "right" {
		return "left"
	}
	return "right"
}

// cycle is how many minutes a leg of a step takes with what comes before it: the middle one of those of the student.
func (n *planner) cycle(s *Step) float64 {
	var took []float64
	for i := 1; i < len(n.legs); i++ {
		a, b := &n.legs[i-1], &n.legs[i]
		if a.Session != b.Session || a.Maneuver != s.Maneuver || b.Maneuver != s.Maneuver {
			continue
		}
		if x := (b.Leg.Start - a.Leg.Start) / 60; x > 0 && x <= mostCycle {
			took = append(took, x)
		}
	}
	if len(took) == 0 {
		return usualCycle
	}
	slices.Sort(took)
	return took[len(took)/2]
}
