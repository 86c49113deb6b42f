package sessions

import (
	"context"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/archive"
	"halfturn/coach/logbook"
	"halfturn/coach/who"
)

type rateCmd struct {
	bookFlags
	Session string `arg:"" help:"Session by name; last is the newest."`
	Leg     int    `required:"" help:"The leg, counted from 1." placeholder:"N"`
	Grade   string `required:"" help:"excellent, good, fair, unable, or none to take it back." placeholder:"GRADE"`
	Thing   string `help:"bank, nose, speed, height, heading, ball, timing or nothing." placeholder:"THING"`
}

// Help says what else there is to know.
func (rateCmd) Help() string {
	return "Keeps how the student found a leg; the debrief and the grade sheet set it beside what was measured.\n\n" +
		"  halfturn sessions rate last --leg 1 --grade fair --thing speed"
}

// Run rates a leg.
func (c *rateCmd) Run(ctx context.Context, s base.Streams) error {
	return c.withSession(ctx, s, false, &c.Session, func(b *archive.Archive) error {
		r := logbook.Rating{Leg: c.Leg, Grade: c.Grade, Thing: c.Thing}
		if c.Grade == "none" {
			r.Grade, r.Thing = "", ""
		}
		if err := b.Rate(who.Owner(), c.Session, r); err != nil {
			return err
		}
		return c.done(s, map[string]any{"session": c.Session, "leg": c.Leg, "grade": r.Grade, "thing": r.Thing},
			s.Language.Wordf("The rating of leg %d is kept with session %s.", c.Leg, c.Session))
	})
}
