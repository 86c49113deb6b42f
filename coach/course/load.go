package course

import (
	"fmt"
	"slices"

	"halfturn/coach/callout"
	"halfturn/coach/maneuver"
	"halfturn/coach/valid"
	"halfturn/configs/strict"
)

// Bounds of a card.
const (
	mostSteps = 60
	mostOf    = 20 // tries that a rule looks at
)

// Load reads and validates a course card. The file name is used in errors only. With a library of cards, which may be
// nil, what the course names must be there.
func Load(file string, data []byte, lib *maneuver.Library) (*Course, error) {
	c := &Course{}
	f, err := strict.Decode(file, data, c)
	if err != nil {
		return nil, err
	}
	v := valid.New(f)
	c.validate(v)
	if lib != nil && v.Err() == nil {
		c.validateNames(v, lib)
	}
	if err := v.Err(); err != nil {
		return nil, err
	}
	c.fill()
	return c, nil
}

func (c *Course) validate(v *valid.Validator) {
	v.Name("name", c.Name)
	v.Words("title", c.Title, 40)
	v.Words("summary", c.Summary, 200)
	v.Source("source", c.Source)
	if c.BuiltFrom != "" {
		v.OneOf("built-from", c.BuiltFrom, FromCause)
	}
	c.Pass.validate(v, "pass")
	v.Within("slip.missed", float64(c.Slip.Missed), 1, mostOf)
	v.Source("slip.source", c.Slip.Source)
	if n := len(c.Steps); n == 0 {
		v.Fail("step", "is missing; a course must have at least one step")
	} else if n > mostSteps {
		v.Fail(fmt.Sprintf("step[%d]", mostSteps), "is one of %d; a course must have at most %d steps", n, mostSteps)
	}
	for i := range c.Steps {
		c.validateStep(v, i, fmt.Sprintf("step[%d]", i))
	}
}

func (r *Rule) validate(v *valid.Validator, key string) {
	v.Within(key+".of", float64(r.Of), 1, mostOf)
	v.Within(key+".good", float64(r.Good), 1, float64(r.Of))
	v.OneOf(key+".sides", r.Sides, EachSide, EitherSide)
	v.Source(key+".source", r.Source)
}

func (c *Course) validateStep(v *valid.Validator, i int, key string) {
	s := &c.Steps[i]
	v.Name(key+".id", s.ID)
	if slices.Contains(c.IDs()[:i], s.ID) {
		v.Fail(key+".id", "is %q, like that of a step before; must be an id of its own", s.ID)
	}
	v.Words(key+".title", s.Title, 40)
	v.Source(key+".source", s.Source)
	v.Name(key+".standard", s.Standard)
	v.OneOf(key+".prompts", s.Prompts, callout.PromptsAll, callout.PromptsFade, callout.PromptsOff)
	c.validateWhat(v, s, key)
	switch {
	case s.Check && s.Prompts != callout.PromptsOff:
		v.Fail(key+".prompts", "is %q; must be %q, since a check flight is silent", s.Prompts, callout.PromptsOff)
	case s.Check && s.Pass != nil:
		v.Fail(key+".pass", "must be left out of a check flight, which has one try to each side a day")
	case s.Pass != nil:
		s.Pass.validate(v, key+".pass")
	}
	for n, id := range s.Unlocks {
		at := fmt.Sprintf("%s.unlocks[%d]", key, n)
		if later := c.IDs()[i+1:]; !slices.Contains(later, id) {
			v.Fail(at, "is %q; must be the id of a step further down", id)
		} else if slices.Contains(s.Unlocks[:n], id) {
			v.Fail(at, "is %q, which stands there already; must be named once", id)
		}
	}
}

// validateWhat checks what is flown in a step.
func (c *Course) validateWhat(v *valid.Validator, s *Step, key string) {
	if c.BuiltFrom == "" {
		v.Name(key+".maneuver", s.Maneuver)
		if s.Part != "" {
			v.Fail(key+".part", "is %q; must be left out, unless the course is built from a cause", s.Part)
		}
	} else {
		if s.Maneuver != "" {
			v.Fail(key+".maneuver", "is %q; must be left out: it is the one in which the cause was found", s.Maneuver)
		}
		if s.Part != "" {
			v.OneOf(key+".part", s.Part, FromCause)
		}
		if len(s.Checks) > 0 {
			v.Fail(key+".checks", "must be left out: with part = %q they are those that show the cause", FromCause)
		}
	}
	for n, id := range s.Checks {
		v.Name(fmt.Sprintf("%s.checks[%d]", key, n), id)
	}
	if s.Check && (s.IsPart() || s.Part != "") {
		v.Fail(key+".check-flight", "is true, but the step is a part; a check flight must be of a whole maneuver")
	}
}

// validateNames checks that there are cards and checks with the names that the course gives.
func (c *Course) validateNames(v *valid.Validator, lib *maneuver.Library) {
	for i := range c.Steps {
		s, key := &c.Steps[i], fmt.Sprintf("step[%d]", i)
		if !slices.ContainsFunc(lib.Standards(), func(x *maneuver.Standard) bool { return x.Name == s.Standard }) {
			var names []string
			for _, x := range lib.Standards() {
				names = append(names, x.Name)
			}
			v.Fail(key+".standard", "is %q; must be %s", s.Standard, valid.Any(names))
			return
		}
		if c.BuiltFrom != "" {
			continue
		}
		card, err := lib.Judged(s.Maneuver, s.Standard)
		if err != nil {
			var names []string
			for _, x := range lib.Cards() {
				names = append(names, x.Name)
			}
			v.Fail(key+".maneuver", "is %q; must be %s", s.Maneuver, valid.Any(names))
			return
		}
		validateChecks(v, s, card, key)
		s.Form = formOf(s, card)
	}
}

// formOf is the published test of a step that is a check flight.
func formOf(s *Step, card *maneuver.Card) string {
	if !s.Check || card.Task == nil || !card.Task.Published() {
		return ""
	}
	return card.Task.Document + " " + card.Task.Name
}

// validateChecks checks that the checks of a part are of a leg, and that one of them counts.
func validateChecks(v *valid.Validator, s *Step, card *maneuver.Card, key string) {
	weight := 0.0
	for n, id := range s.Checks {
		k := legCheck(card, id)
		if k == nil {
			v.Fail(fmt.Sprintf("%s.checks[%d]", key, n),
				"is %q; must be the id of a check of %s that judges a leg", id, card.Name)
			return
		}
		weight += k.Weight
	}
	if s.IsPart() && weight == 0 {
		v.Fail(key+".checks", "have no weight by the standard %s; one at least must count", s.Standard)
	}
}

// fill puts in what a card leaves to the course.
func (c *Course) fill() {
	for i := range c.Steps {
		s := &c.Steps[i]
		switch {
		case s.Check:
			s.Pass = checkRule(s.Source)
		case s.Pass == nil:
			s.Pass = new(c.Pass)
		}
		if s.Checks == nil {
			s.Checks = []string{}
		}
		if s.Unlocks == nil {
			s.Unlocks = []string{}
		}
	}
}
