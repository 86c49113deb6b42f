package cause

import (
	"math"
	"slices"
	"strings"

	"halfturn/coach"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
)

// A ledger is a leg or a series with the score each check still has to explain.
type ledger struct {
	plan    *plan.Plan
	leg     *coach.Leg    // nil for a series
	series  *coach.Series // nil for a leg
	checks  map[string]*coach.Check
	loss    map[string]float64 // weight times lost score that no cause has explained yet
	weight  float64            // of all that was measured
	part    float64            // of the score that these checks make up
	missing float64            // points lost altogether
}

func newLedger(p *plan.Plan, l *coach.Leg, checks []coach.Check) *ledger {
	f := &ledger{plan: p, leg: l, checks: map[string]*coach.Check{}, loss: map[string]float64{}, part: 1}
	for i := range checks {
		k := &checks[i]
		if k.Value == nil || k.Verdict == coach.NotMeasured {
			continue
		}
		f.checks[k.ID] = k // also one that counts for nothing: it tells what happened
		f.loss[k.ID] = k.Weight * (100 - k.Score)
		f.weight += k.Weight
	}
	return f
}

// card returns the maneuver's card, nil when there is none.
func (f *ledger) card() *maneuver.Card {
	if f.plan == nil {
		return nil
	}
	return f.plan.Card
}

// named finds a check by a rule's name for it; nil when it lies on the other side of its aim.
func (f *ledger) named(word string) *coach.Check {
	id := strings.TrimLeft(word, "+-")
	k := f.checks[id]
	if k == nil {
		return nil
	}
	switch high := above(k); {
	case word[0] == '+' && !high, word[0] == '-' && high:
		return nil
	}
	return k
}

// above reports whether a value lies above its aim, or above the middle of its met band.
func above(k *coach.Check) bool {
	switch low, high := k.Met[0], k.Met[1]; {
	case k.Aim != nil:
		return *k.Value > *k.Aim
	case low != nil && high != nil:
		return *k.Value > (*low+*high)/2
	default:
		return high != nil && *k.Value > *high
	}
}

// off reports whether a check is near or missed, to the side its name says.
func (f *ledger) off(word string) bool {
	k := f.named(word)
	return k != nil && (k.Verdict == coach.Near || k.Verdict == coach.Missed)
}

// missed reports whether a check is missed, to the side its name says.
func (f *ledger) missed(word string) bool {
	k := f.named(word)
	return k != nil && k.Verdict == coach.Missed
}

// A finding is a rule that holds: what it would bring back, by check, and in points.
type finding struct {
	rule  *rule
	frees map[string]float64
	gain  float64
}

// minor reports whether a finding brings little back and explains no missed check that is its own.
func (x *finding) minor(f *ledger) bool {
	return x.gain < minorGain && !slices.ContainsFunc(slices.Concat(x.rule.on, x.rule.own), func(word string) bool {
		return f.missed(word) && x.frees[strings.TrimLeft(word, "+-")] > 0
	})
}

// weigh scores the leg or series again with the cause removed: its own checks at their aim, and what follows from it
// too, as far as the cause can be strong enough for that. ok is false when the rule does not hold.
func (f *ledger) weigh(r *rule) (found finding, ok bool) {
	found = finding{rule: r, frees: map[string]float64{}}
	if !f.holds(r) {
		return found, false
	}
	own := f.free(found.frees, r.on, 1) + f.free(found.frees, r.own, 1)
	if r.whole(f) {
		for id, loss := range f.loss {
			found.frees[id] = loss
			own += loss
		}
	}
	var all float64
	for _, word := range r.drags {
		if k := f.named(word); k != nil && found.frees[k.ID] == 0 {
			all += f.loss[k.ID]
		}
	}
	total := own
	if all > 0 {
		total += f.free(found.frees, r.drags, math.Min(1, pull*own/all))
	}
	found.gain = f.part * total / f.weight
	return found, own > 0
}

// holds reports whether the conditions of a rule are met.
func (f *ledger) holds(r *rule) bool {
	if r.in != nil && !r.in(f.card()) || r.when != nil && !r.when(f) {
		return false
	}
	return r.whole(f) || slices.ContainsFunc(r.on, func(word string) bool {
		return f.off(word) && f.loss[strings.TrimLeft(word, "+-")] > 0 // else another cause has explained it
	})
}

// free adds a share of the loss of the named checks and returns how much that is.
func (f *ledger) free(frees map[string]float64, words []string, share float64) (sum float64) {
	for _, word := range words {
		if k := f.named(word); k != nil && frees[k.ID] == 0 {
			frees[k.ID] = share * f.loss[k.ID]
			sum += frees[k.ID]
		}
	}
	return sum
}

// rank takes the cause that brings back most, then the one that brings back most of what is left, as long as that is
// worth it. Of two that bring back the same, the one earlier in the list is the root.
func (f *ledger) rank(rules []rule) []finding {
	var list []finding
	for len(list) < mostCauses {
		var best finding
		for i := range rules {
			if slices.ContainsFunc(list, func(named finding) bool { return opposite(named.rule, &rules[i]) }) {
				continue
			}
			if x, ok := f.weigh(&rules[i]); ok && x.gain >= worthNaming && x.gain > best.gain+1e-9 {
				best = x
			}
		}
		if best.rule == nil {
			break
		}
		for id, x := range best.frees {
			f.loss[id] -= x
		}
		list = append(list, best)
	}
	return list
}

// opposite reports whether following the advice of one cause makes the other worse.
func opposite(a, b *rule) bool {
	return slices.Contains(a.against, b.id) || slices.Contains(b.against, a.id)
}
