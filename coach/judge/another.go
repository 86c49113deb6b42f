package judge

import (
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/coach/leg"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/score"
	"halfturn/stream/phrase"
)

// another compares a leg that missed its standard with all cards, once it is over; following all of them throughout
// would cost several times as much. If another card fits clearly, the leg names it and drops its corrections, which
// were meant for the chosen maneuver, and its grade.
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
		if card.Name == chosen.Name || card.Name == chosen.Variant || card.Several() ||
			chosen.Block != "" && card.Name != chosen.Block {
			continue
		}
		compare(plan.Sketch(card, &j.opt.Plan.Aircraft))
	}
	d := coach.Decide(fits)
	i := slices.IndexFunc(j.opt.Others, func(c *maneuver.Card) bool { return c.Name == d.Maneuver })
	if i < 0 || d.Maneuver == chosen.Name {
		return
	}
	score.Elsewhere(done, coach.Another{Maneuver: d.Maneuver, Title: j.opt.Others[i].Title})
}
