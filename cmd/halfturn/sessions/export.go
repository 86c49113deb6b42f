package sessions

import (
	"context"
	"io"

	"halfturn/cmd/halfturn/base"
	"halfturn/cmd/halfturn/console"
	"halfturn/coach/archive"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/names"
	"halfturn/coach/stored"
)

type exportCmd struct {
	base.Flags
	Data    string `help:"Data directory." placeholder:"DIR" type:"path"`
	Session string `arg:"" help:"Session by name or folder, or a capture file; last is the newest session."`
	Format  string `help:"${help_export_format}" enum:"${export_formats}" default:"csv" placeholder:"FORMAT"`
	Leg     int    `help:"${help_export_leg}" placeholder:"N"`
	Output  string `short:"o" help:"${help_export_output}" placeholder:"FILE" type:"path"`
	Force   bool   `help:"Write over the output file."`
	Paper   string `help:"Paper of the PDF." enum:"a4,letter" default:"a4" placeholder:"SIZE"`
	Student string `help:"${help_export_student}" placeholder:"NAME"`
	All     bool   `help:"${help_export_all}"`
	Names   bool   `help:"${help_export_names}"`
}

// Help says what else there is to know.
func (exportCmd) Help() string {
	return "Columns are named with their units. Times of receipt are UTC. A recording that is cut off is written as " +
		"far as it goes, and exit status 1 says so. " +
		"Samples are read as they are written: an eight-hour recording needs no more memory than a short one.\n\n" +
		"  halfturn sessions export last --format gpx -o flight.gpx\n" +
		"  halfturn sessions export flight.pcapng --leg 2 --format csv"
}

// Run writes the export.
func (e *exportCmd) Run(ctx context.Context, s base.Streams) error {
	cfg, err := base.Load(&e.Flags, s.Env)
	if err != nil {
		return err
	}
	if e.Leg < 0 {
		return base.Usagef(s.Language, "%s is %d; legs count from 1", "--leg", e.Leg)
	}
	if e.Student, err = names.Person(e.Student); err != nil {
		return base.Usagef(s.Language, "%s: %w", "--student", err)
	}
	if _, err := cfg.Session(); err != nil {
		return err
	}
	data, err := base.DataDir(s.Language, cfg, e.Data)
	if err != nil {
		return err
	}
	if e.Session, err = stored.Named(ctx, data, e.Session, sqlite.Engine{}); err != nil {
		return err
	}
	rec, err := stored.Find(ctx, data, e.Session)
	if err != nil {
		return err
	}
	out := &stored.Export{
		Format:   e.Format,
		Leg:      e.Leg,
		Paper:    e.Paper,
		Student:  e.Student,
		All:      e.All,
		Language: s.Language,
	}
	if stored.In(data, rec) && (e.Format == "pdf" || e.Format == "json") && stored.HasLogbook(data) {
		b := bookFlags{Config: e.Config, Data: data}
		about := func(a *archive.Archive) error { return out.About(ctx, a, rec.Session) }
		if err := b.with(ctx, s, true, about); err != nil {
			return err
		}
	}
	if e.Format == "html" {
		return e.share(ctx, s, data, rec, base.Judging(cfg, &e.Flags))
	}
	write := func(w io.Writer) error { return out.Write(ctx, w, rec, base.Judging(cfg, &e.Flags)) }
	if e.Output == "" || e.Output == "-" {
		if e.Format == "json" {
			return write(s.Out)
		}
		return write(console.Raw(s.Out))
	}
	return stored.WriteFile(e.Output, e.Force, write)
}
