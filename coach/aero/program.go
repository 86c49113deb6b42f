package aero

import (
	"cmp"
	"fmt"
	"math"

	"gonum.org/v1/gonum/interp"
)

// A Program is how a maneuver is flown, as a function of the turn angle.
//
// The first leg of it, up to the first knot past 0°, is the roll-in: bank and nose grow in step
// at a steady rate of roll until they meet the program there. The last, from the last banked
// knot to the full turn, is the roll-out, its mirror. In between bank and nose follow a smooth
// monotone curve through the knots.
type Program struct {
	Turn  float64 // ° of the full turn: 180, 360
	Knots []Knot  // in rising order of Turn; wings level at 0 and at the full turn where left out
	// Level is the share of the roll-out's bank that is left when the pull-out is done but for the last of the nose,
	// which comes level with the wings: the smaller, the longer and lighter the pull-out. 0 is as usually flown; at
	// most 0.9.
	Level float64
}

// A Knot is the attitude at one turn angle.
type Knot struct {
	Turn float64 // ° since the entry heading
	Bank float64 // ° toward the turn
	Nose float64 // −2 to 1, the share of the highest nose angle; 0 is the pitch of level flight
}

// curve is a checked program ready to be flown. Its parameter is the turn angle in radians
// except in the roll-in and the roll-out, where it is the share of a ramp.
type curve struct {
	turn       float64 // rad, the full turn
	in, out    ramp
	bank, nose interp.PiecewiseCubic
}

// A ramp is a roll between wings level and a bank. Its share s runs from 0, level, to 1. In a turn at constant speed
// (rate ∝ tan bank) a roll at a steady rate makes −ln cos(bank) grow in proportion to the turn angle; s is the bank's
// share in such a roll, thus nearly time.
type ramp struct {
	turn       float64 // rad turned in it
	bank       float64 // rad at its banked end
	nose, rest float64 // shares at its banked and at its level end
	scale      float64 // −ln cos(bank) over turn
	out        bool
	level      float64 // share of a roll-out left when the pull-out is done
	last       finish  // of a roll-out
}

// A finish is the last of a roll-out. A roll-out spread evenly over many degrees would take its last few at a bank that
// hardly turns the airplane; no pilot flies that. Zero when the even roll is brisk enough.
type finish struct {
	turn  float64 // rad from where it starts to wings level
	drop  float64 // −ln cos(bank) where it starts
	scale float64 // −ln cos(bank) over turn in it
}

// The least bank at which the last of a roll-out begins, and the turn left there, °: the handbook's lead of half the
// bank or less (Airplane Flying Handbook, turns). In the recorded good flights 7 to 11° of bank are left 2° before the
// end.
const (
	finishBank = 8.0
	finishTurn = 2.0
)

func newRamp(turn float64, k Knot, rest float64, out bool) ramp {
	b := k.Bank * rad
	r := ramp{turn: turn * rad, bank: b, nose: k.Nose, rest: rest, out: out}
	whole := -math.Log(math.Cos(b))
	r.scale = whole / r.turn
	if !out {
		return r
	}
	last := finish{turn: min(finishTurn*rad, r.turn/4)}
	last.drop = -math.Log(math.Cos(min(finishBank*rad, b/2)))
	last.scale = last.drop / last.turn
	if last.scale > r.scale {
		r.last = last
		r.scale = (whole - last.drop) / (r.turn - last.turn)
	}
	return r
}

// share returns s after turning th radians from wings level.
func (r *ramp) share(th float64) float64 {
	if th >= r.turn {
		return 1
	}
	drop := r.last.scale * math.Max(0, th)
	if th > r.last.turn {
		drop = r.last.drop + r.scale*(th-r.last.turn)
	}
	return math.Acos(math.Exp(-drop)) / r.bank
}

// attitude is one moment of the program: bank and nose, and what turns the one into the other.
type attitude struct {
	bank, nose float64 // rad, share
	slope      float64 // change of the nose share per unit of parameter
	lead       float64 // sin(bank) over turn per unit of parameter; finite where both vanish
}

// The shapes of roll-in and roll-out, as flown in the recorded wing-over of a turboprop trainer;
// its chandelle and the flights of other classes follow them too.
const (
	brisk = 1.8     // the first roll, over that of a steady roll-in
	early = 1.0 / 3 // share of the bank soon reached; the rest grows with the turn angle
	level = 0.415   // share of the roll-out left when the pull-out is done
	tail  = 0.08    // share of the nose that comes back with the wings only
)

