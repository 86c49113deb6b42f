package cause

import (
	"math"

	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
)

// What a card's maneuver is, read from what the card asks for and never from its name: a renamed or edited copy gets
// the same causes and words. A missing card has none of these traits.

// isLevel reports whether height and airspeed are held.
func isLevel(c *maneuver.Card) bool { return c != nil && c.Reference.Slowest == "level" }

func isNotLevel(c *maneuver.Card) bool { return !isLevel(c) }

// holdsSpeed reports whether the airspeed is held, and none is aimed at on the way.
func holdsSpeed(c *maneuver.Card) bool {
	return c != nil && (isLevel(c) || c.Reference.Slowest == maneuver.Glide || c.Reference.Slowest == maneuver.Pivotal)
}

// isReturning reports whether the maneuver climbs and comes back to the height it began at.
func isReturning(c *maneuver.Card) bool { return c != nil && !isLevel(c) && c.Reference.Regains }

// isChandelle reports whether the maneuver climbs and ends with the nose still up.
func isChandelle(c *maneuver.Card) bool {
	if c == nil || holdsSpeed(c) || c.Reference.Regains {
		return false
	}
	n := len(c.Profile)
	return n == 0 || c.Profile[n-1].Nose > 0 // else it is a block that ends level, at a height it climbed to
}

func isNotChandelle(c *maneuver.Card) bool { return !isChandelle(c) }

// gentleBank is the steepest bank of a maneuver with shallow banks, ° (common practice, no source).
const gentleBank = 45

// isGentle reports whether the maneuver climbs and comes back in shallow banks, as a lazy eight does.
func isGentle(c *maneuver.Card) bool { return isReturning(c) && steepest(c) <= gentleBank }

func isNotGentle(c *maneuver.Card) bool { return !isGentle(c) }

// leadsByThird reports whether the roll-out is led by a third of the bank, as in turns of several banks: CNATRA P-330
// par. 610 and 611.
func leadsByThird(c *maneuver.Card) bool { return c != nil && c.Several() }

// holdsBank reports whether a bank is set and held.
func holdsBank(c *maneuver.Card) bool { return c != nil && c.Has(heldBank) }

// isClimbAtBank reports whether the maneuver climbs at a bank that is set and held, as the civil chandelle does.
func isClimbAtBank(c *maneuver.Card) bool { return isChandelle(c) && holdsBank(c) }

// heldBank is the id of the check of a bank that is to be held.
const heldBank = "bank-held"

// steepest returns the steepest bank of the card's profile, °.
func steepest(c *maneuver.Card) float64 {
	most := 0.0
	for _, k := range c.Profile {
		most = math.Max(most, k.Bank)
	}
	return most
}

// of applies a trait of a card to a plan, which may be missing.
func of(trait func(*maneuver.Card) bool) func(*plan.Plan) bool {
	return func(p *plan.Plan) bool { return p != nil && trait(p.Card) }
}

// pullsToTheRight reports whether a propeller asks for more right rudder as the airspeed falls in a climb: one that
// turns clockwise as seen from the seat (FAA-H-8083-3C ch. 10, chandelle). Jets have no such effect.
func pullsToTheRight(p *plan.Plan) bool { return slows(p) && p.Aircraft.Rotation == "clockwise" }

// pullsToTheLeft is the mirror image of pullsToTheRight.
func pullsToTheLeft(p *plan.Plan) bool { return slows(p) && p.Aircraft.Rotation == "counterclockwise" }

// slows reports whether a propeller airplane loses airspeed in the maneuver.
func slows(p *plan.Plan) bool {
	return p != nil && p.Card != nil && !holdsSpeed(p.Card) && p.Aircraft.Engine != "jet"
}

// toGo is the turn that is left where the bank of the roll-out is named, °.
const toGo = 45

// rollOutBank returns the bank that the card wants with toGo degrees left, °; ok is false when the maneuver is level,
// where the roll-out is led by half the bank instead.
func rollOutBank(p *plan.Plan) (bank float64, ok bool) {
	if p == nil || p.Card == nil || holdsSpeed(p.Card) || p.Card.Turn <= toGo {
		return 0, false
	}
	at := p.Card.Turn - toGo
	for i := range p.Card.Checks {
		k := &p.Card.Checks[i]
		if k.Kind == "value" && k.Channel == "bank" && k.Turn != nil && *k.Turn == at && k.Aim != nil {
			return *k.Aim, true
		}
	}
	return math.Round(p.Bank(at)), len(p.Card.Profile) > 0
}
