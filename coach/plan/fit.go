package plan

import (
	"iter"
	"math"

	"halfturn/coach"
	"halfturn/coach/aircraft"
	"halfturn/coach/maneuver"
)

// How far a leg may differ from a card for a misfit of 1. Common practice, no source; proved on the built-in
// airplanes and on recorded flights.
const (
	bankScale = 20.0 // ° of bank
	noseScale = 0.6  // share of the highest nose
	turnScale = 60.0 // ° of turn short of the card's, or past it
	mostTurn  = 1.5  // however far the turn goes beyond
	flatNose  = 8.0  // °: a nose that stays within this of level has no shape of its own
	leastSeen = 45.0 // ° of turn without which nothing is decided
)

// An Attitude is that at one turn angle of a leg, all in °.
type Attitude struct{ Turn, Bank, Pitch float64 }

// Traced yields the attitudes of a leg's trace.
func Traced(trace []coach.Trace) iter.Seq[Attitude] {
	return func(yield func(Attitude) bool) {
		for i := range trace {
			if t := &trace[i]; !yield(Attitude{t.Turn, t.Bank, t.Pitch}) {
				return
			}
		}
	}
}

// Misfit compares a leg with the card: bank and nose over the turn with the card's profile, and the turn with the
// card's turn. While the leg is still being flown (ended is false) only the part so far counts. It is NaN when too
// little was flown to decide.
func (p *Plan) Misfit(leg iter.Seq[Attitude], ended bool) float64 {
	if p.Card.Several() {
		return p.misfitOfSeveral(leg, ended)
	}
	level, peak, n := math.NaN(), flatNose, 0.0
	last, farthest := 0.0, 0.0
	for a := range leg {
		if n++; n == 1 {
			level = a.Pitch
		}
		peak = max(peak, math.Abs(a.Pitch-level))
		last, farthest = a.Turn, max(farthest, a.Turn)
	}
	if last < leastSeen {
		return math.NaN()
	}
	if !ended && farthest < p.Card.Turn/2 {
		// The highest nose may be still to come: take that of the reference path.
		if !math.IsNaN(p.Nose) {
			peak = max(peak, p.Nose)
		}
	}
	var bank, nose float64
	most := p.most()
	for a := range leg {
		b, share := p.profile(a.Turn, most)
		bank += square((a.Bank - b) / bankScale)
		nose += square(((a.Pitch-level)/peak - share) / noseScale)
	}
	sum := bank/n + nose/n
	if over := farthest - p.Card.Longest(); ended || over > 0 {
		if ends := p.Card.Meant.Turns; len(ends) > 0 {
			over = away(farthest, ends)
		}
		sum += square(min(mostTurn, math.Abs(over)/turnScale))
	}
	return coach.Round(math.Sqrt(sum), 3)
}

// Sketch returns a plan without its reference path: enough to compare a leg that is over with it, at a small part of
// the cost. a may be nil.
func Sketch(card *maneuver.Card, a *aircraft.Aircraft) *Plan {
	p := &Plan{Card: card, Nose: math.NaN()}
	if a != nil {
		p.Aircraft = a.For(card.Name)
	}
	return p
}

// profile returns the bank (°) and the nose (as a share of the highest) at a turn angle; most is the card's steepest.
func (p *Plan) profile(turn, most float64) (bank, nose float64) {
	k := p.Card.Profile
	for i := 1; i < len(k); i++ {
		if turn <= k[i].Turn {
			f := max(0, turn-k[i-1].Turn) / (k[i].Turn - k[i-1].Turn)
			from, to := p.bankOf(k[i-1].Bank, most), p.bankOf(k[i].Bank, most)
			return from + f*(to-from), k[i-1].Nose + f*(k[i].Nose-k[i-1].Nose)
		}
	}
	last := k[len(k)-1]
	return p.bankOf(last.Bank, most), last.Nose
}

func square(x float64) float64 { return x * x }
