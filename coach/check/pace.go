package check

import "math"

// pace gives the time of the turn over that of the reference path: 1 is its rhythm, less is rushed. It counts from
// where the bank leaves level, as the path does: a pull with the wings level comes before.
type pace struct {
	get   get
	in    rollIn
	facts *Facts
}

func newPace(f *Facts) *pace { return &pace{get: getter("bank", f), in: newRollIn(f), facts: f} }

func (p *pace) Step(m *Moment) {
	if v, ok := p.get(m); ok {
		p.in.step(v, m.Time())
	}
}

func (p *pace) Measure(exit *Moment) Measure {
	if exit == nil {
		return none("there was no exit")
	}
	if math.IsNaN(p.facts.Duration) || p.facts.Duration <= 0 {
		return none("there is no reference path: it needs an aircraft card")
	}
	return value((exit.Time()-p.in.from(p.facts.Entry.Time()))/p.facts.Duration, math.NaN())
}
