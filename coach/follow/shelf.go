package follow

import (
	"iter"

	"halfturn/coach"
	"halfturn/coach/leg"
	"halfturn/coach/plan"
)

// shelve packs the traces of a waiting slot, to save memory: there may be one per judge, and all judges follow the next
// leg meanwhile.
func (a *Auto) shelve(s *slot) {
	if s.packed == nil {
		s.packed = make([]leg.Packed, len(s.legs))
	}
	for i, l := range s.legs {
		if l == nil || len(l.Trace) == 0 {
			continue
		}
		s.packed[i] = leg.Pack(l.Trace)
		for k, other := range s.packed {
			if k != i && other.Same(s.packed[i]) {
				s.packed[i] = s.packed[k]
			}
		}
		a.setTrace(s, i, nil)
	}
}

// shelveAll packs the traces of all slots that wait.
func (a *Auto) shelveAll() {
	for _, s := range a.slots {
		a.shelve(s)
	}
}

// unshelve gives a judge's leg its trace back.
func (a *Auto) unshelve(s *slot, i int) {
	if s.packed != nil && s.packed[i] != nil {
		a.setTrace(s, i, s.packed[i].Trace())
	}
}

// setTrace sets the trace of a judge's leg, and of its copy in a series.
func (a *Auto) setTrace(s *slot, i int, trace []coach.Trace) {
	start := s.legs[i].Start
	s.legs[i].Trace = trace
	series := a.held[i]
	if open := a.judges[i].Series(); open != nil {
		series = append(series[:len(series):len(series)], open)
	}
	for _, x := range series {
		for k := range x.Legs {
			if x.Legs[k].Start == start {
				x.Legs[k].Trace = trace
			}
		}
	}
}

// attitudes yields those of a judge's leg.
func (s *slot) attitudes(i int) iter.Seq[plan.Attitude] {
	if s.packed != nil && s.packed[i] != nil {
		return s.packed[i].Attitudes()
	}
	return plan.Traced(s.legs[i].Trace)
}
