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
		said := s.Language.Wordf("Session %s is never removed by age or size.", c.Session)
		if c.Off {
			said = s.Language.Wordf("Session %s may be removed by age or size.", c.Session)
		}
		return c.done(s, map[string]any{"session": c.Session, "keep": !c.Off}, said)
	})
}
