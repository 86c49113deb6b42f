package sessions

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"

	"halfturn/cmd/halfturn/amount"
	"halfturn/cmd/halfturn/base"
	"halfturn/cmd/halfturn/console"
	"halfturn/coach/archive/take"
	"halfturn/coach/grading"
	"halfturn/coach/layout"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
)

type importCmd struct {
	base.Flags
	Data     string   `help:"Data directory." placeholder:"DIR" type:"path"`
	Files    []string `arg:"" name:"file" help:"${help_captures}" type:"path"`
	Format   string   `help:"${help_import_format}" enum:"text,json" default:"text" placeholder:"FORMAT"`
	KeepAll  bool     `help:"Keep also streams that cannot be graded."`
	Size     string   `help:"${help_most_size}" name:"most-size" default:"4GB" placeholder:"SIZE"`
	Rate     float64  `help:"${help_rate}" placeholder:"N"`
	Ratio    int64    `help:"${help_most_ratio}" name:"most-ratio" default:"100" placeholder:"N"`
	Sessions int      `help:"${help_most_sessions}" name:"most-sessions" default:"100" placeholder:"N"`
	Stations int      `help:"${help_most_stations}" name:"most-stations" default:"64" placeholder:"N"`
}

// Help says what else there is to know.
func (importCmd) Help() string {
	return "A session recorded by Halfturn is taken in as it was flown. Another capture gives a session for each " +
		"sender, and a new one after each break of session-idle. A text log gives one as well, as grade reads it; a " +
		"map that it needs must stand in the configuration, too, for its session to be read later (maps). " +
		"The same flight twice is noticed and not doubled. Streams that cannot be graded are left out, and counted. " +
		"A capture is taken in whole or not at all: when one is refused, or Ctrl-C stops it, nothing of it stays. " +
		"The captures themselves are not changed."
}

// limits are those of the flags.
func (c *importCmd) limits(in *phrase.Language) (take.Limits, error) {
	l := take.Limits{Ratio: c.Ratio, Sessions: c.Sessions, Stations: c.Stations}
	if c.Size != "0" {
		n, err := amount.ParseSize(in, c.Size)
		if err != nil {
			return l, base.Usagef(in, "%s %w", "--most-size", err)
		}
		l.Bytes = n
	}
	if l.Ratio < 0 || l.Sessions < 0 || l.Stations < 0 {
		return l, base.Usagef(in, "%s must be 0 or more", "--most-ratio, --most-sessions, --most-stations")
	}
	return l, nil
}

// Run takes the captures in. One that fails does not keep the others out.
func (c *importCmd) Run(ctx context.Context, s base.Streams) (err error) {
	if c.Proposes() {
		return base.ProposeMap(ctx, s, c.Files)
	}
	if err := base.CheckRate(s.Language, c.Rate); err != nil {
		return err
	}
	cfg, err := base.Load(&c.Flags, s.Env)
	if err != nil {
		return err
	}
	limits, err := c.limits(s.Language)
	if err != nil {
		return err
	}
	if _, err := cfg.Session(); err != nil { // reported once, not for each capture
		return err
	}
	data, err := base.DataDir(s.Language, cfg, c.Data)
	if err != nil {
		return err
	}
	files, err := grading.Recordings(ctx, c.Files)
	if err != nil {
		return err
	}
	book, err := openBook(ctx, cfg, data)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	if err := take.Sweep(ctx, book.Dir()); err != nil {
		return err
	}
	judge := base.Judging(cfg, &c.Flags)
	judge.Rate = c.Rate
	in := judge.Importer(who.Owner(), book, "halfturn "+base.Version)
	in.Silence, in.Limits, in.KeepAll = cfg.Idle.Duration, limits, c.KeepAll
	bar := console.NewProgress(s.Err, len(files))
	var failed error
	all := []*take.Taken{}
	for _, name := range files {
		taken, err := in.Import(ctx, name, name)
		if ctx.Err() != nil {
			failed = errors.Join(failed, grading.ErrInterrupted)
			break
		}
		if err == nil {
			all = append(all, taken)
			err = taken.Damage
		}
		if err != nil {
			failed = errors.Join(failed, fmt.Errorf("%s: %w", name, err))
		}
		bar.Step(name)
	}
	bar.Clear()
	return errors.Join(c.list(s, all), failed)
}

func (c *importCmd) list(s base.Streams, all []*take.Taken) error {
	if c.Format == "json" {
		return base.Indented(s.Out, take.NewList(all...))
	}
	w, in := layout.NewPage(s.Out), s.Language
	for _, taken := range all {
		for _, d := range taken.Sessions {
			text := amount.Legs(in, d.Legs)
			switch {
			case d.Double:
				text = in.Word("is there already, nothing was added")
			case !d.Why.IsZero():
				text = in.Wordf("kept, not gradable: %s", in.Say(d.Why))
			}
			fmt.Fprintln(w, in.Wordf("%s  %s (from %s in %s)", d.Session, text, d.Sender, filepath.Base(d.File)))
		}
		for _, note := range taken.Notes {
			fmt.Fprintf(w, "  %s\n", in.Say(note))
		}
	}
	if len(all) > 0 {
		fmt.Fprintf(w, "\n%s\n", in.Word("All sessions: halfturn sessions list. One of them: halfturn sessions show "+
			"SESSION"))
	}
	return w.Err()
}
