package students

import (
	"cmp"
	"context"
	"encoding/csv"
	"fmt"
	"io"
	"strings"
	"time"

	"halfturn/cmd/halfturn/base"
	"halfturn/cmd/halfturn/console"
	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/assess"
	"halfturn/coach/layout"
	"halfturn/coach/names"
	"halfturn/coach/print"
	"halfturn/coach/stored"
	"halfturn/configs/settings"
)

type sheetCmd struct {
	bookFlags
	Name   []string `arg:"" help:"The student."`
	Format string   `help:"text, json, csv or pdf." enum:"text,json,csv,pdf" default:"text" placeholder:"FORMAT"`
	Output string   `short:"o" help:"Write to this file." placeholder:"FILE" type:"path"`
	Force  bool     `help:"Write over the output file."`
	Paper  string   `help:"Paper of the PDF." enum:"a4,letter" default:"a4" placeholder:"SIZE"`
}

// Help says what else there is to know.
func (sheetCmd) Help() string {
	return "For each maneuver: the last, best and median grade, how many legs were graded, the grade that is " +
		"required (judging.required of the configuration), and what to work on.\n\n" +
		"  halfturn students sheet Ada Example --format pdf -o ada.pdf"
}

// Run prints the grade sheet.
func (c *sheetCmd) Run(ctx context.Context, s base.Streams) error {
	name, err := names.Person(strings.Join(c.Name, " "))
	if err != nil {
		return base.Usagef("%w", err)
	}
	return c.with(ctx, s, false, func(a *archive.Archive, cfg *settings.Config) error {
		sheet, err := stored.SheetOf(ctx, a, name, cfg.Judging.RequiredOf)
		if err != nil {
			return err
		}
		write := func(w io.Writer) error {
			switch c.Format {
			case "json":
				return base.Indented(w, sheet)
			case "csv":
				return csv.NewWriter(w).WriteAll(sheet.Table())
			case "pdf":
				return print.Sheet(w, c.Paper, sheet, time.Now(), s.Language)
			}
			return printSheet(w, sheet)
		}
		switch {
		case c.Output != "" && c.Output != "-":
			return stored.WriteFile(c.Output, c.Force, write)
		case c.Format == "pdf":
			return write(console.Raw(s.Out))
		}
		return write(s.Out)
	})
}

func printSheet(out io.Writer, s *assess.Sheet) error {
	w := layout.NewPage(out)
	for _, c := range coach.Cautions {
		fmt.Fprintln(w, c)
	}
	fmt.Fprintf(w, "\n%s\n", layout.Heading(w, "Grade sheet of "+s.Student))
	fmt.Fprintf(w, "  %d sessions, %d signed\n\n", s.Sessions, s.Signed)
	t := layout.NewTable(w, layout.Below{Column: 6, Title: "work on: "})
	fmt.Fprintln(t, "MANEUVER\tLEGS\tLAST\tBEST\tMEDIAN\tREQUIRED\tWORK ON")
	grade := func(g *assess.Grade) string { return fmt.Sprintf("%s %.0f", g.Grade, g.Score) }
	for i := range s.Maneuvers {
		r := &s.Maneuvers[i]
		required, work := cmp.Or(r.Required, "–"), "–"
		if r.Required != "" && !r.Reached {
			required += ", not yet"
		}
		if !r.WorkOn.IsZero() {
			work = fmt.Sprintf("%s (%d of %d)", r.WorkOn, r.Times, r.Of)
		}
		fmt.Fprintf(t, "%s\t%d\t%s\t%s\t%s\t%s\t%s\n", r.Title, r.Legs, grade(&r.Last), grade(&r.Best),
			grade(&r.Median), required, work)
	}
	_ = t.Flush() // the page keeps the error
	if a := &s.Agreement; a.Rated > 0 {
		fmt.Fprintf(w, "\n  Rated by the student: %d legs, %d as measured, %d a grade apart; the one thing named "+
			"in %d, the measured one in %d\n", a.Rated, a.Same, a.Near, a.Named, a.Thing)
	}
	return w.Err()
}
