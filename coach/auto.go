package coach

import (
	"cmp"
	"math"
	"slices"
)

// Auto is the name that stands for no card in particular: which maneuver it was is decided
// from what was flown; AutoTitle is how people read it. Unclear is the maneuver of a series that no card fits clearly.
const (
	AutoManeuver = "auto"
	AutoTitle    = "Whichever is flown"
	Unclear      = "unclear"
)

// A Fit is how far a leg, as flown, is from what a card describes.
type Fit struct {
	Maneuver string  `json:"maneuver"`
	Misfit   float64 `json:"misfit"` // 0 is the card's own profile; 1 is as far off as one maneuver is from another
}

// A Decision says which maneuver a leg was.
type Decision struct {
	Maneuver string  `json:"maneuver"` // Unclear when no card stands out
	Margin   float64 `json:"margin"`   // by how much the second card fits worse than the best
	Fits     []Fit   `json:"fits"`     // the best first
}

// What a decision needs. All are common practice, no source; proved on the built-in airplanes
// and on recorded flights.
const (
	LeastMargin = 0.3 // between the best and the second card: never claimed below it
	MostMisfit  = 1.1 // of the best: worse than that is none of the cards

	bankScale = 20.0 // ° of bank that count as much as
	noseScale = 0.6  // this share of the highest nose, and as
	turnScale = 60.0 // this much turn short of, or past, the card's
	mostTurn  = 1.5  // however far the turn goes beyond
	flatNose  = 8.0  // °: a nose that never left level by more has no shape of its own
	leastSeen = 45.0 // ° of turn without which nothing is decided
)

// Decide chooses among the cards whose misfits are given; it sorts them.
func Decide(fits []Fit) Decision {
	d := Decision{Maneuver: Unclear, Fits: fits}
	slices.SortStableFunc(fits, func(a, b Fit) int { return cmp.Compare(a.Misfit, b.Misfit) })
	if len(fits) == 0 {
		return d
	}
	d.Margin = 2 * MostMisfit // alone; only its own misfit can speak against it
	if len(fits) > 1 {
		d.Margin = round(fits[1].Misfit-fits[0].Misfit, 2)
	}
	if fits[0].Misfit <= MostMisfit && d.Margin >= LeastMargin {
		d.Maneuver = fits[0].Maneuver
	}
	return d
}

// Misfit compares a leg's trace with the plan's card: bank and nose over the turn with its
// profile, and the turn flown with its turn. ended is false while the leg is still being flown:
// then only the part so far counts. NaN: too little was flown to tell.
func (p *Plan) Misfit(trace []Trace, ended bool) float64 {
	if len(trace) == 0 || trace[len(trace)-1].Turn < leastSeen {
		return math.NaN()
	}
	level, peak, farthest := trace[0].Pitch, flatNose, 0.0
	for i := range trace {
		peak = math.Max(peak, math.Abs(trace[i].Pitch-level))
		farthest = math.Max(farthest, trace[i].Turn)
	}
	if !ended && farthest < p.Card.Turn/2 {
		// The highest nose may be still to come; what the reference path says of it will do.
		if !math.IsNaN(p.Nose) {
			peak = math.Max(peak, p.Nose)
		}
	}
	var bank, nose, n float64
	steepness := p.steepness()
	for i := range trace {
		t := &trace[i]
		b, share := p.profile(t.Turn)
		bank += square((t.Bank - b*steepness) / bankScale)
		nose += square(((t.Pitch-level)/peak - share) / noseScale)
		n++
	}
	sum := bank/n + nose/n
	if over := farthest - p.Card.Turn; ended || over > 0 {
		sum += square(math.Min(mostTurn, math.Abs(over)/turnScale))
	}
	return round(math.Sqrt(sum), 3)
}

// profile is what the card draws at a turn angle: bank in °, nose as a share of the highest.
func (p *Plan) profile(turn float64) (bank, nose float64) {
	k := p.Card.Profile
	for i := 1; i < len(k); i++ {
		if turn <= k[i].Turn {
			f := math.Max(0, turn-k[i-1].Turn) / (k[i].Turn - k[i-1].Turn)
			return k[i-1].Bank + f*(k[i].Bank-k[i-1].Bank), k[i-1].Nose + f*(k[i].Nose-k[i-1].Nose)
		}
	}
	last := k[len(k)-1]
	return last.Bank, last.Nose
}

func square(x float64) float64 { return x * x }
