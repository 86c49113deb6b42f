package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"halfturn/cmd/halfturn/console"
	"halfturn/coach/archive"
	"halfturn/coach/archive/lock"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/who"
)

type sessionsRemarkCmd struct {
	bookFlags
	Session string   `arg:"" help:"Session by name; last is the newest."`
	Words   []string `arg:"" help:"What there is to say."`
	Leg     int      `help:"The leg it is on, counted from 1; 0 is the session as a whole." placeholder:"N"`
	At      *float64 `help:"The moment it is on, seconds from the beginning of the recording." placeholder:"SECONDS"`
	By      string   `help:"Who says it." placeholder:"NAME"`
}

// Help says what else there is to know.
func (sessionsRemarkCmd) Help() string {
	return "Remarks stay with the session, are searched by sessions list --text, and stand on the printed " +
		"debrief.\n\n" +
		"  halfturn sessions remark 2026-03-01T12-00-00Z_seat-3 --leg 2 --by \"B. Example\" The nose is late over " +
		"the top"
}

// Run adds a remark.
func (c *sessionsRemarkCmd) Run(ctx context.Context, s streams) error {
	return c.withSession(ctx, s, false, &c.Session, func(b *archive.Archive) error {
		r, err := b.Remark(who.Owner(), c.Session, logbook.Remark{Leg: c.Leg, Time: c.At, By: c.By,
			Words: strings.Join(c.Words, " ")})
		if err != nil {
			return err
		}
		return c.told(s.out, map[string]any{"session": c.Session, "remark": r}, "Remark %d is kept with session %s.",
			r.ID, c.Session)
	})
}

type sessionsStudentCmd struct {
	bookFlags
	Session string   `arg:"" help:"Session by name; last is the newest."`
	Name    []string `arg:"" optional:"" help:"Who flew it; left out: nobody named."`
}

// Run notes who flew.
func (c *sessionsStudentCmd) Run(ctx context.Context, s streams) error {
	return c.withSession(ctx, s, false, &c.Session, func(b *archive.Archive) error {
		if err := b.SetStudent(who.Owner(), c.Session, strings.Join(c.Name, " ")); err != nil {
			return err
		}
		d, err := b.Session(ctx, c.Session)
		if err != nil {
			return err
		}
		name := d.Student // as it was first written
		return c.told(s.out, map[string]any{"session": c.Session, "student": name}, "Session %s was flown by %s.",
			c.Session, cmp.Or(name, "nobody named"))
	})
}

type sessionsKeepCmd struct {
	bookFlags
	Session string `arg:"" help:"Session by name; last is the newest."`
	Off     bool   `help:"Take the mark away."`
}

// Run marks a session.
func (c *sessionsKeepCmd) Run(ctx context.Context, s streams) error {
	return c.withSession(ctx, s, false, &c.Session, func(b *archive.Archive) error {
		if err := b.SetKeep(who.Owner(), c.Session, !c.Off); err != nil {
			return err
		}
		word := "is never removed by age or size"
		if c.Off {
			word = "may be removed by age or size"
		}
		return c.told(s.out, map[string]any{"session": c.Session, "keep": !c.Off}, "Session %s %s.", c.Session, word)
	})
}

type sessionsPruneCmd struct {
	bookFlags
	Age  string `help:"Remove sessions that ended longer ago: 90d, 12w, 36h." placeholder:"TIME"`
	Size string `help:"Remove the oldest until all sessions take no more: 20GB, 500MB." placeholder:"SIZE"`
	Yes  bool   `help:"Remove them. Without it they are only listed."`
}

// Help says what else there is to know.
func (sessionsPruneCmd) Help() string {
	return "Recordings, grades and remarks of a session go together, for good. Sessions marked by sessions keep " +
		"stay, and those being flown.\n\n" +
		"  halfturn sessions prune --age 365d\n" +
		"  halfturn sessions prune --size 20GB --yes"
}

// Run removes old sessions, or lists them.
func (c *sessionsPruneCmd) Run(ctx context.Context, s streams) error {
	var r archive.Retention
	var err error
	if c.Age == "" && c.Size == "" {
		return usagef("say by what: --age 90d, --size 20GB, or both")
	}
	if r.Age, err = parseAge(c.Age); err != nil {
		return usagef("--age: %w", err)
	}
	if r.Size, err = parseSize(c.Size); err != nil {
		return usagef("--size: %w", err)
	}
	return c.with(ctx, s, !c.Yes, func(b *archive.Archive) error {
		gone, failed := b.Prune(ctx, who.Owner(), r, time.Now(), !c.Yes)
		if c.Format == "json" {
			err := writeIndented(s.out, map[string]any{"version": 1, "removed": c.Yes, "sessions": gone})
			return firstOf(failed, err)
		}
		var bytes int64
		for _, p := range gone {
			bytes += p.Bytes
			fmt.Fprintf(s.out, "%s  %s  by %s\n", p.ID, megabytes(p.Bytes), p.Why)
		}
		switch {
		case len(gone) == 0:
			fmt.Fprintln(s.out, "Nothing is to be removed.")
		case c.Yes:
			fmt.Fprintf(s.out, "%s removed, %s.\n", count(len(gone), "session"), megabytes(bytes))
		default:
			fmt.Fprintf(s.out, "%s would be removed, %s; --yes removes them.\n", count(len(gone), "session"),
				megabytes(bytes))
		}
		return failed
	})
}

