package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

const paceSays = "time of the leg over the time of the reference path"

var paceKind = &check.Kind{
	Name:   "pace",
	Says:   paceSays,
	Needs:  []string{},
	Allows: []string{},
	Valid:  anything,
	Where:  as(paceSays),
	Unit:   in("ratio"),
	Leg: func(_ *check.Spec, f *check.Facts) check.Judge {
		return newPace(f)
	},
	Bands:  check.Tolerances,
	Looks:  check.OnAverage,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// pace measures the time of the turn over that of the reference path: 1 is as quick, less is rushed. It counts from
// where the bank leaves level, as the path does; a pull with the wings level is not part of it.
type pace struct {
	get   check.Reader
	in    rollIn
	facts *check.Facts
}

func newPace(f *check.Facts) *pace {
	return &pace{get: check.Read("bank", f), in: newRollIn(f), facts: f}
}

func (p *pace) Step(m *check.Moment) {
	if v, ok := p.get(m); ok {
		p.in.step(v, m.Time())
	}
}

func (p *pace) Measure(exit *check.Moment) check.Measure {
	if exit == nil {
		return check.None(phrase.NoExit.Of())
	}
	if math.IsNaN(p.facts.Duration) || p.facts.Duration <= 0 {
		return check.None(phrase.NoPath.Of())
	}
	return check.Found((exit.Time()-p.in.from(p.facts.Entry.Time()))/p.facts.Duration, math.NaN())
}
