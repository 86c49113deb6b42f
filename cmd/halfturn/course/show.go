package course

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach"
	"halfturn/coach/assess"
	"halfturn/coach/callout"
	"halfturn/coach/cause"
	"halfturn/coach/course"
	"halfturn/coach/debrief"
	"halfturn/coach/layout"
	"halfturn/coach/stored"
	"halfturn/stream/phrase"
)

type showCmd struct {
	flags
	whom
	Name   string `arg:"" optional:"" help:"Name of a course; left out: the one the student flies."`
	Step   string `help:"Only this step, with the legs it rests on." placeholder:"ID"`
	Raw    bool   `help:"Print the file as it is written."`
	Format string `help:"text or json." enum:"text,json" default:"text" placeholder:"FORMAT"`
}

// Help says what is shown.
func (showCmd) Help() string {
	return "With --student it says how each step stands. A leg counts in a step when it is of its maneuver and was " +
		"judged by its standard.\n\n" +
		"  halfturn course show first --student \"Ada Example\"\n" +
		"  halfturn course show weakness --cause nose-too-high --maneuver wing-over"
}

// Run prints a course, and how far a student has come.
func (c *showCmd) Run(ctx context.Context, s base.Streams) error {
	if c.Student != "" {
		return c.whom.with(ctx, s, &c.flags, false, func(at *stored.Courses, o stored.Asked) error {
			if err := of(s, at.Library, &o, c.Name, c.Step); err != nil {
				return err
			}
			o.Step = "" // the plan is by the rules
			r, err := record(ctx, at, o)
			if err != nil {
				return err
			}
			return c.print(s, r.Course, r)
		})
	}
	_, lib, err := c.read(s)
	if err != nil {
		return err
	}
	if c.Name == "" {
		return base.Usagef(s.Language, "the course is missing; name one, or a student with --student")
	}
	one, err := lib.Named(c.Name)
	if err != nil {
		return base.Usage(err)
	}
	if c.Raw {
		o, _ := lib.Origin(c.Name)
		_, err = s.Out.Write(o.Text)
		return err
	}
	if one, err = built(s, lib, one, c.Cause, c.whom.Maneuver); err != nil {
		return err
	}
	return c.print(s, one, nil)
}

// print prints a course; r is nil without a student.
func (c *showCmd) print(s base.Streams, one *course.Course, r *assess.Record) error {
	if c.Step != "" && one.Step(c.Step) == nil {
		return base.Usage(course.NoStep(one, c.Step))
	}
	var p *course.Progress
	student := ""
	if r != nil {
		p, student = r.Progress, r.Student
	}
	switch {
	case c.Format == "json":
		answer := map[string]any{"version": 1, "cautions": coach.Cautions, "course": one, "student": student,
			"progress": p}
		if r != nil {
			answer["chosen"], answer["steps"] = r.Chosen, r.Steps
		}
		return base.Indented(s.Out, answer)
	case c.Step != "":
		return printStep(s.Out, one, r, c.Step, s.Language)
	}
	return printCourse(s.Out, one, student, p, s.Language)
}

// printCourse prints the steps; without a progress, p is nil.
func printCourse(out io.Writer, c *course.Course, student string, p *course.Progress, in *phrase.Language) error {
	w := layout.NewPage(out)
	fmt.Fprintln(w, layout.Heading(w, in.Text(c.Title)))
	fmt.Fprintf(w, "  %s\n", in.Text(c.Summary))
	if c.Cause != "" {
		fmt.Fprintf(w, "  %s\n", in.Wordf("against: %s", cause.MeaningOf(in, c.Cause)))
	}
	if p != nil {
		fmt.Fprintf(w, "  %s\n", in.Wordf("%s, steps passed: %d of %d", student, p.Passed, len(p.Steps)))
	}
	fmt.Fprintln(w)
	t := layout.NewTable(w)
	headings := []string{in.Word("step"), in.Word("what"), in.Word("maneuver"), in.Word("standard"), in.Word("prompts"),
		in.Word("passed by")}
	if p != nil {
		headings = append(headings[:2], in.Word("state"), in.Word("now"))
	}
	fmt.Fprintln(t, strings.ToUpper(strings.Join(headings, "\t")))
	for i := range c.Steps {
		s := &c.Steps[i]
		cells := []string{s.ID, in.Text(s.Title), s.Maneuver, s.Standard, prompts(in, s.Prompts), passedBy(in, s)}
		if p != nil {
			x := &p.Steps[i]
			cells = append(cells[:2], layout.Mark(t, glyphOf(x.State), stateWord(in, x.State)), toward(in, x))
		}
		fmt.Fprintln(t, strings.Join(cells, "\t"))
	}
	_ = t.Flush() // the page keeps the error
	return w.Err()
}

// prompts are how much is said, in a word.
func prompts(in *phrase.Language, how string) string {
	switch how {
	case callout.PromptsAll:
		return in.Word("all cues")
	case callout.PromptsFade:
		return in.Word("fading")
	}
	return in.Word("no cues")
}

// passedBy is what passes a step.
func passedBy(in *phrase.Language, s *course.Step) string {
	switch r := s.Pass; {
	case s.Check:
		return in.Word("one try to each side a day")
	case r.Sides == course.EachSide:
		return in.Wordf("%d good of the last %d, to each side", r.Good, r.Of)
	default:
		return in.Wordf("%d good of the last %d", r.Good, r.Of)
	}
}

