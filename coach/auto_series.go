package coach

import (
	"slices"

	"halfturn/coach/check"
)

// number is the place of a leg in its series.
func (a *Auto) number(i int, start float64) int {
	series := a.held[i]
	if s := a.coaches[i].series; s != nil {
		series = append(slices.Clone(series), s)
	}
	for _, s := range series {
		n := 0
		for j := range s.Legs {
			if f := a.fates[i][s.Legs[j].Start]; f == nil || f.claimed != nil {
				n++
			}
			if s.Legs[j].Start == start {
				return n
			}
		}
	}
	return 1
}

// prune takes legs of other maneuvers out of a coach's open series.
func (a *Auto) prune(i int) {
	c := a.coaches[i]
	if c.series == nil {
		return
	}
	a.strip(i, c.series)
	if len(c.series.Legs) == 0 && c.leg == nil {
		c.series = nil
	}
}

// strip takes out the legs that were another's, and tells whether there were any.
func (a *Auto) strip(i int, s *Series) bool {
	n := len(s.Legs)
	s.Legs = slices.DeleteFunc(s.Legs, func(l Leg) bool {
		f := a.fates[i][l.Start]
		if f == nil || f.claimed != nil {
			return false
		}
		delete(a.fates[i], l.Start)
		return true
	})
	for j := range s.Legs {
		s.Legs[j].Number = j + 1
	}
	return len(s.Legs) < n
}

// release tells of the closed series of a coach whose legs are all decided. One that lost legs
// to another maneuver is graded again, or opened again when it is no longer complete.
func (a *Auto) release(i int) {
	c := a.coaches[i]
	for len(a.held[i]) > 0 {
		s := a.held[i][0]
		if slices.ContainsFunc(s.Legs, func(l Leg) bool { return a.fates[i][l.Start] == nil }) {
			return
		}
		a.held[i] = a.held[i][1:]
		lost := a.strip(i, s)
		switch {
		case len(s.Legs) == 0:
			continue
		case lost && c.begun && c.series == nil && len(a.held[i]) == 0:
			c.series = s
			continue
		case lost:
			s = c.regraded(s)
		}
		for j := range s.Legs {
			d := a.fates[i][s.Legs[j].Start].claimed
			if s.Decision == nil || d.Margin < s.Decision.Margin {
				s.Decision = d
			}
			delete(a.fates[i], s.Legs[j].Start)
		}
		a.events = append(a.events, s)
	}
}

// regraded grades a series over again, ended as it was.
func (c *Coach) regraded(s *Series) *Series {
	cut, note := false, ""
	for i := range s.Checks {
		if k := &s.Checks[i]; k.counts(check.Legs) {
			cut, note = k.Verdict == NotMeasured, k.Note
		}
	}
	c.gradeSeries(s, cut, note)
	return s
}
