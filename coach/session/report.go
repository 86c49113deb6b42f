package session

import (
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/plan"
	"halfturn/stream/pack"
)

// A Flown is what was flown at one moment of a session, in the little memory that the session itself has for it. It
// does not change, and any goroutine may make its report.
type Flown struct {
	head debrief.StationReport // without series
	over []pack.Record[coach.Series]
	open coach.Series // without legs when none is
}

// Flown is what was flown so far, with the series under way, whose legs are graded and which itself is not yet. It is
// what is saved after each leg, so that a crash costs nothing.
func (s *Session) Flown() *Flown {
	f := &Flown{head: s.head(), over: slices.Clip(s.flown.series), open: s.flown.open}
	f.open.Legs = slices.Clip(f.open.Legs)
	return f
}

// Report is the report of it.
func (f *Flown) Report() debrief.StationReport {
	r := f.head
	r.Series = make([]coach.Series, 0, len(f.over)+1)
	for _, x := range f.over {
		r.Series = append(r.Series, *x.Unpack())
	}
	if len(f.open.Legs) > 0 {
		r.Series = append(r.Series, f.open)
	}
	r.Summary = debrief.Summarize(r.Series)
	return r
}

// SoFar is the report of what was flown so far.
func (s *Session) SoFar() debrief.StationReport { return s.Flown().Report() }

// Report returns the series closed so far.
func (s *Session) Report() debrief.StationReport {
	f := s.Flown()
	f.open.Legs = nil
	return f.Report()
}

// head is a report without what was flown.
func (s *Session) head() debrief.StationReport {
	counts := s.station.Stats()
	r := debrief.StationReport{
		Station:  s.opt.Name,
		Format:   s.station.Format(),
		Advice:   s.station.Advice(),
		Samples:  counts.Samples,
		Duration: math.Round(s.flown.time*1000) / 1000,
		Channels: s.flown.sent.Names(),
		Derived:  (s.flown.derived &^ s.flown.sent).Names(),
		Holes:    slices.Clone(s.flown.holes),
	}
	for _, d := range counts.Drops {
		if r.Drops == nil {
			r.Drops = map[string]int{}
		}
		r.Drops[d.Reason] = int(d.Count)
	}
	return r
}

// addLeg notes a leg of the series under way, flown by a plan.
func (f *flown) addLeg(p *plan.Plan, l *coach.Leg) {
	f.legs++
	choice, open := p.Choice(), &f.open
	if len(open.Legs) == 0 || open.Maneuver != choice.Maneuver || open.Standard != choice.Standard ||
		open.Aircraft != choice.Aircraft {
		*open = coach.Series{
			Maneuver: choice.Maneuver,
			Standard: choice.Standard,
			Aircraft: choice.Aircraft,
			Verdict:  coach.NotMeasured,
			Checks:   []coach.Check{},
			Causes:   []coach.Cause{},
		}
	}
	bare := *l
	bare.Trace = nil
	open.Legs = append(open.Legs, bare)
}

// addSeries keeps a closed series, and removes its legs from those under way. It returns the series as it is kept.
func (f *flown) addSeries(e *coach.Series) *coach.Series {
	bare := e.WithoutTraces()
	f.series = append(f.series, pack.Of(bare))
	if len(e.Legs) == 0 {
		return bare
	}
	last := e.Legs[len(e.Legs)-1].Start
	var rest []coach.Leg // never in place: a report may still hold them
	for _, l := range f.open.Legs {
		if l.Start > last {
			rest = append(rest, l)
		}
	}
	f.open.Legs = rest
	return bare
}
