package sessions

import (
	"context"
	"strings"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/archive"
	"halfturn/coach/logbook"
	"halfturn/coach/who"
)

type remarkCmd struct {
	bookFlags
	Session string   `arg:"" help:"Session by name; last is the newest."`
	Words   []string `arg:"" help:"What there is to say."`
	Leg     int      `help:"The leg it is on, counted from 1; 0 is the session as a whole." placeholder:"N"`
	At      *float64 `help:"The moment it is on, seconds from the beginning of the recording." placeholder:"SECONDS"`
	By      string   `help:"Who says it." placeholder:"NAME"`
}

// Help says what else there is to know.
func (remarkCmd) Help() string {
	return "Remarks stay with the session, are searched by sessions list --text, and stand on the printed " +
		"debrief.\n\n" +
		"  halfturn sessions remark last --leg 2 --by \"B. Example\" Nose late at the top"
}

// Run adds a remark.
func (c *remarkCmd) Run(ctx context.Context, s base.Streams) error {
	return c.withSession(ctx, s, false, &c.Session, func(b *archive.Archive) error {
		r, err := b.Remark(who.Owner(), c.Session, logbook.Remark{
			Leg:   c.Leg,
			Time:  c.At,
			By:    c.By,
			Words: strings.Join(c.Words, " "),
		})
		if err != nil {
			return err
		}
		members := map[string]any{"session": c.Session, "remark": r}
		return c.done(s, members, s.Language.Wordf("Remark %d is kept with session %s.", r.ID, c.Session))
	})
}
