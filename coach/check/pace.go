package check

import "math"

// pace gives the time of the leg over the time of the reference path: 1 is its rhythm, less
// is rushed.
type pace struct{ facts *Facts }

func (*pace) Step(*Moment) {}

func (p *pace) Measure(exit *Moment) Measure {
	if exit == nil {
		return none("there was no exit")
	}
	if math.IsNaN(p.facts.Duration) || p.facts.Duration <= 0 {
		return none("there is no reference path: it needs an aircraft card")
	}
	return value((exit.Time()-p.facts.Entry.Time())/p.facts.Duration, math.NaN())
}
