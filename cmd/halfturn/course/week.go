package course

import (
	"context"
	"fmt"
	"io"
	"time"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach"
	"halfturn/coach/course"
	"halfturn/coach/layout"
	"halfturn/coach/stored"
	"halfturn/stream/phrase"
)

type weekCmd struct {
	flags
	Student string `help:"The student." placeholder:"NAME" required:""`
	Data    string `help:"Data directory." placeholder:"DIR" type:"path"`
	Format  string `help:"text or json." enum:"text,json" default:"text" placeholder:"FORMAT"`
}

// Help says what is compared.
func (weekCmd) Help() string {
	return "The scores of each check in the last seven days are compared with those of the four weeks before, by the " +
		"rank-sum test, where there are five legs or more in each. Where nothing has changed, one check in a hundred " +
		"is said to be steadier."
}

// Run prints the comparison.
func (c *weekCmd) Run(ctx context.Context, s base.Streams) error {
	w := &whom{Student: c.Student, Data: c.Data}
	return w.with(ctx, s, &c.flags, false, func(at *stored.Courses, o stored.Asked) error {
		known, legs, err := stored.FlownBy(ctx, at.Archive, o.Student, nil, time.Local)
		if err != nil {
			return err
		}
		week := course.Weekly(legs, o.Now)
		if c.Format == "json" {
			return base.Indented(s.Out, map[string]any{
				"version": 1, "cautions": coach.Cautions, "student": known, "week": week,
			})
		}
		return printWeek(s.Out, known, week, s.Language)
	})
}

func printWeek(out io.Writer, student string, week *course.Week, in *phrase.Language) error {
	w := layout.NewPage(out)
	fmt.Fprintf(w, "%s\n", in.Wordf("%s, legs in the last seven days: %d, in the four weeks before: %d", student,
		week.Legs, week.Before))
	none := true
	for _, part := range []struct {
		heading string
		list    []course.Moved
	}{
		{in.Word("Steadier"), week.Steadier},
		{in.Word("Less steady"), week.Shakier},
		{in.Word("Still missed"), week.Still},
	} {
		if len(part.list) == 0 {
			continue
		}
		none = false
		fmt.Fprintf(w, "\n%s\n", layout.Heading(w, part.heading))
		t := layout.NewTable(w)
		for i := range part.list {
			m := &part.list[i]
			fmt.Fprintf(t, "  %s\t%s\t%s\n", m.Maneuver, in.Text(m.Label), in.Wordf("met %d of %d, before %d of %d",
				m.Met,
				m.Of, m.MetThen, m.OfThen))
		}
		_ = t.Flush() // the page keeps the error
	}
	if none {
		fmt.Fprintf(w, "  %s\n", in.Word("No check has changed clearly."))
	}
	return w.Err()
}