// glyphOf is the verdict whose mark a state has.
func glyphOf(state string) string {
	return map[string]string{
		course.Passed: coach.Met, course.Open: coach.Near, course.Slipped: coach.Missed,
		course.Locked: coach.NotMeasured,
	}[state]
}

func stateWord(in *phrase.Language, state string) string {
	return map[string]string{
		course.Passed:  in.Word("passed"),
		course.Open:    in.Word("open"),
		course.Slipped: in.Word("slipped"),
		course.Locked:  in.Word("not yet open"),
	}[state]
}

// toward is how far a step is from being passed, and what was missed most.
func toward(in *phrase.Language, s *course.State) string {
	var parts []string
	for i := range s.Sides {
		side := &s.Sides[i]
		if s.State != course.Open && s.State != course.Slipped {
			break
		}
		switch side.Direction {
		case "right":
			parts = append(parts, in.Wordf("right %d of %d", side.Good, side.Need))
		case "left":
			parts = append(parts, in.Wordf("left %d of %d", side.Good, side.Need))
		default:
			parts = append(parts, in.Wordf("%d of %d", side.Good, side.Need))
		}
	}
	if len(s.Missed) > 0 && s.State != course.Passed {
		m := &s.Missed[0]
		parts = append(parts, in.Wordf("missed most: %s (%d of %d)", in.Text(m.Label), m.Times, m.Of))
	}
	return strings.Join(parts, ", ")
}

// printStep prints one step, and the legs it rests on.
func printStep(out io.Writer, c *course.Course, r *assess.Record, id string, in *phrase.Language) error {
	w, s := layout.NewPage(out), c.Step(id)
	fmt.Fprintln(w, layout.Heading(w, in.Text(s.Title)))
	fmt.Fprintf(w, "  %s\n", in.Wordf("%s, %s standard, prompts: %s", s.Maneuver, s.Standard, prompts(in, s.Prompts)))
	if s.IsPart() {
		fmt.Fprintf(w, "  %s\n", in.Wordf("what counts: %s", strings.Join(s.Checks, ", ")))
	}
	fmt.Fprintf(w, "  %s\n  %s\n", in.Wordf("passed by: %s", passedBy(in, s)), in.Wordf("source: %s", s.Source))
	if s.Check {
		form := s.Form
		if form == "" {
			form = in.Word("no test is published; the checks of the card")
		}
		fmt.Fprintf(w, "  %s\n", in.Wordf("form: %s; it stands with the session", form))
	}
	if r == nil {
		return w.Err()
	}
	x := r.Progress.Step(id)
	fmt.Fprintf(w, "\n  %s\n", in.Wordf("state: %s, tries: %d, good: %d", stateWord(in, x.State), x.Tries, x.Good))
	fmt.Fprintf(w, "  %s\n", in.Wordf("prompts now: %s", prompts(in, x.Prompts)))
	if rest := toward(in, x); rest != "" {
		fmt.Fprintf(w, "  %s\n", rest)
	}
	printGrade(w, in, &r.Steps[slices.IndexFunc(c.Steps, func(s course.Step) bool { return s.ID == id })])
	if x.Ruled != nil {
		fmt.Fprintf(w, "  %s\n", ruledWords(in, x.Ruled))
	}
	tries(w, in, in.Word("passed by these legs"), x.PassedBy)
	tries(w, in, in.Word("latest legs"), x.Lately)
	return w.Err()
}

// printGrade prints the grade that is required beside that of the latest try, where one is.
func printGrade(w io.Writer, in *phrase.Language, s *assess.RecordStep) {
	if s.Required == "" {
		return
	}
	last := in.Word("none yet")
	if s.Last != "" {
		last = in.Say(debrief.InWords(s.Last))
	}
	fmt.Fprintf(w, "  %s\n", in.Wordf("required grade: %s, the latest: %s", in.Say(debrief.InWords(s.Required)), last))
}

// ruledWords are what a person said of a step.
func ruledWords(in *phrase.Language, r *course.Ruling) string {
	by := r.By
	if by == "" {
		by = in.Word("somebody")
	}
	if r.Passed {
		return in.Wordf("passed, says %s: %s", by, r.Reason)
	}
	return in.Wordf("not yet, says %s: %s", by, r.Reason)
}

// tries prints legs under a heading; nothing when there are none.
func tries(w *layout.Page, in *phrase.Language, heading string, list []course.Try) {
	if len(list) == 0 {
		return
	}
	fmt.Fprintf(w, "\n%s\n", layout.Heading(w, heading))
	t := layout.NewTable(w)
	for i := range list {
		x := &list[i]
		good, side := in.Word("not good"), in.Word("right")
		if x.Good {
			good = in.Word("good")
		}
		if x.Direction == "left" {
			side = in.Word("left")
		}
		if x.Overruled {
			good += in.Word(" (overruled)")
		}
		if x.Signed {
			good += in.Word(" (signed)")
		}
		fmt.Fprintf(t, "  %s\t%s\t%s\t%s\t%s\n", x.Session, in.Wordf("leg %d", x.Number), side,
			layout.Mark(t, x.Verdict, good), strconv.FormatFloat(x.Score, 'f', 0, 64))
	}
	_ = t.Flush() // the page keeps the error
}
