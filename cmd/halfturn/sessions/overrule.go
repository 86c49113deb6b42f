package sessions

import (
	"context"
	"strings"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/archive"
	"halfturn/coach/logbook"
	"halfturn/coach/who"
)

type overruleCmd struct {
	bookFlags
	Session string   `arg:"" help:"Session by name; last is the newest."`
	Reason  []string `arg:"" optional:"" help:"Why; needed unless the verdict is computed."`
	Leg     int      `help:"The leg that it is on, counted from 1." placeholder:"N"`
	Series  int      `help:"The series that it is on, counted from 1." placeholder:"N"`
	Check   string   `help:"The check that it is on; left out: the leg or series as a whole." placeholder:"ID"`
	Verdict string   `help:"${help_verdict}" default:"computed" placeholder:"VERDICT"`
	By      string   `help:"Who says so." placeholder:"NAME"`
}

// Help says what else there is to know.
func (overruleCmd) Help() string {
	return "The computed grade stays beside the verdict, and all scores that follow are counted again. The ids of " +
		"checks are those of sessions show --format json.\n\n" +
		"  halfturn sessions overrule last --leg 2 --verdict met a gust at the top\n" +
		"  halfturn sessions overrule last --leg 2"
}

// Run overrules a verdict.
func (c *overruleCmd) Run(ctx context.Context, s base.Streams) error {
	return c.withSession(ctx, s, false, &c.Session, func(b *archive.Archive) error {
		o := logbook.Overrule{Leg: c.Leg, Series: c.Series, Check: c.Check, Verdict: c.Verdict, By: c.By,
			Reason: strings.Join(c.Reason, " ")}
		said := s.Language.Wordf("The verdict is kept with session %s.", c.Session)
		if c.Verdict == "computed" {
			o.Verdict = ""
			said = s.Language.Wordf("The verdict in session %s is as computed again.", c.Session)
		}
		if err := b.Overrule(who.Owner(), c.Session, o); err != nil {
			return err
		}
		return c.done(s, map[string]any{"session": c.Session, "verdict": o.Verdict}, said)
	})
}