func firstOf(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// count is a number of things in words: "1 leg", "2 legs".
func count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// areOf is a count as the subject of a sentence: "1 session is", "2 sessions are".
func areOf(n int, thing string) string {
	if n == 1 {
		return count(n, thing) + " is"
	}
	return count(n, thing) + " are"
}

func megabytes(n int64) string { return fmt.Sprintf("%.1f MB", float64(n)/1e6) }

// parseAge reads a time such as 90d, 12w or 36h; "" is none.
func parseAge(s string) (time.Duration, error) {
	const want = "is %q; must be a number with h, d or w, such as 90d"
	if s == "" {
		return 0, nil
	}
	unit, ok := map[byte]time.Duration{'h': time.Hour, 'd': 24 * time.Hour, 'w': 7 * 24 * time.Hour}[s[len(s)-1]]
	n, err := strconv.ParseFloat(s[:len(s)-1], 64)
	if !ok || err != nil || !(n > 0 && n < 1e5) {
		return 0, fmt.Errorf(want, s)
	}
	return time.Duration(n * float64(unit)), nil
}

// parseSize reads a size such as 20GB or 500MB; "" is none.
func parseSize(s string) (int64, error) {
	if s == "" {
		return 0, nil
	}
	upper := strings.ToUpper(strings.ReplaceAll(s, " ", ""))
	for tail, unit := range map[string]float64{"KB": 1e3, "MB": 1e6, "GB": 1e9, "TB": 1e12} {
		if number, ok := strings.CutSuffix(upper, tail); ok {
			if n, err := strconv.ParseFloat(number, 64); err == nil && n > 0 && n < 1e6 {
				return int64(n * unit), nil
			}
		}
	}
	return 0, fmt.Errorf("is %q; must be a number with KB, MB, GB or TB, such as 20GB", s)
}

type sessionsRebuildCmd struct {
	bookFlags
}

// Help says what else there is to know.
func (sessionsRebuildCmd) Help() string {
	return "The folders in the data directory hold everything: recordings, grades, remarks, cards. A logbook that is " +
		"damaged is kept beside, under another name. " +
		"A session without grades is graded again from its recording, by the cards as they stood. " +
		"One that cannot be taken in is left out and named, with the reason; its folder stays as it is, and the exit " +
		"status is 1. " +
		"A server on the same data directory has to be stopped first."
}

// Run rebuilds the logbook.
func (c *sessionsRebuildCmd) Run(ctx context.Context, s streams) (err error) {
	cfg, data, err := c.where(s)
	if err != nil {
		return err
	}
	lock, err := lock.Own(data)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, lock.Close()) }()
	book, err := archive.Open(data, archive.Options{Engine: sqlite.Engine{}, Version: version, Repair: true,
		Regrade: regrader(ctx, cfg), Tell: teller(s),
		Context: ctx})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	bar := console.NewProgress(s.err, 2)
	n, err := book.Rebuild(ctx, who.Owner(), func(done, of int) {
		bar.SetTotal(of)
		bar.Step("sessions")
	})
	bar.Clear()
	if err != nil {
		return err
	}
	out, err := book.LeftOut(ctx)
	if err != nil {
		return err
	}
	err = c.told(s.out, map[string]any{"sessions": n, "leftOut": out}, "The logbook holds %s.", count(n, "session"))
	if err != nil || out.Total == 0 {
		return err
	}
	return fmt.Errorf("%s left out: %s. Mend what is said of each, or move its folder away, then rebuild again",
		areOf(out.Total, "session"), leftOutNames(&out))
}

type sessionsBackupCmd struct {
	bookFlags
	File string `arg:"" help:"File to write; it must not be there yet." type:"path"`
}

// Help says what else there is to know.
func (sessionsBackupCmd) Help() string {
	return "The copy is of the logbook alone, as of one moment: put back as logbook.db it is read as the other. The " +
		"recordings lie in the folder sessions of the data directory; " +
		"copy that too to have everything."
}

// Run copies the logbook.
func (c *sessionsBackupCmd) Run(ctx context.Context, s streams) error {
	return c.with(ctx, s, true, func(b *archive.Archive) error {
		if err := b.Backup(ctx, c.File); err != nil {
			return err
		}
		return c.told(s.out, map[string]any{"file": c.File}, "The logbook is copied to %s.", c.File)
	})
}
