package cause

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/plan"
	"halfturn/coach/score"
	"halfturn/stream/phrase"
)

// What a cause must bring back, points of the score. All common practice, no source.
const (
	worthNaming = 0.1 // less is scatter
	minorGain   = 3.0 // a cause that brings back less is minor
	mostCauses  = 3   // to name
	pull        = 2.0 // what follows from a cause counts up to this many times the cause's own loss
)

// ownPart is the share of a series' score that comes from what only the legs together show.
const ownPart = 0.2

// An Explainer finds why a leg or a series lost score. It is a pure function of its arguments, safe for concurrent use,
// and changes nothing but Causes and Change.
type Explainer struct{}

// ExplainLeg fills in the causes of a leg, at most three, and the one thing to change. On a leg within standard nothing
// is to be changed, and what was nearly met is minor. On one that is not, a cause is minor that brings little back and
// explains no missed check of its own.
func (Explainer) ExplainLeg(p *plan.Plan, l *coach.Leg) {
	f := newLedger(p, l, l.Checks)
	f.missing = lost(l.Checks)
	l.Causes = []coach.Cause{}
	if f.weight == 0 {
		return
	}
	found := f.rank(legRules)
	for i := range found {
		c := f.record(&found[i], l.Number)
		c.Minor = l.Verdict != coach.Missed || l.Outcome == coach.Finished && found[i].minor(f)
		l.Causes = append(l.Causes, c)
	}
	if len(found) > 0 && l.Verdict != coach.Met {
		l.Change, _ = found[0].rule.words(p)
	}
}

// ExplainSeries fills in what only the legs together show, and the one thing to change: the
// cause that costs the series most, of a leg or of the legs together.
func (Explainer) ExplainSeries(p *plan.Plan, s *coach.Series) {
	f := newLedger(p, nil, score.Scored(s))
	f.part, f.missing, f.series = ownPart, lostOf(s), s
	minor := s.Verdict != coach.Missed
	s.Causes = []coach.Cause{}
	if f.weight > 0 {
		found := f.rank(seriesRules)
		for i := range found {
			c := f.record(&found[i], 0)
			c.Minor = minor || found[i].minor(f)
			s.Causes = append(s.Causes, c)
		}
	}
	s.Change = phrase.Phrase{}
	if s.Verdict != coach.Met {
		s.Change = dearest(p, s)
	}
}

// lost is how much of the full score the checks lost, whatever else limits a score.
func lost(checks []coach.Check) float64 {
	mean, ok := score.Mean(checks)
	if !ok {
		return 100
	}
	return 100 - mean
}

// lostOf is how much of the full score the legs of a series and what only they together show lost.
func lostOf(s *coach.Series) float64 {
	legs, n := 0.0, 0.0
	for i := range s.Legs {
		if l := &s.Legs[i]; l.Verdict != coach.NotMeasured {
			legs, n = legs+lost(l.Checks), n+1
		}
	}
	own, ok := score.Mean(score.Scored(s))
	switch {
	case n == 0:
		return 100 - own
	case !ok:
		return legs / n
	}
	return (1-ownPart)*legs/n + ownPart*(100-own)
}

// record puts a finding into words.
func (f *ledger) record(x *finding, leg int) coach.Cause {
	share := 1.0
	if f.missing > 0 {
		share = math.Min(1, x.gain/f.missing)
	}
	_, advice := x.rule.words(f.plan)
	return coach.Cause{
		ID:       x.rule.id,
		Leg:      leg,
		Share:    math.Round(share*1000) / 1000,
		Evidence: f.evidence(x),
		Advice:   advice,
	}
}

// dearest gives the correction of the cause that costs most over the series and those of its legs that are not within
// standard.
func dearest(p *plan.Plan, s *coach.Series) phrase.Phrase {
	cost, order := map[string]float64{}, []string{}
	add := func(c *coach.Cause, points float64) {
		if _, ok := cost[c.ID]; !ok {
			order = append(order, c.ID)
		}
		cost[c.ID] += points
	}
	for i := range s.Causes {
		add(&s.Causes[i], s.Causes[i].Share*lostOf(s))
	}
	for i := range s.Legs {
		l := &s.Legs[i]
		if l.Verdict == coach.Met {
			continue // again, the same
		}
		for j := range l.Causes {
			add(&l.Causes[j], l.Causes[j].Share*(100-l.Score)*(1-ownPart)/float64(len(s.Legs)))
		}
	}
	most, words := 0.0, phrase.Phrase{}
	for _, id := range order {
		if r := ruleNamed(id); r != nil && cost[id] > most+1e-9 {
			most = cost[id]
			words, _ = r.words(p)
		}
	}
	return words
}
