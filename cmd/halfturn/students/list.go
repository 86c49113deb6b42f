package students

import (
	"context"
	"fmt"

	"halfturn/cmd/halfturn/base"
	"halfturn/cmd/halfturn/place"
	"halfturn/coach/archive"
	"halfturn/coach/layout"
	"halfturn/coach/logbook"
)

type listCmd struct {
	bookFlags
	Format string `help:"text or json." enum:"text,json" default:"text" placeholder:"FORMAT"`
}

// A listed is one student of a list.
type listed struct {
	Name     string `json:"name"`
	Sessions int    `json:"sessions"`
}

// Run lists the students.
func (c *listCmd) Run(ctx context.Context, s base.Streams) error {
	return c.with(ctx, s, false, func(a *archive.Archive, _ *place.Place) error {
		all, err := a.Students(ctx, 0)
		if err != nil {
			return err
		}
		students := []listed{}
		for _, name := range all {
			list, err := a.List(ctx, logbook.Filter{Student: name, Limit: 1})
			if err != nil {
				return err
			}
			students = append(students, listed{name, list.Total})
		}
		if c.Format == "json" {
			return base.Indented(s.Out, map[string]any{"version": 1, "students": students})
		}
		w, in := layout.NewPage(s.Out), s.Language
		if len(students) == 0 {
			fmt.Fprintln(w, in.Word("No student is named in the logbook. Say who flew: halfturn sessions student "+
				"SESSION NAME"))
			return w.Err()
		}
		t := layout.NewTable(w)
		fmt.Fprintln(t, in.Word("STUDENT")+"\t"+in.Word("SESSIONS"))
		for _, one := range students {
			fmt.Fprintf(t, "%s\t%d\n", one.Name, one.Sessions)
		}
		_ = t.Flush() // the page keeps the error
		return w.Err()
	})
}
