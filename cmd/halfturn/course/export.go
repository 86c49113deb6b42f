package course

import (
	"context"
	"encoding/csv"
	"io"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/stored"
	"halfturn/web"
)

type exportCmd struct {
	flags
	whom
	Name   string `arg:"" optional:"" help:"Name of a course; left out: the one the student flies."`
	Format string `help:"csv, json, or html: a file to share." enum:"csv,json,html" default:"csv" placeholder:"FORMAT"`
	Output string `short:"o" help:"Write to this file." placeholder:"FILE" type:"path"`
	Force  bool   `help:"Write over the output file."`
	Names  bool   `help:"With html: with names, and the words of people."`
}

// Help says what is written.
func (exportCmd) Help() string {
	return "A row for each step: how it stands, what it rests on, the grade that is required beside the latest, and " +
		"what was said of it. The page needs neither a server nor a network.\n\n" +
		"  halfturn course export --student \"Ada Example\" --format html -o ada.html"
}

// Run writes the record.
func (c *exportCmd) Run(ctx context.Context, s base.Streams) error {
	return c.whom.with(ctx, s, &c.flags, false, func(at *stored.Courses, o stored.Asked) error {
		if err := of(s, at.Library, &o, c.Name, ""); err != nil {
			return err
		}
		r, err := record(ctx, at, o)
		if err != nil {
			return err
		}
		write := func(w io.Writer) error {
			switch c.Format {
			case "json":
				return base.Indented(w, r)
			case "html":
				return web.WriteCourse(w, r, c.Names)
			}
			return csv.NewWriter(w).WriteAll(r.Table())
		}
		if c.Output == "" || c.Output == "-" {
			return write(s.Out)
		}
		return stored.WriteFile(c.Output, c.Force, write)
	})
}
