package main

import (
	"context"
	"errors"
	"fmt"

	"halfturn/cmd/halfturn/base"
	"halfturn/cmd/halfturn/console"
	"halfturn/coach/debrief"
	"halfturn/coach/grading"
)

type gradeCmd struct {
	base.Flags
	Files  []string `arg:"" name:"file" help:"${help_recordings}" type:"path"`
	Format string   `help:"${help_format_grades}" enum:"text,table,json,csv," default:"" placeholder:"FORMAT"`
	Rate   float64  `help:"${help_rate}" placeholder:"N"`
	Jobs   int      `help:"How many files are graded at once; 0 is one per processor." placeholder:"N"`
}

// Help says what else there is to know.
func (gradeCmd) Help() string {
	return "A session of Halfturn is judged by what was chosen while it was flown, another recording as configured; " +
		"--maneuver, --standard, --aircraft and --cards override both. The output says which it was. A session's " +
		"folder is one recording, however many parts it has. With --maneuver auto each leg is compared with every " +
		"card and counts for the one it fits clearly; the table shows by what margin. A leg that fits none clearly " +
		"reads \"unclear\", with the two nearest cards. Ctrl-C stops and prints what was graded so far. Exit status " +
		"1 when a file could not be read to its end; the others are graded all the same.\n\n" + logHelp
}

// Run grades the recordings. A file that cannot be read does not keep the others from being
// graded, but the command fails.
func (g *gradeCmd) Run(ctx context.Context, io base.Streams) error {
	if g.Proposes() {
		return base.ProposeMap(ctx, io, g.Files)
	}
	if err := base.CheckRate(io.Language, g.Rate); err != nil {
		return err
	}
	if g.Jobs < 0 {
		return base.Usagef(io.Language, "%s is %v; must be 0 or more", "--jobs", g.Jobs)
	}
	cfg, err := base.Load(&g.Flags, io.Env)
	if err != nil {
		return err
	}
	if _, err := cfg.Session(); err != nil { // reported once, not for each recording
		return err
	}
	files, err := grading.Recordings(ctx, g.Files)
	if err != nil {
		return err
	}
	report := debrief.New()
	bar := console.NewProgress(io.Err, len(files))
	judge := base.Judging(cfg, &g.Flags)
	judge.Rate = g.Rate
	report.Files = grading.All(ctx, files, judge, g.Jobs, bar.Step)
	bar.Clear()
	var failed error
	for _, f := range report.Files {
		if f.Error != "" {
			failed = errors.Join(failed, fmt.Errorf("%s: %s", f.File, f.Error))
		}
	}
	if ctx.Err() != nil {
		failed = base.Failf(io.Language, "interrupted: %d of %d files were graded", len(report.Files), len(files))
	}
	if err := grading.Print(io.Out, report, g.format(len(files)), io.Language); err != nil {
		return err
	}
	return failed
}

// format is the one that was asked for, or what suits the number of files.
func (g *gradeCmd) format(files int) string {
	switch {
	case g.Format != "":
		return g.Format
	case files > 1:
		return "table"
	}
	return "text"
}

const logHelp = "A text log is read like a recording, by its own time and the same maps as streams: CSV with a line " +
	"of names, columns between tabs, semicolons, spaces or bars, name=value pairs, or JSON lines. For one whose " +
	"columns no map knows, --map propose prints a map and says which channels stay empty. Save it (> my-map.toml), " +
	"check it, and grade the log with --map my-map.toml. A log without a time needs --rate."
