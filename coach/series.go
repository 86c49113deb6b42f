package coach

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/stream"
)

// joinSeries opens a series when the leg belongs to none.
func (c *Coach) joinSeries(l *leg) {
	if c.series != nil && l.start-c.ended > c.plan.Card.Series.Gap {
		c.closeSeries(false)
	}
	if c.series == nil {
		card := c.plan.Card
		c.series = &Series{Maneuver: card.Name, Standard: card.Standard, Aircraft: c.plan.Aircraft.Name, Legs: []Leg{}}
	}
	c.circle.ok = false
}

func (c *Coach) legNumber() int {
	if c.series == nil {
		return 1
	}
	return len(c.series.Legs) + 1
}

// addToSeries takes the leg in and closes the series when it is complete.
func (c *Coach) addToSeries(done *Leg) {
	c.series.Legs = append(c.series.Legs, *done)
	if len(c.series.finished()) >= c.plan.Card.Series.Legs {
		c.closeSeries(false)
	}
}

// finished are the legs that were flown to their end.
func (s *Series) finished() (list []*Leg) {
	for i := range s.Legs {
		if s.Legs[i].Outcome == Finished {
			list = append(list, &s.Legs[i])
		}
	}
	return list
}

// closeSeries grades the series and tells of it. cut is true where something other than the pilot ended it: the
// stream, a choice, the end of the session.
func (c *Coach) closeSeries(cut bool) {
	s := c.series
	c.series = nil
	if s == nil || len(s.Legs) == 0 {
		return
	}
	note := ""
	if c.circle.told >= s.Legs[0].Start-c.plan.Card.Series.Gap {
		note = TooShallow(c.circle.side)
	}
	c.gradeSeries(s, cut, note)
	c.emit(s)
}

// gradeSeries grades a series. One without all its legs is never met: it is missed when the pilot flew no further leg,
// as its check of the legs says, and not measured when it was cut. The note says more of legs that are missing.
func (c *Coach) gradeSeries(s *Series, cut bool, note string) {
	s.Checks = []Check{}
	f, seen := &check.Facts{Nose: math.NaN()}, c.seriesFacts(s, cut)
	for i := range c.plan.Card.Checks {
		spec := &c.plan.Card.Checks[i]
		if kind := kinds.Of(spec); kind.OfSeries() {
			r := record(spec, kind.Series(spec, seen), f)
			if spec.Of != "" {
				r.Unit = unitOf(s, spec.Of)
			}
			if kind.Counts == check.Legs {
				r.Value = ptr(float64(len(s.finished())))
				if r.Verdict != Met {
					r.Note = note
				}
			}
			s.Checks = append(s.Checks, r)
		}
	}
	s.Missing = s.Lacking()
	s.Verdict, s.Score = sumSeries(s)
	if s.Missing != "" && s.Verdict != Missed && cut {
		s.Verdict, s.Score = NotMeasured, 0
	} else if s.Missing != "" && s.Verdict == Met {
		s.Verdict = Near // a card of the user's own may let it pass
	}
	s.Grade = lowest(s)
	s.Causes = []Cause{}
	if c.why != nil {
		c.why.ExplainSeries(c.plan, s)
	}
}

// Lacking says which of the legs that the checks of the series ask for were not finished, "" when none is missing:
// how many of how many, to which side, and which turn did not count.
func (s *Series) Lacking() string {
	wanted, note, opposite := 0, "", false
	for i := range s.Checks {
		switch k := &s.Checks[i]; {
		case k.Weight == 0: // a standard may ask for neither
		case k.counts(check.Legs) && k.Met[0] != nil:
			wanted, note = int(*k.Met[0]), k.Note
		case k.counts(check.Sides):
			opposite = true
		}
	}
	var parts []string
	if n := len(s.finished()); n < wanted {
		parts = append(parts, fmt.Sprintf("%d of %d legs finished", n, wanted))
	}
	if opposite {
		parts = append(parts, s.sidesLacking(wanted)...)
	}
	if note != "" {
		parts = append(parts, note)
	}
	return strings.Join(parts, ", ")
}

// sidesLacking says how many legs are missing to each side, where they go to one and the other in turn.
func (s *Series) sidesLacking(wanted int) (parts []string) {
	done := s.finished()
	if len(done) == 0 {
		return nil // to which side it would have begun nobody knows
	}
	for _, side := range []string{"right", "left"} {
		missing := wanted / 2
		if side == done[0].Direction {
			missing = wanted - wanted/2
		}
		for _, l := range done {
			if l.Direction == side {
				missing--
			}
		}
		switch {
		case missing == 1:
			parts = append(parts, fmt.Sprintf("one to the %s is missing", side))
		case missing > 1:
			parts = append(parts, fmt.Sprintf("%d to the %s are missing", missing, side))
		}
	}
	return parts
}

// sumSeries gives the verdict and score of a series: the worst verdict of its parts; four
// fifths of the score from the legs, one fifth from what only the series shows.
func sumSeries(s *Series) (verdict string, score float64) {
	verdict, own := sum(s.Scored())
	var legs, n float64
	for i := range s.Legs {
		if l := &s.Legs[i]; l.Verdict != NotMeasured {
			legs, n = legs+l.Score, n+1
			verdict = worse(verdict, l.Verdict)
		}
	}
	if n == 0 {
		return verdict, own
	}
	legs /= n
	if v, _ := sum(s.Scored()); v == NotMeasured {
		return verdict, round(legs, 1)
	}
	return verdict, round(0.8*legs+0.2*own, 1)
}

// Scored are the checks that the series' own part of the score is made of. That all legs were flown earns nothing.
func (s *Series) Scored() []Check {
	return slices.DeleteFunc(slices.Clone(s.Checks), func(k Check) bool { return k.counts(check.Legs) && k.Verdict == Met })
}

func worse(a, b string) string {
	rank := map[string]int{NotMeasured: 0, Met: 1, Near: 2, Missed: 3}
	if rank[b] > rank[a] {
		return b
	}
	return a
}

// counts tells whether a check asks for something of the whole series.
func (k *Check) counts(what check.Count) bool { return kinds.Named(k.Kind).Counts == what }

// seriesFacts is what the checks of a series see of it.
func (c *Coach) seriesFacts(s *Series, cut bool) *check.SeriesFacts {
	f := &check.SeriesFacts{Legs: c.plan.Card.Series.Legs, Turn: c.plan.Card.Turn, Cut: cut}
	heading := stream.Heading.String()
	for _, l := range s.finished() {
		f.Finished = append(f.Finished, check.FinishedLeg{
			Direction: l.Direction,
			Entry:     l.Entry.Values[heading],
			Exit:      l.Exit.Values[heading],
			Value:     func(id string) *float64 { return valueOf(l, id) },
		})
	}
	return f
}

func valueOf(l *Leg, id string) *float64 {
	for i := range l.Checks {
		if l.Checks[i].ID == id {
			return l.Checks[i].Value
		}
	}
	return nil
}

func unitOf(s *Series, id string) string {
	for i := range s.Legs[0].Checks {
		if s.Legs[0].Checks[i].ID == id {
			return s.Legs[0].Checks[i].Unit
		}
	}
	return ""
}
