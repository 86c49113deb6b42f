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
	if !ok {
		return none("the stream has no %s, or no level flight came before", s.spec.Channel)
	}
	return value(v, math.NaN())
}
