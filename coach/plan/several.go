package plan

import (
	"iter"
	"math"

	"halfturn/coach"
)

// leastRound is how far a turn of a maneuver of several turns goes at least, °.
const leastRound = 15.0

// misfitOfSeveral compares a leg with the nearest of the turns that a card of several asks for: its bank while it is
// held, its nose, which stays where it is, and its end.
func (p *Plan) misfitOfSeveral(leg iter.Seq[Attitude], ended bool) float64 {
	level, most, last := math.NaN(), 0.0, 0.0
	for a := range leg {
		if math.IsNaN(level) {
			level = a.Pitch
		}
		most, last = max(most, a.Bank), max(last, a.Turn)
	}
	if last < leastRound {
		return math.NaN()
	}
	var bank, nose, n, held float64
	for a := range leg {
		n++
		nose += square((a.Pitch - level) / levelNose)
		if a.Bank >= nearMost*most {
			held++
			bank += a.Bank
		}
	}
	sum := nose/n + square(away(bank/held, p.Card.Meant.Banks)/bankScale)
	if longest := p.Card.Longest(); ended || last > longest {
		sum += square(min(mostTurn, away(last, p.Card.Meant.Turns)/turnScale))
	}
	return coach.Round(math.Sqrt(sum), 3)
}

// levelNose is how far the nose of a turn may be off level pitch for a misfit of 1, °: it rises a few degrees with the
// load of a steep turn (common practice, no source; proved on recorded flights).
const levelNose = 7.0

// nearMost is the share of the steepest bank from which a bank counts as set.
const nearMost = 0.8

// away returns how far a value is from the nearest of some.
func away(x float64, list []float64) float64 { return math.Abs(x - nearest(x, list)) }

// nearest returns the value of a list that is nearest to another; 0 of an empty one.
func nearest(x float64, list []float64) (best float64) {
	for i, y := range list {
		if i == 0 || math.Abs(y-x) < math.Abs(best-x) {
			best = y
		}
	}
	return best
}

// MeantBy returns the bank and the turn, °, that a leg was meant to have by what was flown of it, where the card leaves
// a choice; 0 where it leaves none. next is the leg that the card's order asks for: it is meant where what was flown
// comes near to it.
func (p *Plan) MeantBy(leg iter.Seq[Attitude], ended float64, next Choice) (bank, turn float64) {
	most := 0.0
	for a := range leg {
		most = max(most, a.Bank)
	}
	sum, held := 0.0, 0.0
	for a := range leg {
		if a.Bank >= nearMost*most {
			sum, held = sum+a.Bank, held+1
		}
	}
	if held > 0 {
		sum /= held
	}
	m := &p.Card.Meant
	if next.Turn > 0 && math.Abs(sum-next.Bank) <= nearBank && math.Abs(ended-next.Turn) <= nearTurn {
		return next.Bank, next.Turn
	}
	return nearest(sum, m.Banks), nearest(ended, m.Turns)
}

// A Choice is a bank and a turn, both in °; the zero value is none.
type Choice struct{ Bank, Turn float64 }

// How near a leg comes to the one that is next in the order of its card to be meant as that one, ° (common practice, no
// source): most of the way to the turn beside it.
const (
	nearBank = 10.0
	nearTurn = 28.0
)

// Next returns the leg that the order of the card asks for; number counts them in the series from 1.
func (p *Plan) Next(number int) Choice {
	order := p.Card.Meant.Order
	if len(order) == 0 {
		return Choice{}
	}
	s := order[(number-1)%len(order)]
	return Choice{s.Bank, s.Turn}
}
