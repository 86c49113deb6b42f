package sessions

import (
	"context"
	"fmt"
	"time"

	"halfturn/cmd/halfturn/amount"
	"halfturn/cmd/halfturn/base"
	"halfturn/coach/archive"
	"halfturn/coach/who"
)

type pruneCmd struct {
	bookFlags
	Age  string `help:"Remove sessions that ended longer ago: 90d, 12w, 36h." placeholder:"TIME"`
	Size string `help:"Remove the oldest until all sessions take no more: 20GB, 500MB." placeholder:"SIZE"`
	Yes  bool   `help:"Remove them. Without it they are only listed."`
}

// Help says what else there is to know.
func (pruneCmd) Help() string {
	return "Recordings, grades and remarks of a session go together, for good. Sessions marked by sessions keep " +
		"stay, and those being flown.\n\n" +
		"  halfturn sessions prune --age 365d\n" +
		"  halfturn sessions prune --size 20GB --yes"
}

// Run removes old sessions, or lists them.
func (c *pruneCmd) Run(ctx context.Context, s base.Streams) error {
	var r archive.Retention
	var err error
	if c.Age == "" && c.Size == "" {
		return base.Usagef(s.Language, "say by what: %s, %s, or both", "--age 90d", "--size 20GB")
	}
	if r.Age, err = amount.ParseAge(s.Language, c.Age); err != nil {
		return base.Usagef(s.Language, "%s %w", "--age", err)
	}
	if r.Size, err = amount.ParseSize(s.Language, c.Size); err != nil {
		return base.Usagef(s.Language, "%s %w", "--size", err)
	}
	return c.with(ctx, s, !c.Yes, func(b *archive.Archive) error {
		gone, failed := b.Prune(ctx, who.Owner(), r, time.Now(), !c.Yes)
		if c.Format == "json" {
			err := base.Indented(s.Out, map[string]any{"version": 1, "removed": c.Yes, "sessions": gone})
			return firstOf(failed, err)
		}
		in, bytes := s.Language, int64(0)
		for _, p := range gone {
			bytes += p.Bytes
			why := in.Word("by age")
			if p.Why == "size" {
				why = in.Word("by size")
			}
			fmt.Fprintf(s.Out, "%s  %s  %s\n", p.ID, amount.Megabytes(in, p.Bytes), why)
		}
		switch {
		case len(gone) == 0:
			fmt.Fprintln(s.Out, in.Word("Nothing is to be removed."))
		case c.Yes:
			fmt.Fprintln(s.Out, in.Wordf("Removed: %s, %s.", amount.Sessions(in, len(gone)),
				amount.Megabytes(in, bytes)))
		default:
			fmt.Fprintln(s.Out, in.Wordf("To be removed: %s, %s; --yes removes what is listed.",
				amount.Sessions(in, len(gone)), amount.Megabytes(in, bytes)))
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
