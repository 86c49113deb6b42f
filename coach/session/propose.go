package session

import (
	"halfturn/coach"
	"halfturn/coach/measure"
	"halfturn/stream"
)

// propose names the aircraft card that a leg flown without one fits: it would tell more of it.
func (s *Session) propose(l *coach.Leg) {
	entry, ok := l.Entry.Values[stream.Airspeed.String()]
	if !ok || s.plan.Known || len(s.opt.Aircraft) == 0 {
		return
	}
	flown := s.measure.Flown(entry)
	if a := measure.Fits(s.opt.Aircraft, s.plan.Card.Name, flown); a != nil {
		l.Propose = &coach.Proposal{
			Aircraft: a.Name,
			Title:    a.Title,
			Entry:    coach.Round(entry, 0),
			Stall:    coach.Round(flown.Stall, 0),
		}
	}
}
