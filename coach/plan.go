package coach

import (
	"errors"
	"math"
	"strings"

	"halfturn/coach/aero"
	"halfturn/coach/aircraft"
	"halfturn/coach/maneuver"
)

// The altitude a plan is made for before anything has flown, ft. Speeds are calibrated, so
// it hardly shows; the time of a leg is worked out again from the altitude flown.
const planAltitude = 5000

// A Plan is what a card and an aircraft predict together. It is never changed once made, so
// that many coaches can share one.
type Plan struct {
	Card     *maneuver.Card
	Aircraft aircraft.Aircraft // as it stands for this maneuver
	Known    bool              // an aircraft card was chosen
	Nose     float64           // °, highest nose above level pitch; NaN when not known
	Path     *aero.Path        // nil when not known
	program  aero.Program
	Problem  string // why there is no path, in words; "" when there is one or none is needed
}

// NewPlan works out what is to be flown. aircraft may be nil: then there is no path.
func NewPlan(card *maneuver.Card, aircraft *aircraft.Aircraft) *Plan {
	p := &Plan{Card: card, Nose: math.NaN()}
	if aircraft == nil {
		p.Problem = "no aircraft card is chosen"
		return p
	}
	p.Known = true
	p.Aircraft = aircraft.For(card.Name)
	if err := p.solve(); err != nil {
		p.Nose, p.Path, p.Problem = math.NaN(), nil, strings.TrimPrefix(err.Error(), "reference path: ")
	}
	return p
}

// solve finds the highest nose that comes down to the lowest airspeed, then how low the nose
// must go afterwards to be back at the entry height.
func (p *Plan) solve() error {
	if p.level() {
		return nil
	}
	slowest, err := p.slowest()
	if err != nil {
		return err
	}
	p.program = p.asWritten()
	entry := aero.Entry{Airspeed: p.Aircraft.Entry, Altitude: planAltitude}
	if p.Nose, err = aero.SolveNose(p.program, p.airplane(), entry, slowest); err != nil {
		return err
	}
	if p.Card.Reference.Regains {
		if p.program, err = aero.Balance(p.program, p.airplane(), entry, p.Nose); err != nil {
			return err
		}
	}
	p.Path, err = aero.Fly(p.program, p.airplane(), entry, p.Nose)
	return err
}

// level tells whether height and airspeed are meant to be held: then there is nothing to solve.
func (p *Plan) level() bool { return p.Card.Reference.Slowest == "level" }

// engines are the kinds of engine by the card's word; a card may leave it out.
var engines = map[string]aero.Engine{"propeller": aero.Propeller, "jet": aero.Jet, "": aero.UnknownEngine}

// Reference returns the path the numbers predict, also where height and airspeed are held; nil
// when none is known.
func (p *Plan) Reference() *aero.Path {
	if p.Path != nil || !p.level() || p.Aircraft.Entry == 0 {
		return p.Path
	}
	path, err := aero.Level(p.asWritten(), p.airplane(), aero.Entry{Airspeed: p.Aircraft.Entry, Altitude: planAltitude})
	if err != nil {
		return nil
	}
	return path
}

// slowest returns the airspeed the maneuver is meant to come down to, kt.
func (p *Plan) slowest() (float64, error) {
	if p.Aircraft.Entry == 0 {
		return 0, errors.New("the aircraft card gives no entry speed")
	}
	base := map[string]float64{"apex": p.Aircraft.Apex, "stall": p.Aircraft.Stall, "entry": p.Aircraft.Entry}[p.Card.Reference.Slowest]
	if base == 0 {
		return 0, errors.New("the aircraft card gives no " + p.Card.Reference.Slowest + " speed")
	}
	return base + p.Card.Reference.Plus, nil
}

// asWritten is the card's profile for this aircraft.
func (p *Plan) asWritten() aero.Program {
	prog := aero.Program{Turn: p.Card.Turn}
	for _, k := range p.Card.Profile {
		prog.Knots = append(prog.Knots, aero.Knot{Turn: k.Turn, Bank: k.Bank * p.steepness(), Nose: k.Nose})
	}
	return prog
}

// steepness is by how much this aircraft's bank differs from the card's.
func (p *Plan) steepness() float64 {
	most := 0.0
	for _, k := range p.Card.Profile {
		most = math.Max(most, k.Bank)
	}
	if p.Aircraft.Steepest == 0 || most == 0 {
		return 1
	}
	return p.Aircraft.Steepest / most
}

func (p *Plan) airplane() aero.Airplane {
	a := p.Aircraft
	return aero.Airplane{Stall: a.Stall, Entry: a.Entry, Apex: a.Apex, LiftToDrag: a.Ratio, MinDrag: a.Glide, LoadLimit: a.LoadMax, Engine: engines[a.Engine]}
}

// duration predicts the time of a leg from the entry as flown, s; NaN when there is no path.
// The same bank and nose over the turn at another speed take time in proportion to the true
// airspeed: the turn rate is g·tan(bank)/V.
func (p *Plan) duration(airspeed, altitude float64) float64 {
	if p.Path == nil {
		return math.NaN()
	}
	if airspeed <= 0 {
		return p.Path.Duration
	}
	return p.Path.Duration * aero.TrueAirspeed(airspeed, altitude) / aero.TrueAirspeed(p.Aircraft.Entry, planAltitude)
}

// Bank returns the bank aimed at, ° toward the turn.
func (p *Plan) Bank(turn float64) float64 {
	if p.Path != nil {
		return p.Path.At(turn).Bank
	}
	k := p.Card.Profile
	for i := 1; i < len(k); i++ {
		if turn <= k[i].Turn {
			f := (turn - k[i-1].Turn) / (k[i].Turn - k[i-1].Turn)
			return k[i-1].Bank + f*(k[i].Bank-k[i-1].Bank)
		}
	}
	return k[len(k)-1].Bank
}

// Aim returns what a lane (bank, pitch above level, airspeed, climb since entry) is meant to
// show at a turn angle, and how far from it is allowed; ok is false when it is not known.
func (p *Plan) Aim(lane string, turn float64) (aim, width float64, ok bool) {
	c := p.Card.Corridor
	if lane == "bank" {
		return p.Bank(turn), c.Bank, true
	}
	if p.level() && lane == "height" {
		return 0, c.Height, true
	}
	if p.level() && lane == "airspeed" && p.Aircraft.Entry > 0 {
		return p.Aircraft.Entry, c.Airspeed, true
	}
	if p.Path == nil {
		return 0, 0, false
	}
	at := p.Path.At(turn)
	switch lane {
	case "pitch":
		return at.Pitch, c.Nose, true
	case "airspeed":
		return at.Airspeed, c.Airspeed, true
	case "height":
		return at.Height, c.Height, true
	}
	return 0, 0, false
}
