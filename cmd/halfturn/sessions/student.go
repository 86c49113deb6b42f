package sessions

import (
	"context"
	"strings"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/archive"
	"halfturn/coach/who"
)

type studentCmd struct {
	bookFlags
	Session string   `arg:"" help:"Session by name; last is the newest."`
	Name    []string `arg:"" optional:"" help:"Who flew it; left out: nobody named."`
}

// Run notes who flew.
func (c *studentCmd) Run(ctx context.Context, s base.Streams) error {
	return c.withSession(ctx, s, false, &c.Session, func(b *archive.Archive) error {
		if err := b.SetStudent(who.Owner(), c.Session, strings.Join(c.Name, " ")); err != nil {
			return err
		}
		d, err := b.Session(ctx, c.Session)
		if err != nil {
			return err
		}
		name := d.Student // as it was first written
		said := s.Language.Wordf("Session %s was flown by %s.", c.Session, name)
		if name == "" {
			said = s.Language.Wordf("Session %s names no student.", c.Session)
		}
		return c.done(s, map[string]any{"session": c.Session, "student": name}, said)
	})
}
