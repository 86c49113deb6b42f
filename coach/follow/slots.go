package follow

import (
	"cmp"
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/coach/judge"
	"halfturn/coach/leg"
	"halfturn/stream/phrase"
)

// A slot is a stretch of flight that one or more judges saw as a leg.
type slot struct {
	from, to float64
	legs     []*coach.Leg // by judge; nil where it saw none
	others   []ownedLeg
	packed   []leg.Packed    // by judge, the traces of its legs while it waits
	tried    bool            // decided by itself, and unclear
	decision *coach.Decision // outlives the slot
	ordinary bool            // a turn of no maneuver
}

// An ownedLeg is another leg that a judge saw in the same stretch.
type ownedLeg struct {
	judge int
	start float64
}

// A fate is what was decided about a leg: the decision in its favor; nil when another card got it.
type fate struct{ claimed *coach.Decision }

// addLeg puts a leg into the slot that covers most of the same time.
func (a *Auto) addLeg(i int, l *coach.Leg) {
	for _, s := range a.slots {
		shared := min(s.to, l.End) - max(s.from, l.Start)
		if s.tried || shared < 0.5*min(s.to-s.from, l.End-l.Start) {
			continue
		}
		if s.legs[i] != nil {
			s.others = append(s.others, ownedLeg{i, l.Start})
			return
		}
		s.legs[i] = l
		s.from, s.to = min(s.from, l.Start), max(s.to, l.End)
		return
	}
	s := &slot{from: l.Start, to: l.End, legs: make([]*coach.Leg, len(a.judges))}
	s.legs[i] = l
	a.slots = append(a.slots, s)
}

// settle decides complete slots, the oldest first. At the end of the stream (over) no slot waits for another.
func (a *Auto) settle(over bool) {
	for len(a.slots) > 0 {
		s := a.slots[0]
		if !over && (a.growing(s) || a.shared.Now-s.to < begun && a.hardlyFlown(s)) {
			return
		}
		if settled, waits := a.settlePattern(s, over); settled {
			continue
		} else if waits {
			a.shelveAll()
			return
		}
		if !s.tried {
			s.decision, s.tried = a.decide(s), true
			w := a.favored(s)
			if s.decision.Maneuver != coach.Unclear {
				w = a.named(s.decision.Maneuver)
			}
			if w >= 0 {
				a.claim(s, w)
				continue
			}
		}
		// Unclear: the leg after it may settle it, as they often belong together.
		switch {
		case len(a.slots) > 1 && (over || !a.growing(a.slots[1])):
			a.claimWith(s, a.slots[1])
		case len(a.slots) > 1 || !over && a.shared.Now-s.to < patience:
			a.shelveAll()
			return
		default:
			a.claim(s, nobody)
		}
	}
}

// begun is how long what was hardly flown waits for a leg of a card that finds its legs late, of which it is the
// beginning, s: a turn about a point on the ground is known as such by how long it goes on.
const begun = 20.0

// hardlyFlown reports whether no leg of a slot tells which maneuver it is: they ended as soon as they began, as below a
// hard deck.
func (a *Auto) hardlyFlown(s *slot) bool {
	for i := range s.legs {
		if !math.IsNaN(a.misfit(s, i)) {
			return false
		}
	}
	return true
}

// nobody is the index of the judge of a leg that no card claims.
const nobody = -1

// patience is how long an unclear leg waits for the next one, s: the longest pause within a series.
const patience = 90.0

// growing reports whether a judge still follows a leg that belongs to the slot.
func (a *Auto) growing(s *slot) bool {
	return slices.ContainsFunc(a.judges, func(j *judge.Judge) bool {
		start, _, ok := j.UnderWay()
		return ok && start < s.to-1
	})
}

// decide compares the legs of slots, each with the card of the judge that saw it. A card that saw a small part of what
// one that fits better saw to its end does not make that unclear: it leaves most of the flight unexplained.
func (a *Auto) decide(slots ...*slot) *coach.Decision {
	var fits, parts []coach.Fit
	for i, j := range a.judges {
		if i == a.pattern {
			continue
		}
		sum, n, part := 0.0, 0.0, false
		for _, s := range slots {
			if l := s.legs[i]; l != nil {
				sum, n = sum+j.Plan().Misfit(s.attitudes(i), l.Outcome == coach.Finished), n+1
				part = part || l.Outcome != coach.Finished && l.End-l.Start < 0.5*(s.to-s.from)
			}
		}
		if n < float64(len(slots)) || math.IsNaN(sum) {
			continue
		}
		fit := coach.Fit{Maneuver: j.Plan().Card.Name, Misfit: coach.Round(sum/n, 3)}
		if part {
			parts = append(parts, fit)
		} else {
			fits = append(fits, fit)
		}
	}
	whole := coach.Decide(fits)
	if len(parts) == 0 || len(fits) > 0 && fits[0].Misfit < slices.MinFunc(parts, better).Misfit {
		return &whole
	}
	return new(coach.Decide(append(parts, fits...)))
}

