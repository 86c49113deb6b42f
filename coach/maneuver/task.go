package maneuver

import (
	"fmt"
	"slices"

	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/coach/valid"
)

// A Task is the published test of one maneuver, element by element. A standard with a task for a maneuver judges by its
// elements alone: the other checks of the card are shown, and count for nothing.
type Task struct {
	Maneuver string    `toml:"maneuver"`
	Document string    `toml:"document"` // "" where no test was published; the card then stands as it is
	Name     string    `toml:"task"`     // in the document: "CA.V.A"
	Elements []Element `toml:"element"`
}

// An Element is one thing that a published test asks for.
type Element struct {
	ID     string   `toml:"id"`     // in the task: "S5 bank"
	Asks   string   `toml:"asks"`   // what it asks for, with its number where it has one
	Stream string   `toml:"stream"` // how far a stream can show it: yes, part or no
	Checks []string `toml:"checks"` // ids of the checks of the card that judge it
	Reason string   `toml:"reason"` // why a stream shows it in part or not at all, or why it has no check
}

// Has reports whether a check judges the element.
func (e *Element) Has(id string) bool { return slices.Contains(e.Checks, id) }

// Published reports whether there is a published test.
func (t *Task) Published() bool { return t.Document != "" }

// Of returns the elements that a check judges.
func (t *Task) Of(id string) (list []*Element) {
	for i := range t.Elements {
		if t.Elements[i].Has(id) {
			list = append(list, &t.Elements[i])
		}
	}
	return list
}

// validateTasks checks the published tests of a standard.
func (s *Standard) validateTasks(v *valid.Validator) {
	for i := range s.Tasks {
		t := &s.Tasks[i]
		key := fmt.Sprintf("task[%d]", i)
		v.Name(key+".maneuver", t.Maneuver)
		if !t.Published() {
			if len(t.Elements) > 0 {
				v.Fail(key+".document", "is missing; must name the document that the elements stand in")
			}
			continue
		}
		v.Words(key+".document", t.Document, 40)
		v.Words(key+".task", t.Name, 40)
		if len(t.Elements) == 0 {
			v.Fail(key+".element", "is missing; a published test must have at least one element")
		}
		for n := range t.Elements {
			t.Elements[n].validate(v, fmt.Sprintf("%s.element[%d]", key, n))
		}
	}
}

func (e *Element) validate(v *valid.Validator, key string) {
	v.Words(key+".id", e.ID, 30)
	v.Words(key+".asks", e.Asks, 120)
	v.OneOf(key+".stream", e.Stream, "yes", "part", "no")
	if e.Reason == "" && (e.Stream != "yes" || len(e.Checks) == 0) {
		v.Fail(key+".reason", "is missing; must say why no check judges all of the element")
	}
	if e.Stream == "no" && len(e.Checks) > 0 {
		v.Fail(key+".checks", "names checks of what no stream shows; must be left out")
	}
}

// task returns the published test of a maneuver; nil where the standard says nothing of it.
func (s *Standard) task(maneuver string) *Task {
	i := slices.IndexFunc(s.Tasks, func(t Task) bool { return t.Maneuver == maneuver })
	if i < 0 {
		return nil
	}
	return &s.Tasks[i]
}

// What the source of a check says under a standard with a published test, where that gives it no number of its own.
const (
	noTest    = "no test of this maneuver is published: as on the card, with what is nearly met"
	noNumber  = "%s gives no number: as on the card, with what is nearly met"
	noElement = "no element of %s: shown, not counted"
)

// apply judges a card by the elements of the published test. changed holds the ids of the checks for which the standard
// gives numbers of its own.
func (t *Task) apply(c *Card, changed []string) {
	c.Task = t
	for i := range c.Checks {
		k := &c.Checks[i]
		of := t.Of(k.ID)
		switch {
		case slices.Contains(changed, k.ID):
		case !t.Published():
			k.Source += "; " + noTest
		case len(of) == 0:
			k.Weight = 0
			k.Source += "; " + fmt.Sprintf(noElement, t.Document+" "+t.Name)
		case kinds.Of(k).Bands != check.Exact && !same(k.MetBand, k.NearBand):
			k.Source += "; " + fmt.Sprintf(noNumber, of[0].ID)
		}
	}
}

// same reports whether two bands have the same ends.
func same(a, b check.Band) bool { return a.Inside(b) && b.Inside(a) }
