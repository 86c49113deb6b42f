package assess

import (
	"time"

	"halfturn/coach"
	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
)

// A Form is a published test, element by element, for one series: what the checks say, and what an instructor says.
type Form struct {
	Series    int       `json:"series"` // in the session, from 1
	Maneuver  string    `json:"maneuver"`
	Title     string    `json:"title"`
	Standard  string    `json:"standard"` // that has the test
	Flown     string    `json:"flown"`    // the standard that the series was judged by
	Document  string    `json:"document"` // "" where no test is published
	Task      string    `json:"task"`
	Elements  []Element `json:"elements"`
	Legs      int       `json:"legs"`
	Direction string    `json:"direction"` // of its only leg, "" where it has several
}

// An Element is one thing that the test asks for.
type Element struct {
	ID     string         `json:"id"`
	Asks   string         `json:"asks"`
	Stream string         `json:"stream"` // how far a stream can show it: yes, part or no
	Reason string         `json:"reason"` // why not, or not all of it
	Checks []ElementCheck `json:"checks"`
	// Computed is the mark by the checks, Mark that which stands. They differ where a person said so.
	Computed string `json:"computed"`
	Mark     string `json:"mark"`
	By       string `json:"by"` // who gave the mark; "" is the checks
	At       string `json:"at"` // RFC 3339
	After    bool   `json:"afterSigning"`
}

// An ElementCheck is a check that judges an element: the worst of its verdicts over the legs.
type ElementCheck struct {
	ID      string `json:"id"`
	Label   string `json:"label"`
	Verdict string `json:"verdict"`
}

// Forms makes the forms of all series of a session. The series are as [Series] returns them.
func Forms(lib *maneuver.Library, list []coach.Series, j *logbook.Judging) []Form {
	forms := make([]Form, 0, len(list))
	for i := range list {
		forms = append(forms, form(lib, &list[i], i+1, j))
	}
	return forms
}

func form(lib *maneuver.Library, s *coach.Series, n int, j *logbook.Judging) Form {
	f := Form{
		Series:   n,
		Maneuver: s.Maneuver,
		Title:    s.Maneuver,
		Flown:    s.Standard,
		Elements: []Element{},
		Legs:     len(s.Legs),
	}
	if len(s.Legs) == 1 {
		f.Direction = s.Legs[0].Direction
	}
	if card, err := lib.Judged(s.Maneuver, ""); err == nil {
		f.Title = card.Title
	}
	task, standard := testOf(lib, s)
	if task == nil {
		return f
	}
	f.Standard, f.Document, f.Task = standard, task.Document, task.Name
	for i := range task.Elements {
		e := element(&task.Elements[i], s)
		for _, o := range j.Observed {
			if o.Series == n && o.Element == e.ID {
				e.Mark, e.By, e.At, e.After = o.Mark, o.By, o.At.UTC().Format(time.RFC3339), o.After
			}
		}
		f.Elements = append(f.Elements, e)
	}
	return f
}

// testOf finds the published test of a series: that of the standard it was judged by, else the first there is.
func testOf(lib *maneuver.Library, s *coach.Series) (task *maneuver.Task, standard string) {
	names := []string{s.Standard}
	for _, o := range lib.Standards() {
		names = append(names, o.Name)
	}
	for _, name := range names {
		card, err := lib.Judged(s.Maneuver, name)
		if err == nil && card.Task != nil && card.Task.Published() {
			return card.Task, name
		}
	}
	return nil, ""
}

// element marks an element by the checks of a series: unsatisfactory where one was missed, satisfactory where those
// that were measured were met, and not observed where none was. A check that is only nearly met belongs to an element
// for which the document gives no number (an element with a number has no near band in a check flight), so it passes;
// common practice, no source.
func element(e *maneuver.Element, s *coach.Series) Element {
	out := Element{ID: e.ID, Asks: e.Asks, Stream: e.Stream, Reason: e.Reason, Checks: []ElementCheck{},
		Computed: logbook.NotObserved}
	for _, id := range e.Checks {
		k, ok := worstOf(s, id)
		if !ok {
			continue
		}
		out.Checks = append(out.Checks, k)
		switch {
		case k.Verdict == coach.Missed:
			out.Computed = logbook.Unsatisfactory
		case k.Verdict != coach.NotMeasured && out.Computed != logbook.Unsatisfactory:
			out.Computed = logbook.Satisfactory
		}
	}
	out.Mark = out.Computed
	return out
}

var severity = map[string]int{coach.NotMeasured: 0, coach.Met: 1, coach.Near: 2, coach.Missed: 3}

// worstOf is the worst verdict on a check over the legs of a series and what only they together show.
func worstOf(s *coach.Series, id string) (worst ElementCheck, ok bool) {
	take := func(checks []coach.Check) {
		for i := range checks {
			k := &checks[i]
			if k.ID == id && (!ok || severity[k.Verdict] > severity[worst.Verdict]) {
				worst, ok = ElementCheck{k.ID, k.Label, k.Verdict}, true
			}
		}
	}
	for i := range s.Legs {
		take(s.Legs[i].Checks)
	}
	take(s.Checks)
	return worst, ok
}

// Has reports whether the form has an element.
func (f *Form) Has(id string) bool {
	for i := range f.Elements {
		if f.Elements[i].ID == id {
			return true
		}
	}
	return false
}
