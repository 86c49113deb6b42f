package course

import (
	"context"
	"fmt"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/layout"
	"halfturn/coach/stored"
	"halfturn/coach/who"
)

type chooseCmd struct {
	flags
	whom
	Name   string `arg:"" help:"Name of a course."`
	Format string `help:"text or json." enum:"text,json" default:"text" placeholder:"FORMAT"`
}

// Help says what it is for.
func (chooseCmd) Help() string {
	return "The pages and the other commands then show that course. Without one, a student flies the first course. " +
		"One that is built from a weakness is kept with the weakness that is found now, unless one is named.\n\n" +
		"  halfturn course choose performance --student \"Ada Example\""
}

// Run keeps the course of a student.
func (c *chooseCmd) Run(ctx context.Context, s base.Streams) error {
	return c.whom.with(ctx, s, &c.flags, true, func(at *stored.Courses, o stored.Asked) error {
		if err := of(s, at.Library, &o, c.Name, ""); err != nil {
			return err
		}
		is, err := at.Choose(ctx, who.Owner(), o)
		if err != nil {
			return err
		}
		one, err := at.Library.Named(is.Course)
		if err != nil {
			return err
		}
		return done(s, c.Format, map[string]any{"student": o.Student, "chosen": is},
			s.Language.Wordf("%s now flies: %s", o.Student, s.Language.Text(one.Title)))
	})
}

// done says what was done, as text or JSON.
func done(s base.Streams, format string, members map[string]any, sentence string) error {
	if format == "json" {
		members["version"] = 1
		return base.Indented(s.Out, members)
	}
	page := layout.NewPage(s.Out)
	fmt.Fprintln(page, sentence)
	return page.Err()
}
