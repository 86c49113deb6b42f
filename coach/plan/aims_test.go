package plan_test

import (
	"math"
	"testing"

	"halfturn/coach/plan"
)

// TestAimsAreOfOneMind holds what the brief asks for to what is judged: the bank of a card's profile at a turn angle is
// the aim of its check there, or the steepest bank that the aircraft card names for the maneuver.
func TestAimsAreOfOneMind(t *testing.T) {
	compared := 0
	for _, card := range library(t).Cards() {
		for _, plane := range library(t).Aircraft() {
			p := plan.New(card, plane)
			for i := range card.Checks {
				k := &card.Checks[i]
				if k.Kind != "value" || k.Channel != "bank" || k.Turn == nil || k.Aim == nil {
					continue
				}
				compared++
				asked := p.Bank(*k.Turn)
				aim := *k.Aim
				if steepest := p.Aircraft.Steepest; steepest > 0 {
					aim = math.Min(aim, steepest)
				}
				if math.Abs(asked-aim) > 1 {
					t.Errorf("%s in %s: the path has %.1f° of bank at %g°, the check %s aims at %g",
						card.Name, plane.Name, asked, *k.Turn, k.ID, *k.Aim)
				}
			}
		}
	}
	if compared < 20 {
		t.Errorf("%d banks compared; there are 20 at least", compared)
	}
}
