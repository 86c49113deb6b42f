package follow

import (
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/coach/judge"
	"halfturn/coach/plan"
)

// A maneuver of several turns is told by the turns together: one alone is an ordinary turn, and two may be clearing
// turns. So its legs are claimed only where several follow each other; those that are none are dropped without a word.
const (
	leastTurns  = 3   // that follow each other
	leastKinds  = 2   // of bank or turn among them
	mostPattern = 0.7 // misfit of each
)

// mostAbout is the misfit from which a turn is none about a point on the ground: such turns commit themselves late, by
// what many other turns do as well.
const mostAbout = 1.2

// patternJudge returns the index of the judge of a card of several turns; nobody when there is none.
func patternJudge(judges []*judge.Judge) int {
	return slices.IndexFunc(judges, func(j *judge.Judge) bool { return j.Plan().Card.Several() })
}

// A run is what is known of the turns of a pattern that the oldest slot begins or continues.
type run int

const (
	noRun   run = iota // the slot is none of them
	mayRun             // too few so far
	certain            // it is
)

// settlePattern decides whether the oldest slot is one of several turns that belong together, and claims it if so.
// settled is true when the slot is done with, waits when more has to be seen first.
func (a *Auto) settlePattern(s *slot, over bool) (settled, waits bool) {
	if a.pattern == nobody || s.legs[a.pattern] == nil {
		return false, false
	}
	switch a.runFrom(over) {
	case certain:
		fit := coach.Fit{Maneuver: a.judges[a.pattern].Plan().Card.Name, Misfit: a.misfit(s, a.pattern)}
		s.decision, s.tried = new(coach.Decide([]coach.Fit{fit})), true
		a.claim(s, a.pattern)
		return true, false
	case mayRun:
		return false, true
	}
	if !slices.ContainsFunc(s.legs, func(l *coach.Leg) bool { return l != nil && l != s.legs[a.pattern] }) {
		s.decision, s.ordinary = &coach.Decision{Maneuver: coach.Unclear}, true
		a.claim(s, nobody)
		return true, false
	}
	return false, false
}

// runFrom examines the slots from the oldest on.
func (a *Auto) runFrom(over bool) run {
	gap := a.judges[a.pattern].Plan().Card.Series.Gap
	first := a.slots[0]
	if !a.inPattern(first) {
		return noRun
	}
	if a.before != nil && a.named(a.before.Maneuver) == a.pattern && first.from-a.decided < gap {
		return certain // it goes on
	}
	kinds := map[[2]float64]bool{}
	for i, s := range a.slots {
		switch {
		case i > 0 && s.from-a.slots[i-1].to > gap:
			return noRun
		case !over && a.growing(s):
			return mayRun
		case !a.inPattern(s):
			return noRun
		}
		kinds[a.kindOf(s)] = true
		if i+1 >= leastTurns && len(kinds) >= leastKinds {
			return certain
		}
	}
	next := a.shared.Now // where the turn after the last one begins at the earliest
	if start, _, flying := a.judges[a.pattern].UnderWay(); flying {
		next = start
	}
	if over || next-a.slots[len(a.slots)-1].to > gap {
		return noRun
	}
	return mayRun
}

// inPattern reports whether a slot fits a turn of the pattern, and no climbing maneuver better.
func (a *Auto) inPattern(s *slot) bool {
	if s.legs[a.pattern] == nil {
		return false
	}
	own := a.misfit(s, a.pattern)
	for i := range a.judges {
		level := a.judges[i].Plan().Card.Reference.Slowest == "level"
		if s.legs[i] != nil && !level && a.misfit(s, i) < own {
			return false
		}
	}
	return true
}

// misfit is that of a judge's leg in a slot; NaN when too little was flown to tell.
func (a *Auto) misfit(s *slot, i int) float64 {
	if s.legs[i] == nil {
		return math.NaN()
	}
	return a.judges[i].Plan().Misfit(s.attitudes(i), s.legs[i].Outcome == coach.Finished)
}

// kindOf returns which turn of the pattern a slot is: its bank and turn, °.
func (a *Auto) kindOf(s *slot) [2]float64 {
	p, l := a.judges[a.pattern].Plan(), s.legs[a.pattern]
	bank, turn := p.MeantBy(s.attitudes(a.pattern), l.Exit.Turn, plan.Choice{})
	return [2]float64{bank, turn}
}
