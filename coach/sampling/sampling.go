package sampling

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/maneuver"
	"halfturn/stream/phrase"
)

// A Sampling follows how one leg is sampled.
type Sampling struct {
	fine  fineness
	holes holes
}

// Begin prepares for a leg of a card.
func (s *Sampling) Begin(card *maneuver.Card, facts *check.Facts) { s.fine.watch(card, facts) }

// Add takes the next moment of the leg and the one before.
func (s *Sampling) Add(prev, cur *check.Moment) {
	s.holes.add(prev, cur, s.fine.interval())
	s.fine.add(prev, cur)
}

// Cut says that the stream ended at a turn angle (°), not the leg.
func (s *Sampling) Cut(turn float64) { s.holes.cut(turn) }

// Hidden reports that a hole leaves a check without an answer, and returns the measure that says why. exit is nil while
// there is none.
func (s *Sampling) Hidden(spec *check.Spec, exit *check.Moment) (m check.Measure, hidden bool) {
	x, hidden := s.holes.in(spec, exit)
	switch {
	case !hidden:
		return m, false
	case math.IsInf(x.to, 1):
		m.Reason = phrase.FollowedTo.Of(phrase.Number("turn", x.from, 0, "°"))
	default:
		m.Reason = phrase.Hole.Of(phrase.Number("from", x.from, 0, "°"), phrase.Number("to", x.to, 0, "°"))
	}
	m.At = math.NaN()
	return m, true
}

// Off returns how far the measure of the i-th check of the card may be off where the stream was coarse; 0 where it was
// not.
func (s *Sampling) Off(i int, m *check.Measure) float64 {
	off, _ := s.fine.off(i, m.At)
	return off
}

// Doubt gives the i-th check of the card its uncertainty where the stream was coarse, and says when that reaches over
// the edge of a band.
func (s *Sampling) Doubt(i int, k *coach.Check) { s.fine.doubt(i, k) }
