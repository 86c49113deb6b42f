package course

import (
	"context"
	"strings"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/logbook"
	"halfturn/coach/stored"
	"halfturn/coach/who"
)

type ruleCmd struct {
	flags
	whom
	Step    string   `arg:"" help:"Step of the course."`
	Reason  []string `arg:"" optional:"" help:"Why; needed unless a ruling is taken back."`
	Course  string   `help:"The course; left out: the one the student flies." placeholder:"NAME"`
	Verdict string   `help:"passed, not-yet, or by-rule, which takes it back." placeholder:"VERDICT" required:""`
	By      string   `help:"Who says so." placeholder:"NAME"`
	Format  string   `help:"text or json." enum:"text,json" default:"text" placeholder:"FORMAT"`
}

// byRule takes a ruling back.
const byRule = "by-rule"

// Help says what it means.
func (ruleCmd) Help() string {
	return "A ruling counts from when it is given: a step that somebody passed slips like another, and one that is " +
		"not passed yet is passed by the legs from then on. It is kept with the latest session of the student, and " +
		"a signature under that covers it.\n\n" +
		"  halfturn course rule chandelle --student \"Ada Example\" --verdict passed well"
}

// Run keeps what was said of a step.
func (c *ruleCmd) Run(ctx context.Context, s base.Streams) error {
	return c.whom.with(ctx, s, &c.flags, true, func(at *stored.Courses, o stored.Asked) error {
		if err := of(s, at.Library, &o, c.Course, c.Step); err != nil {
			return err
		}
		r := logbook.Ruling{Verdict: c.Verdict, Reason: strings.Join(c.Reason, " "), By: c.By}
		if c.Verdict == byRule {
			r.Verdict = ""
		} else if c.Verdict == "" {
			return base.Usagef(s.Language, "%s is %q; must be %s", "--verdict", "", "passed, not-yet, by-rule")
		}
		rec, err := record(ctx, at, stored.Asked{CourseChoice: o.CourseChoice, Student: o.Student, Now: o.Now})
		if err != nil {
			return err
		}
		o.CourseChoice = rec.Flown
		if err := at.Rule(ctx, who.Owner(), o, r); err != nil {
			return err
		}
		said := s.Language.Wordf("The ruling on %s is kept.", c.Step)
		if r.Verdict == "" {
			said = s.Language.Wordf("The step %s is by the rule again.", c.Step)
		}
		return done(s, c.Format, map[string]any{
			"student": rec.Student, "course": rec.Flown, "step": c.Step, "verdict": r.Verdict,
		}, said)
	})
}
