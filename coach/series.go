package coach

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"halfturn/coach/check"
	"halfturn/coach/maneuver"
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
	f := &check.Facts{Nose: math.NaN()}
	for i := range c.plan.Card.Checks {
		spec := &c.plan.Card.Checks[i]
		if kind, _ := maneuver.KindNamed(spec.Kind); kind.Series {
			r := record(spec, c.measureSeries(spec, s, cut), f)
			if spec.Of != "" {
				r.Unit = unitOf(s, spec.Of)
			}
			if spec.Kind == "legs" {
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
		case k.Kind == "legs" && k.Met[0] != nil:
			wanted, note = int(*k.Met[0]), k.Note
		case k.Kind == "directions":
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
	return slices.DeleteFunc(slices.Clone(s.Checks), func(k Check) bool { return k.Kind == "legs" && k.Verdict == Met })
}

func worse(a, b string) string {
	rank := map[string]int{NotMeasured: 0, Met: 1, Near: 2, Missed: 3}
	if rank[b] > rank[a] {
		return b
	}
	return a
}

// measureSeries measures what only the legs together show.
func (c *Coach) measureSeries(spec *maneuver.Check, s *Series, cut bool) check.Measure {
	done := s.finished()
	m := check.Measure{OK: true, At: math.NaN()}
	want := c.plan.Card.Series.Legs
	switch {
	case spec.Kind == "legs" && len(done) < want && cut:
		return check.Measure{At: math.NaN(), Reason: "it was ended before the rest could be flown"}
	case spec.Kind == "legs":
		m.Value = float64(len(done))
	case len(done) < 2 || spec.Kind == "return" && len(done) < want:
		return check.Measure{At: math.NaN(), Reason: "the series has too few finished legs"}
	case spec.Kind == "directions":
		for i := 1; i < len(done); i++ {
			if done[i].Direction == done[i-1].Direction {
				m.Value++
			}
		}
	case spec.Kind == "return":
		out, back := done[0].Entry.Values[stream.Heading.String()], done[len(done)-1].Exit.Values[stream.Heading.String()]
		m.Value = stream.Wrap180(back - out - c.plan.Card.Turn*float64(len(done)%2))
	case spec.Kind == "symmetry":
		return symmetry(done, spec.Of)
	}
	return m
}

// symmetry gives the largest difference of a leg check from one leg to the next.
func symmetry(done []*Leg, id string) check.Measure {
	m := check.Measure{OK: true, At: math.NaN()}
	for i := 1; i < len(done); i++ {
		a, b := valueOf(done[i-1], id), valueOf(done[i], id)
		if a == nil || b == nil {
			return check.Measure{At: math.NaN(), Reason: "not measured on every leg"}
		}
		m.Value = math.Max(m.Value, math.Abs(*b-*a))
	}
	return m
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
