package plan

import (
	"math"

	"halfturn/coach/check"
)

// The start height leaves this much above the lowest point that may be reached, ft, and is a whole number of hundreds,
// as an altimeter is set to (common practice, no source).
const (
	startMargin = 50
	startStep   = 100
)

// Room returns the height above the hard deck from which a leg is started, ft: as much as the reference path goes below
// its entry, or as the standard forgives to be lost, whichever is more, with a margin.
func (p *Plan) Room() float64 {
	most := p.Forgiven()
	if path := p.Reference(); path != nil {
		most = math.Max(most, -path.Lowest().Height)
	}
	return p.above(most)
}

// StartHeight returns the height above the ground from which a leg is started, ft.
func (p *Plan) StartHeight() float64 { return p.Card.Deck.Height + p.Room() }

// above rounds a loss of height up, so that hard deck and loss together make a height that can be flown by.
func (p *Plan) above(loss float64) float64 {
	deck := p.Card.Deck.Height
	return math.Ceil((deck+loss+startMargin)/startStep)*startStep - deck
}

// Forgiven returns how much height a leg may lose against its entry by the worst that the standard does not call
// missed, ft.
func (p *Plan) Forgiven() (most float64) {
	for i := range p.Card.Checks {
		k := &p.Card.Checks[i]
		if k.Channel != "altitude" || k.Kind != "change" && k.Kind != "departure" {
			continue
		}
		for _, band := range []check.Band{k.MetBand, k.NearBand} {
			if band.Low != nil {
				most = math.Max(most, -*band.Low)
			}
		}
	}
	return most
}
