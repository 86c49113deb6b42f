package sessions

import (
	"context"
	"strings"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/archive"
	"halfturn/coach/who"
)

type signCmd struct {
	bookFlags
	Session string   `arg:"" help:"Session by name; last is the newest."`
	Name    []string `arg:"" help:"Who signs."`
}

// Help says what else there is to know.
func (signCmd) Help() string {
	return "Signs the grades of a session that is over, with everything that was added to it: name, time, and " +
		"SHA-256 of all that. Whatever is added later is shown as added after signing.\n\n" +
		"  halfturn sessions sign last B. Example"
}

// Run signs a session.
func (c *signCmd) Run(ctx context.Context, s base.Streams) error {
	return c.withSession(ctx, s, false, &c.Session, func(b *archive.Archive) error {
		if err := b.Sign(who.Owner(), c.Session, strings.Join(c.Name, " ")); err != nil {
			return err
		}
		j, err := b.Judging(ctx, c.Session)
		if err != nil {
			return err
		}
		signed := j.Signed[len(j.Signed)-1]
		return c.done(s, map[string]any{"session": c.Session, "signed": signed},
			s.Language.Wordf("Session %s is signed by %s. SHA-256: %s", c.Session, signed.By, signed.Hash))
	})
}