// better orders fits, the best first.
func better(a, b coach.Fit) int { return cmp.Compare(a.Misfit, b.Misfit) }

// favored settles an unclear leg by the series it would continue: it is of the maneuver of the leg before when both
// together are clear. It returns nobody when they are not.
func (a *Auto) favored(s *slot) int {
	if s.decision.Maneuver != coach.Unclear || a.before == nil {
		return nobody
	}
	w := a.named(a.before.Maneuver)
	var fits []coach.Fit
	for _, f := range s.decision.Fits {
		k := slices.IndexFunc(a.before.Fits, func(g coach.Fit) bool { return g.Maneuver == f.Maneuver })
		if k >= 0 {
			both := coach.Round((f.Misfit+a.before.Fits[k].Misfit)/2, 3)
			fits = append(fits, coach.Fit{Maneuver: f.Maneuver, Misfit: both})
		}
	}
	d := coach.Decide(fits)
	if w < 0 || d.Maneuver != a.before.Maneuver || !a.claimed(w) {
		return nobody
	}
	s.decision = &d
	return w
}

// claimed reports whether a judge has a series under way with a leg that is surely its own.
func (a *Auto) claimed(i int) bool {
	own := func(l coach.Leg) bool { f := a.fates[i][l.Start]; return f != nil && f.claimed != nil }
	if s := a.judges[i].Series(); s != nil && slices.ContainsFunc(s.Legs, own) {
		return true
	}
	return slices.ContainsFunc(a.held[i], func(s *coach.Series) bool { return slices.ContainsFunc(s.Legs, own) })
}

// claimWith decides an unclear leg together with the next: when both together are clear, and the maneuver has several
// legs, they are of that maneuver.
func (a *Auto) claimWith(s, next *slot) {
	d := a.decide(s, next)
	if w := a.named(d.Maneuver); w >= 0 {
		series := &a.judges[w].Plan().Card.Series
		if series.Legs > 1 && next.from-s.to < series.Gap {
			s.decision, next.decision, next.tried = d, d, true
			a.claim(s, w)
			a.claim(next, w)
			return
		}
	}
	a.claim(s, nobody)
}

// claim gives the oldest slot to a judge, or to nobody, reports its leg, and closes the series that waited for it.
func (a *Auto) claim(s *slot, w int) {
	a.slots = slices.DeleteFunc(a.slots, func(x *slot) bool { return x == s })
	for i, l := range s.legs {
		if l == nil {
			continue
		}
		f := &fate{}
		if i == w {
			f.claimed = s.decision
		}
		a.fates[i][l.Start] = f
	}
	for _, o := range s.others {
		a.fates[o.judge][o.start] = &fate{}
	}
	a.before = nil
	switch {
	case w != nobody:
		a.unshelve(s, w)
		a.lead, a.before, a.decided = w, s.decision, s.to
	case !s.ordinary:
		a.reportUnclear(s)
	}
	for i := range a.judges {
		a.prune(i)
		if i == w {
			l := *s.legs[i]
			l.Number = a.number(i, l.Start)
			a.events.Put(&l)
		}
		a.release(i)
	}
}

// reportUnclear reports a leg that is claimed by no card, ungraded.
func (a *Auto) reportUnclear(s *slot) {
	i := slices.IndexFunc(s.legs, func(l *coach.Leg) bool { return l != nil })
	if len(s.decision.Fits) > 0 {
		i = a.named(s.decision.Fits[0].Maneuver)
	}
	a.unshelve(s, i)
	l := *s.legs[i]
	if l.Reason.IsZero() {
		l.Reason = phrase.FitsNoManeuver.Of()
	}
	l.Number, l.Checks, l.Causes, l.Change = 1, []coach.Check{}, []coach.Cause{}, phrase.Phrase{}
	l.Verdict, l.Score, l.Grade = coach.NotMeasured, 0, ""
	p := a.judges[i].Plan()
	a.events.Put(&l, &coach.Series{
		Maneuver: coach.Unclear,
		Standard: p.Card.Standard,
		Aircraft: p.Aircraft.Name,
		Verdict:  coach.NotMeasured,
		Checks:   []coach.Check{},
		Causes:   []coach.Cause{},
		Legs:     []coach.Leg{l},
		Decision: s.decision,
	})
}
