package sessions

import (
	"context"
	"time"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/archive"
	"halfturn/coach/logbook"
)

type listCmd struct {
	bookFlags
	Student  string `help:"Only of this student." placeholder:"NAME"`
	Maneuver string `help:"Only with a leg of this maneuver, by the name of its card." placeholder:"NAME"`
	Aircraft string `help:"Only in this aircraft, by the name of its card." placeholder:"NAME"`
	From     string `help:"Only from this day on: year-month-day." placeholder:"DATE"`
	To       string `help:"Only up to this day, it included." placeholder:"DATE"`
	Grade    string `help:"Only of this grade." enum:",unable,fair,good,excellent" default:"" placeholder:"GRADE"`
	Text     string `help:"Only with these words, or beginnings of words, in a remark." placeholder:"WORDS"`
	Flown    bool   `help:"Not those without a leg, unless they go on, are kept or have a remark."`
	Limit    int    `help:"At most this many; 0 is all." default:"50" placeholder:"N"`
}

// Help says what else there is to know.
func (listCmd) Help() string {
	return "Times are of this computer's clock. A terminal shows a mark for each leg: ● met, ◐ near, ⊘ " +
		"missed, ◌ not measured. Kept says " +
		"that a session is never removed by age or size.\n\n" +
		"  halfturn sessions list --student \"Ada Example\" --from 2026-03-01\n" +
		"  halfturn sessions list --text apex --format json"
}

// Run lists sessions.
func (c *listCmd) Run(ctx context.Context, s base.Streams) error {
	f := logbook.Filter{
		Student:  c.Student,
		Maneuver: c.Maneuver,
		Aircraft: c.Aircraft,
		Grade:    c.Grade,
		Text:     c.Text,
		Flown:    c.Flown,
	}
	for _, d := range []struct {
		flag, text string
		to         *time.Time
		days       int
	}{{"--from", c.From, &f.From, 0}, {"--to", c.To, &f.To, 1}} {
		if d.text == "" {
			continue
		}
		t, err := logbook.DayStart(d.text)
		if err != nil {
			return base.Usagef(s.Language, "%s: %w", d.flag, err)
		}
		*d.to = t.AddDate(0, 0, d.days)
	}
	if c.Limit < 0 {
		return base.Usagef(s.Language, "%s is %v; must be 0 or more", "--limit", c.Limit)
	}
	return c.with(ctx, s, true, func(b *archive.Archive) error {
		list, err := logbook.ListAll(ctx, b, f, c.Limit)
		if err != nil {
			return err
		}
		if c.Format == "json" {
			return base.Indented(s.Out, list)
		}
		return printSessions(s.Out, list, s.Language)
	})
}
