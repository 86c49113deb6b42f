package talk

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
)

// sayAfter gives the tone of the points passed since the last moment. There are no words: an order for a place that is
// behind would be wrong at this one. What to do there is said as "Next time" after the leg.
func (t *Talk) sayAfter() {
	if t.leg.turn < t.leg.first {
		return
	}
	found := t.decideChecks()
	if !found.any || !found.missed && !found.checkpoint || t.Prompts() == callout.PromptsOff {
		return
	}
	k := coach.Callout{Kind: coach.After, ID: found.id, Tone: coach.Met}
	if found.missed {
		k.Tone = coach.Missed
	}
	t.put(k)
}

// judged is what the checks decided at one moment come to.
type judged struct {
	any, missed bool
	checkpoint  bool   // one is of a checkpoint; the others are silent when met
	id          string // of the missed one that cost most
}

// decideChecks grades the checks that the turn has come to.
func (t *Talk) decideChecks() (found judged) {
	l, card, most := t.leg, t.plan.Card, 0.0
	for i := range card.Checks {
		if l.turn < l.due[i] {
			continue
		}
		l.due[i] = math.Inf(1)
		spec := &card.Checks[i]
		if t.only != nil && !t.only.HasCheck(spec.ID) {
			continue
		}
		r := l.SoFar(i)
		if r.Verdict == coach.NotMeasured || r.Weight == 0 {
			continue
		}
		found.any = true
		found.missed = found.missed || r.Verdict == coach.Missed
		found.checkpoint = found.checkpoint || kinds.Of(spec).Known == check.AtTurn
		if cost := r.Weight * (100 - r.Score); r.Verdict == coach.Missed && cost > most {
			found.id, most = r.ID, cost
		}
	}
	l.findFirst()
	return found
}
