package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"halfturn/cmd/halfturn/console"
	"halfturn/coach/archive"
	"halfturn/coach/names"
	"halfturn/coach/stored"
	"halfturn/configs/settings"
	"halfturn/configs/strict"
	"halfturn/stream/capture"
)

type sessionsExportCmd struct {
	common
	Data    string `help:"Data directory." placeholder:"DIR" type:"path"`
	Session string `arg:"" help:"Session by name or folder, or a capture file; last is the newest session."`
	Format  string `help:"${help_export_format}" enum:"csv,parquet,gpx,kml,json,pdf" default:"csv" placeholder:"FORMAT"`
	Leg     int    `help:"${help_export_leg}" placeholder:"N"`
	Output  string `short:"o" help:"${help_export_output}" placeholder:"FILE" type:"path"`
	Force   bool   `help:"Write over the output file."`
	Paper   string `help:"Paper of the PDF." enum:"a4,letter" default:"a4" placeholder:"SIZE"`
	Student string `help:"${help_export_student}" placeholder:"NAME"`
}

// Help says what else there is to know.
func (sessionsExportCmd) Help() string {
	return "Columns are named with their units. Times of receipt are UTC. A recording that is cut off is written as " +
		"far as it goes, and exit status 1 says so. " +
		"Samples are read as they are written: an eight-hour recording needs no more memory than a short one.\n\n" +
		"  halfturn sessions export 2026-03-01T12-00-00Z_seat-3 --format gpx -o flight.gpx\n" +
		"  halfturn sessions export flight.pcapng --leg 2 --format csv"
}

// Run writes the export.
func (e *sessionsExportCmd) Run(ctx context.Context, s streams) error {
	cfg, err := loadConfig(&e.common, s.env)
	if err != nil {
		return err
	}
	if e.Leg < 0 {
		return usagef("--leg is %d; legs count from 1", e.Leg)
	}
	if e.Student, err = names.Person(e.Student); err != nil {
		return usagef("--student: %w", err)
	}
	if _, err := cfg.Session(); err != nil {
		return err
	}
	data, err := dataOf(cfg, e.Data, s)
	if err != nil {
		return err
	}
	if e.Session, err = newest(ctx, data, e.Session); err != nil {
		return err
	}
	rec, err := stored.Find(ctx, data, e.Session)
	if err != nil {
		return err
	}
	out := &stored.Export{Format: e.Format, Leg: e.Leg, Paper: e.Paper, Student: e.Student}
	if stored.In(data, rec) && e.Format == "pdf" && exists(filepath.Join(data, "logbook.db")) {
		b := bookFlags{Config: e.Config, Data: data}
		about := func(a *archive.Archive) error { return out.About(ctx, a, rec.Session) }
		if err := b.with(ctx, s, true, about); err != nil {
			return err
		}
	}
	write := func(w io.Writer) error { return out.Write(ctx, w, rec, judging(cfg, &e.common)) }
	if e.Output == "" || e.Output == "-" {
		if e.Format == "json" {
			return write(s.out)
		}
		return write(console.Raw(s.out))
	}
	return writeSafely(e.Output, e.Force, write)
}

// dataOf is the data directory: the flag's, else the configuration's.
func dataOf(cfg *settings.Config, flag string, s streams) (string, error) {
	if flag != "" {
		return flag, nil
	}
	return cfg.DataDir()
}

func writeIndented(w io.Writer, v any) error {
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	return enc.Encode(v)
}

// writeSafely writes a file that appears whole or not at all, and never over one that is there
// unless forced. What could be read of a damaged recording is kept.
func writeSafely(name string, force bool, write func(io.Writer) error) (err error) {
	if _, err := os.Lstat(name); err == nil && !force {
		return fmt.Errorf("%s is there already; choose another name or add --force", name)
	}
	f, err := os.CreateTemp(filepath.Dir(name), ".halfturn-*")
	if err != nil {
		return fmt.Errorf("%s cannot be written: %w", name, strict.WithoutName(err))
	}
	failed := write(f)
	var cut *capture.CutError
	if failed != nil && !errors.As(failed, &cut) {
		return errors.Join(failed, f.Close(), os.Remove(f.Name()))
	}
	if err := errors.Join(f.Chmod(0o644), f.Sync(), f.Close()); err != nil {
		return errors.Join(fmt.Errorf("%s cannot be written: %w", name, strict.WithoutName(err)), os.Remove(f.Name()))
	}
	return errors.Join(failed, os.Rename(f.Name(), name))
}
