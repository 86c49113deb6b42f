package students

import (
	"context"
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"

	"halfturn/cmd/halfturn/base"
	"halfturn/cmd/halfturn/console"
	"halfturn/cmd/halfturn/place"
	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/assess"
	"halfturn/coach/debrief"
	"halfturn/coach/layout"
	"halfturn/coach/names"
	"halfturn/coach/print"
	"halfturn/coach/stored"
	"halfturn/stream/phrase"
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
		return base.Usage(err)
	}
	return c.with(ctx, s, false, func(a *archive.Archive, in *place.Place) error {
		sheet, err := stored.SheetOf(ctx, a, name, nil, in.Config.Judging.RequiredOf)
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
			return printSheet(w, sheet, s.Language)
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

func printSheet(out io.Writer, s *assess.Sheet, in *phrase.Language) error {
	w := layout.NewPage(out)
	for _, c := range coach.Cautions {
		fmt.Fprintln(w, in.Text(c))
	}
	fmt.Fprintf(w, "\n%s\n", layout.Heading(w, in.Wordf("Grade sheet of %s", s.Student)))
	fmt.Fprintf(w, "  %s\n\n", in.Wordf("sessions: %d, signed: %d", s.Sessions, s.Signed))
	if len(s.Maneuvers) == 0 {
		fmt.Fprintf(w, "  %s\n", in.Word("Nothing was graded yet."))
		return w.Err()
	}
	t := layout.NewTable(w, layout.Below{Column: 6, Title: in.Word("work on") + ": "})
	headings := []string{in.Word("MANEUVER"), in.Word("LEGS"), in.Word("last"), in.Word("best"), in.Word("median"),
		in.Word("required"), in.Word("work on")}
	fmt.Fprintln(t, strings.ToUpper(strings.Join(headings, "\t")))
	for i := range s.Maneuvers {
		fmt.Fprintln(t, strings.Join(sheetCells(&s.Maneuvers[i], in), "\t"))
	}
	_ = t.Flush() // the page keeps the error
	if a := &s.Agreement; a.Rated > 0 {
		fmt.Fprintf(w, "\n  %s\n", in.Wordf("Legs rated: %d; as measured: %d, a grade apart: %d; better than "+
			"measured: %d, worse: %d.", a.Rated, a.Same, a.Near, a.Higher, a.Lower))
		fmt.Fprintf(w, "  %s\n", in.Wordf("Legs of which the one thing was named: %d; it was the measured one: %d.",
			a.Named, a.Thing))
	}
	return w.Err()
}

// sheetCells are the cells of a maneuver.
func sheetCells(r *assess.SheetRow, in *phrase.Language) []string {
	inWords := func(grade string) string { return in.Say(debrief.InWords(grade)) }
	grade := func(g *assess.Grade) string { return inWords(g.Grade) + " " + in.Number(g.Score, 0) }
	required, work := "–", "–"
	if r.Required != "" {
		required = inWords(r.Required)
		if !r.Reached {
			required = in.Wordf("%s, not yet", required)
		}
	}
	if !r.WorkOn.IsZero() {
		work = in.Say(r.WorkOn) + " " + in.Wordf("(%d of %d)", r.Times, r.Of)
	}
	return []string{
		in.Text(r.Title),
		strconv.Itoa(r.Legs),
		grade(&r.Last),
		grade(&r.Best),
		grade(&r.Median),
		required,
		work,
	}
}
