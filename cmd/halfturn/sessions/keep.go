package sessions

import (
	"context"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/archive"
	"halfturn/coach/who"
)

type keepCmd struct {
	bookFlags
	Session string `arg:"" help:"Session by name; last is the newest."`
	Off     bool   `help:"Take the mark away."`
}

// Run marks a session.
func (c *keepCmd) Run(ctx context.Context, s base.Streams) error {
	return c.withSession(ctx, s, false, &c.Session, func(b *archive.Archive) error {
		if err := b.SetKeep(who.Owner(), c.Session, !c.Off); err != nil {
			return err
		}
		word := "is never removed by age or size"
		if c.Off {
			word = "may be removed by age or size"
		}
		return c.done(s.Out, map[string]any{"session": c.Session, "keep": !c.Off}, "Session %s %s.", c.Session, word)
	})
}
