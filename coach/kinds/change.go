package kinds

import (
	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

var changeKind = &check.Kind{
	Name:   "change",
	Says:   "change from entry to exit",
	Needs:  []string{"channel"},
	Allows: []string{"about"},
	Valid:  straight,
	Where: func(s *check.Spec, in *phrase.Language) string {
		return in.Wordf("change of %s from entry to exit", quantity(s, in))
	},
	Unit: ofQuantity,
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &change{get: check.Read(s.Channel, f), name: s.Channel, facts: f}
	},
	Bands:  check.Tolerances,
	Looks:  check.AtPlace,
	Known:  check.AtEnd,
	Doubt:  check.OneValue,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// change measures the value at the exit less that at the entry.
type change struct {
	get   check.Reader
	name  string
	facts *check.Facts
}

func (*change) Step(*check.Moment) {}

func (c *change) Measure(exit *check.Moment) check.Measure {
	if exit == nil {
		return check.None(phrase.NoExit.Of())
	}
	now, ok := c.get(exit)
	then, had := c.get(&c.facts.Entry)
	if !ok || !had {
		return check.Absent(c.name, c.facts, ok || had)
	}
	return check.Found(now-then, exit.Turn)
}
