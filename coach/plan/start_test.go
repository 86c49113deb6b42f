package plan_test

import (
	"testing"

	"halfturn/coach/plan"
)

// The start height is the hard deck with the worst loss that the standard does not call missed, a margin of 50 ft, and
// up to whole hundreds. Hard deck of 1,500 ft: 14 CFR 91.303(e), FAA-S-ACS-7 CA.V.C and CA.V.D.
func TestStartHeight(t *testing.T) {
	for _, r := range []struct {
		card, standard  string
		forgiven, start float64
	}{
		{"wing-over", "course", 190, 1800}, // 1,500 + 190 + 50 = 1,740
		{"chandelle-traditional", "course", 0, 1600},
	} {
		card, err := library(t).Judged(r.card, r.standard)
		if err != nil {
			t.Fatal(err)
		}
		p := plan.New(card, nil)
		if p.Forgiven() != r.forgiven || p.StartHeight() != r.start || p.Room() != r.start-1500 {
			t.Errorf("%s by %s: forgives %g ft and starts at %g ft, %g ft above the deck", r.card, r.standard,
				p.Forgiven(), p.StartHeight(), p.Room())
		}
	}
}

// Whatever the card, the standard and the aircraft, from the start height neither the reference path nor the worst loss
// that is forgiven reaches the hard deck.
func TestStartHeightIsEnough(t *testing.T) {
	lib := library(t)
	for _, c := range lib.Cards() {
		for _, standard := range []string{"practice", "course", "check"} {
			card, err := lib.Judged(c.Name, standard)
			if err != nil {
				t.Fatal(err)
			}
			for _, a := range lib.Aircraft() {
				p := plan.New(card, a)
				low := p.StartHeight() - p.Forgiven()
				if path := p.Reference(); path != nil {
					low = min(low, p.StartHeight()+path.Lowest().Height)
				}
				if low < card.Deck.Height || p.StartHeight() != card.Deck.Height+p.Room() {
					t.Errorf("%s by %s in the %s: from %g ft down to %g ft", card.Name, standard, a.Name,
						p.StartHeight(), low)
				}
			}
		}
	}
}
