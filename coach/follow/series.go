package follow

import (
	"slices"

	"halfturn/coach"
)

// number returns the place of a leg in its series.
func (a *Auto) number(i int, start float64) int {
	series := a.held[i]
	if s := a.judges[i].Series(); s != nil {
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

// prune removes legs of other maneuvers from a judge's open series.
func (a *Auto) prune(i int) {
	j := a.judges[i]
	s := j.Series()
	if s == nil {
		return
	}
	a.strip(i, s)
	if _, _, flying := j.UnderWay(); len(s.Legs) == 0 && !flying {
		j.SetSeries(nil)
	}
}

// strip removes the legs that another card got, and reports whether there were any.
func (a *Auto) strip(i int, s *coach.Series) bool {
	n := len(s.Legs)
	s.Legs = slices.DeleteFunc(s.Legs, func(l coach.Leg) bool {
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

// release reports closed series of a judge once all of their legs are decided. A series that lost legs to another
// maneuver is graded again, or reopened when it is no longer complete.
func (a *Auto) release(i int) {
	j := a.judges[i]
	for len(a.held[i]) > 0 {
		s := a.held[i][0]
		if slices.ContainsFunc(s.Legs, func(l coach.Leg) bool { return a.fates[i][l.Start] == nil }) {
			return
		}
		a.held[i] = slices.Delete(a.held[i], 0, 1)
		lost := a.strip(i, s)
		switch {
		case len(s.Legs) == 0:
			continue
		case lost && a.shared.Begun && j.Series() == nil && len(a.held[i]) == 0:
			j.SetSeries(s)
			continue
		case lost:
			j.Regrade(s)
		}
		for k := range s.Legs {
			start := s.Legs[k].Start
			if d := a.fates[i][start].claimed; s.Decision == nil || d.Margin < s.Decision.Margin {
				s.Decision = d
			}
			delete(a.fates[i], start)
		}
		a.events.Put(s)
	}
}
