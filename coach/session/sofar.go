package session

import (
	"halfturn/coach"
	"halfturn/coach/debrief"
)

// under notes a leg of the series under way.
func (s *Session) under(l *coach.Leg) {
	p := s.plan
	if n := len(s.open.Legs); n == 0 || s.open.Maneuver != p.Card.Name || s.open.Standard != p.Card.Standard || s.open.Aircraft != p.Aircraft.Name {
		s.open = coach.Series{Maneuver: p.Card.Name, Standard: p.Card.Standard, Aircraft: p.Aircraft.Name, Verdict: coach.NotMeasured, Checks: []coach.Check{}, Causes: []coach.Cause{}}
	}
	bare := *l
	bare.Trace = nil
	s.open.Legs = append(s.open.Legs, bare)
}

// closed forgets the legs that a series took in.
func (s *Session) closed(e *coach.Series) {
	if len(e.Legs) == 0 {
		return
	}
	last := e.Legs[len(e.Legs)-1].Start
	var rest []coach.Leg // never in place: a report may still hold them
	for _, l := range s.open.Legs {
		if l.Start > last {
			rest = append(rest, l)
		}
	}
	s.open.Legs = rest
}

// SoFar is the Report with the series under way, whose legs are graded and which itself is not
// yet: what is kept after each leg, lest it be lost.
func (s *Session) SoFar() debrief.Station {
	r := s.Report()
	if len(s.open.Legs) == 0 {
		return r
	}
	open := s.open
	open.Legs = open.Legs[:len(open.Legs):len(open.Legs)]
	r.Series = append(r.Series, open)
	r.Summary = debrief.Summarize(r.Series)
	return r
}
