package check

import (
	"math"

	"halfturn/coach/maneuver"
)

// setUp gives a mean over the level flight before the leg, measured by the coach.
type setUp struct {
	spec  *maneuver.Check
	facts *Facts
}

func (*setUp) Step(*Moment) {}

func (s *setUp) Measure(*Moment) Measure {
	v, ok := s.facts.Setup[s.spec.Channel]
	if len(s.facts.Setup) == 0 { // the leg began where the one before it ended
		return none("no level flight came before")
	}
	if !ok {
		return absent(s.spec.Channel, s.facts, false)
	}
	return value(v, math.NaN())
}
