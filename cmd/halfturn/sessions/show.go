package sessions

import (
	"context"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/assess"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
)

type showCmd struct {
	bookFlags
	Session string `arg:"" help:"Session by name; last is the newest."`
	Grading int    `help:"1 is the first grading, 2 and more those of regrade." default:"1" placeholder:"N"`
}

// Shown is a session as JSON: what is known of it, and the grades in the format of grade.
type Shown struct {
	Version  int                    `json:"version"`
	Cautions []string               `json:"cautions"`
	Session  *logbook.SessionDetail `json:"session"`
	Report   *debrief.Report        `json:"report"`
}

// Run shows one session.
func (c *showCmd) Run(ctx context.Context, s base.Streams) error {
	return c.withSession(ctx, s, true, &c.Session, func(b *archive.Archive) error {
		d, err := b.Session(ctx, c.Session)
		if err != nil {
			return err
		}
		r, err := b.Report(ctx, c.Session, c.Grading)
		if err != nil {
			return err
		}
		if c.Grading == 1 {
			r = assess.Report(r, &d.Judging)
		}
		if c.Format == "json" {
			return base.Indented(s.Out, &Shown{1, coach.Cautions[:], d, r})
		}
		return printSession(s.Out, d, r, s.Language)
	})
}
