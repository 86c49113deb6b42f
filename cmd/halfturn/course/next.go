package course

import (
	"context"
	"fmt"
	"io"
	"strconv"
	"strings"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach"
	"halfturn/coach/course"
	"halfturn/coach/layout"
	"halfturn/coach/stored"
	"halfturn/stream/phrase"
)

type nextCmd struct {
	flags
	whom
	Course  string  `help:"The course; left out: the one the student flies." placeholder:"NAME"`
	Step    string  `help:"Work on this step instead." placeholder:"ID"`
	Minutes float64 `help:"How long the plan is to take." placeholder:"N" default:"10"`
	Format  string  `help:"text or json." enum:"text,json" default:"text" placeholder:"FORMAT"`
}

// Help says what else there is to know.
func (nextCmd) Help() string {
	return "What slipped comes first, then the step that is open: in a row while it is new, later mixed with what " +
		"was passed, the longest not flown first. After a week without flying there is something to warm up. Each " +
		"line says why, and by which source. --step chooses another step.\n\n" +
		"  halfturn course next --student \"Ada Example\" --minutes 30"
}

// mostMinutes is how long a plan can be.
const mostMinutes = 480

// Run prints the plan.
func (c *nextCmd) Run(ctx context.Context, s base.Streams) error {
	if c.Student == "" {
		return base.Usagef(s.Language, "%s is missing: say whose", "--student")
	}
	if !(c.Minutes >= 1 && c.Minutes <= mostMinutes) {
		return base.Usagef(s.Language, "%s is %v; must be between %v and %v", "--minutes", c.Minutes, 1, mostMinutes)
	}
	return c.with(ctx, s, &c.flags, false, func(at *stored.Courses, o stored.Asked) error {
		if err := of(s, at.Library, &o, c.Course, c.Step); err != nil {
			return err
		}
		o.Minutes = c.Minutes
		r, err := record(ctx, at, o)
		if err != nil {
			return err
		}
		if c.Format == "json" {
			return base.Indented(s.Out, map[string]any{
				"version": 1, "cautions": coach.Cautions, "student": r.Student, "plan": r.Plan,
			})
		}
		return printPlan(s.Out, r.Course, r.Student, r.Plan, s.Language)
	})
}

func printPlan(out io.Writer, c *course.Course, student string, p *course.Plan, in *phrase.Language) error {
	w := layout.NewPage(out)
	fmt.Fprintln(w, layout.Heading(w, in.Wordf("%s, for %s: %s min", in.Text(c.Title), student,
		in.Number(p.Minutes, -1))))
	if len(p.Items) == 0 {
		fmt.Fprintf(w, "  %s\n", in.Word("Nothing is left to fly in this course."))
		return w.Err()
	}
	t := layout.NewTable(w)
	headings := []string{in.Word("fly"), in.Word("legs"), in.Word("begin"), in.Word("standard"), in.Word("prompts"),
		in.Word("minutes"), in.Word("why")}
	fmt.Fprintln(t, strings.ToUpper(strings.Join(headings, "\t")))
	for i := range p.Items {
		x := &p.Items[i]
		why, begin := in.Say(x.Why), in.Word("right")
		if x.Direction == "left" {
			begin = in.Word("left")
		}
		if x.Optional {
			why = in.Wordf("%s; may be left out", why)
		}
		if x.Source != "" {
			why += " (" + x.Source + ")"
		}
		fmt.Fprintln(t, strings.Join([]string{in.Text(x.Title), strconv.Itoa(x.Legs), begin, x.Standard,
			prompts(in, x.Prompts), in.Number(x.Minutes, -1), why}, "\t"))
	}
	_ = t.Flush() // the page keeps the error
	if mind := p.Items[0].Mind; !mind.IsZero() {
		fmt.Fprintf(w, "\n  %s\n", in.Wordf("First of all: %s", in.Say(mind)))
	}
	return w.Err()
}
