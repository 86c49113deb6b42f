package course

import "slices"

// A Course is what a student flies one after the other.
type Course struct {
	Name    string `toml:"name" json:"name"`
	Title   string `toml:"title" json:"title"`
	Summary string `toml:"summary" json:"summary"`
	Source  string `toml:"source" json:"source"`
	// BuiltFrom is FromCause where maneuver and checks of the steps follow from a weakness; see [Library.Against].
	BuiltFrom string `toml:"built-from" json:"builtFrom,omitempty"`
	Pass      Rule   `toml:"pass" json:"pass"`
	Slip      Slip   `toml:"slip" json:"slip"`
	Steps     []Step `toml:"step" json:"steps"`

	// Cause is the weakness that the course was built against; "" of a course that is written out.
	Cause string `toml:"-" json:"cause,omitempty"`
}

// FromCause is what a course can be built from: a cause that was found in the legs of a student.
const FromCause = "cause"

// A Step is one thing to learn.
type Step struct {
	ID       string   `toml:"id" json:"id"`
	Title    string   `toml:"title" json:"title"`
	Maneuver string   `toml:"maneuver" json:"maneuver"` // its card
	Checks   []string `toml:"checks" json:"checks"`     // the part of it that counts; none is all of it
	Part     string   `toml:"part" json:"-"`            // FromCause: the checks are those that show the cause
	Standard string   `toml:"standard" json:"standard"`
	Prompts  string   `toml:"prompts" json:"prompts"` // how much is said: one of package callout, not "card"
	Check    bool     `toml:"check-flight" json:"checkFlight"`
	Pass     *Rule    `toml:"pass" json:"pass"` // nil, while the card is read, is that of the course
	Unlocks  []string `toml:"unlocks" json:"unlocks"`
	Source   string   `toml:"source" json:"source"`

	// Form is the published test that a check flight is judged by, element by element, as the form of the session has
	// it: document and task; "" where none is published, and of other steps.
	Form string `toml:"-" json:"form,omitempty"`
}

// A Rule says what passes a step: a number of good tries among the last few.
type Rule struct {
	Good   int    `toml:"good" json:"good"`
	Of     int    `toml:"of" json:"of"`
	Sides  string `toml:"sides" json:"sides"` // EachSide or EitherSide
	Source string `toml:"source" json:"source"`
}

// Where the good tries of a rule are asked for.
const (
	EachSide   = "each"   // as many to the right as to the left
	EitherSide = "either" // counted together
)

// A Slip says what takes a step back that was passed.
type Slip struct {
	Missed int    `toml:"missed" json:"missed"` // tries in a row that are not good
	Source string `toml:"source" json:"source"`
}

// checkRule is the rule of a check flight: the first try to each side.
func checkRule(source string) *Rule { return &Rule{Good: 1, Of: 1, Sides: EachSide, Source: source} }

// Step finds a step by its id; nil when there is none.
func (c *Course) Step(id string) *Step {
	i := slices.IndexFunc(c.Steps, func(s Step) bool { return s.ID == id })
	if i < 0 {
		return nil
	}
	return &c.Steps[i]
}

// IDs lists the ids of the steps.
func (c *Course) IDs() []string {
	ids := make([]string, len(c.Steps))
	for i := range c.Steps {
		ids[i] = c.Steps[i].ID
	}
	return ids
}

// unlockedBy lists the steps that unlock one; none when it is open from the beginning.
func (c *Course) unlockedBy(id string) (by []string) {
	for i := range c.Steps {
		if slices.Contains(c.Steps[i].Unlocks, id) {
			by = append(by, c.Steps[i].ID)
		}
	}
	return by
}

// IsPart reports whether the step is a part of a maneuver.
func (s *Step) IsPart() bool { return len(s.Checks) > 0 }