func (r *ramp) at(s float64) attitude {
	steady := r.bank * s
	sin, cos := math.Sincos(steady)
	lead := cos * r.scale / r.bank // of a steady roll
	a := attitude{bank: steady, lead: lead}
	rise := r.nose - r.rest
	if r.out {
		if -math.Log(cos) < r.last.drop {
			a.lead = cos * r.last.scale / r.bank
		}
		x := math.Max(0, (s-r.level)/(1-r.level))
		a.nose = r.rest + rise*((1-tail)*x*x*(3-2*x)+tail*s*s*(3-2*s))
		a.slope = rise * 6 * ((1-tail)*x*(1-x)/(1-r.level) + tail*s*(1-s))
		return a
	}
	s5 := s * s * s * s * s
	a.nose = r.rest + rise*(s+s5*s*(1-s)) // a steady rise that arrives without a corner
	a.slope = rise * (1 + 6*s5 - 7*s5*s)
	done := -math.Log(cos) / (r.scale * r.turn)
	a.bank = math.Min(brisk*steady, r.bank*(early+(1-early)*done))
	if sin > 1e-9 {
		a.lead = lead * math.Sin(a.bank) / sin
	} else {
		a.lead = lead * brisk
	}
	return a
}

// compile checks a program and prepares it.
func (p Program) compile() (*curve, error) {
	ks, first, last, err := p.ends()
	if err != nil {
		return nil, err
	}
	c := &curve{turn: p.Turn * rad}
	c.in = newRamp(ks[0].Turn, ks[0], first, false)
	end := ks[len(ks)-1]
	c.out = newRamp(p.Turn-end.Turn, end, last, true)
	c.out.level = cmp.Or(p.Level, level)
	x, b, n := make([]float64, len(ks)), make([]float64, len(ks)), make([]float64, len(ks))
	for i, k := range ks {
		x[i], b[i], n[i] = k.Turn*rad, k.Bank*rad, k.Nose
	}
	smooth(&c.bank, x, b, 0, 0)
	smooth(&c.nose, x, n, first, last)
	return c, nil
}

// ends checks the knots and splits off the level ones: the banked knots and the nose shares
// at the start and at the end.
func (p Program) ends() (banked []Knot, first, last float64, err error) {
	if !(p.Turn >= 10 && p.Turn <= 1080) {
		return nil, 0, 0, fmt.Errorf("program: turn is %g°; must be between 10 and 1080", p.Turn)
	}
	if !(p.Level >= 0 && p.Level <= 0.9) {
		return nil, 0, 0, fmt.Errorf("program: level is %g; must be between 0 and 0.9", p.Level)
	}
	prev := -1.0
	for i, k := range p.Knots {
		switch {
		case !(k.Turn >= 0 && k.Turn <= p.Turn && k.Turn > prev):
			err = fmt.Errorf("program: knot %d is at %g°; turn angles must rise from 0 to %g", i+1, k.Turn, p.Turn)
		case !(k.Nose >= lowestShare && k.Nose <= 1):
			err = fmt.Errorf("program: knot %d at %g°: nose is %g; must be between -2 and 1", i+1, k.Turn, k.Nose)
		case k.Turn == 0 && (k.Bank != 0 || k.Nose != 0):
			err = fmt.Errorf("program: knot %d: at 0° bank and nose must be 0: the leg starts level", i+1)
		case k.Turn == p.Turn && k.Bank != 0:
			err = fmt.Errorf("program: knot %d: bank is %g at the full turn; must be 0, wings level", i+1, k.Bank)
		case k.Turn > 0 && k.Turn < p.Turn && !(k.Bank >= 1 && k.Bank <= 120):
			err = fmt.Errorf("program: knot %d at %g°: bank is %g; must be between 1 and 120", i+1, k.Turn, k.Bank)
		}
		if err != nil {
			return nil, 0, 0, err
		}
		prev = k.Turn
		if k.Turn == p.Turn {
			last = k.Nose
		} else if k.Turn > 0 {
			banked = append(banked, k)
		}
	}
	return banked, 0, last, bankedEnds(banked)
}

func bankedEnds(ks []Knot) error {
	if len(ks) == 0 {
		return fmt.Errorf("program: no knot between start and full turn; there must be one at least, with its bank")
	}
	for _, k := range []Knot{ks[0], ks[len(ks)-1]} {
		if k.Bank > 89 {
			return fmt.Errorf("program: knot at %g°: bank is %g; must be at most 89 where the roll-in ends and the "+
				"roll-out starts", k.Turn, k.Bank)
		}
	}
	return nil
}

// lowestShare is how far the nose may go down, in shares of how far it goes up.
const lowestShare = -2

// The three parts of a program.
const (
	rollIn = iota
	middle
	rollOut
)

func (c *curve) part(th float64) int {
	switch {
	case th < c.in.turn-1e-9:
		return rollIn
	case th < c.turn-c.out.turn-1e-9:
		return middle
	}
	return rollOut
}

// param returns the parameter of a part at a turn angle in radians.
func (c *curve) param(part int, th float64) float64 {
	switch part {
	case rollIn:
		return c.in.share(th)
	case rollOut:
		return -c.out.share(c.turn - th) // runs from −1 to 0, so that it rises with the turn
	}
	return th
}

func (c *curve) at(part int, s float64) attitude {
	switch part {
	case rollIn:
		return c.in.at(s)
	case rollOut:
		a := c.out.at(-s)
		a.slope = -a.slope
		return a
	}
	b := c.bank.Predict(s)
	return attitude{bank: b, nose: c.nose.Predict(s), slope: c.nose.PredictDerivative(s), lead: math.Sin(b)}
}
