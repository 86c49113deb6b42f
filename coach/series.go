package coach

import (
	"math"

	"halfturn/coach/check"
	"halfturn/coach/maneuver"
	"halfturn/stream"
)

// joinSeries opens a series when the leg belongs to none.
func (c *Coach) joinSeries(l *leg) {
	if c.series != nil && l.start-c.ended > c.plan.Card.Series.Gap {
		c.closeSeries()
	}
	if c.series == nil {
		card := c.plan.Card
		c.series = &Series{Maneuver: card.Name, Standard: card.Standard, Aircraft: c.plan.Aircraft.Name, Legs: []Leg{}}
	}
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
	finished := 0
	for i := range c.series.Legs {
		if c.series.Legs[i].Outcome == Finished {
			finished++
		}
	}
	if finished >= c.plan.Card.Series.Legs {
		c.closeSeries()
	}
}

// closeSeries grades the series and tells of it.
func (c *Coach) closeSeries() {
	s := c.series
	c.series = nil
	if s == nil || len(s.Legs) == 0 {
		return
	}
	s.Checks = []Check{}
	f := &check.Facts{Nose: math.NaN()}
	for i := range c.plan.Card.Checks {
		spec := &c.plan.Card.Checks[i]
		if kind, _ := maneuver.KindNamed(spec.Kind); kind.Series {
			r := record(spec, c.measureSeries(spec, s), f)
			if spec.Of != "" {
				r.Unit = unitOf(s, spec.Of)
			}
			s.Checks = append(s.Checks, r)
		}
	}
	s.Verdict, s.Score = sumSeries(s)
	s.Grade = lowest(s)
	s.Causes = []Cause{}
	if c.why != nil {
		c.why.ExplainSeries(c.plan, s)
	}
	c.emit(s)
}

// sumSeries gives the verdict and score of a series: the worst verdict of its parts; four
// fifths of the score from the legs, one fifth from what only the series shows.
func sumSeries(s *Series) (verdict string, score float64) {
	verdict, own := sum(s.Checks)
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
	if v, _ := sum(s.Checks); v == NotMeasured {
		return verdict, round(legs, 1)
	}
	return verdict, round(0.8*legs+0.2*own, 1)
}

func worse(a, b string) string {
	rank := map[string]int{NotMeasured: 0, Met: 1, Near: 2, Missed: 3}
	if rank[b] > rank[a] {
		return b
	}
	return a
}

// measureSeries measures what only the legs together show.
func (c *Coach) measureSeries(spec *maneuver.Check, s *Series) check.Measure {
	var done []*Leg
	for i := range s.Legs {
		if s.Legs[i].Outcome == Finished {
			done = append(done, &s.Legs[i])
		}
	}
	m := check.Measure{OK: true, At: math.NaN()}
	want := c.plan.Card.Series.Legs
	switch {
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
