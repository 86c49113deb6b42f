package judge

import (
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/coach/leg"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/stream/phrase"
)

// another looks which maneuver a leg was that is not within standard. It is compared with every card once, when it is
// over: to follow all of them all the time would cost several times as much. Where another one than the chosen fits
// clearly, the leg says so, and what it was to be corrected in for the chosen one is no advice.
func (j *Judge) another(done *coach.Leg, e leg.End) {
	if e.External || done.Verdict != coach.Missed || len(j.opt.Others) == 0 {
		return
	}
	chosen := j.opt.Plan.Card
	ended := e.Outcome == coach.Finished || e.Reason.Is(phrase.RolledLevel)
	fits := []coach.Fit{}
	compare := func(p *plan.Plan) {
		if m := p.Misfit(plan.Traced(done.Trace), ended); !math.IsNaN(m) {
			fits = append(fits, coach.Fit{Maneuver: p.Card.Name, Misfit: m})
		}
	}
	compare(j.opt.Plan)
	for _, card := range j.opt.Others {
		if card.Name != chosen.Name && card.Name != chosen.Variant {
			compare(plan.Sketch(card, &j.opt.Plan.Aircraft))
		}
	}
	d := coach.Decide(fits)
	i := slices.IndexFunc(j.opt.Others, func(c *maneuver.Card) bool { return c.Name == d.Maneuver })
	if i < 0 || d.Maneuver == chosen.Name {
		return
	}
	done.Another = &coach.Another{Maneuver: d.Maneuver, Title: j.opt.Others[i].Title}
	done.Change, done.Causes = phrase.Phrase{}, []coach.Cause{}
}
