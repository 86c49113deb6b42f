package judge

import (
	"math"

	"halfturn/stream"
)

// aboveDeck returns the height above the hard deck, ft; NaN when it is not known. The card's deck is a height
// above ground, the user's an altitude; the nearer one counts.
func (j *Judge) aboveDeck(s *stream.Sample) float64 {
	above := math.NaN()
	if h, ok := s.Get(stream.Height); ok && j.opt.Plan.Card.Deck.Height > 0 {
		above = h - j.opt.Plan.Card.Deck.Height
	}
	if alt, ok := s.Get(stream.Altitude); ok && j.opt.Deck != 0 && !(above < alt-j.opt.Deck) {
		above = alt - j.opt.Deck
	}
	return above
}
