// Package plan computes what is to be flown: what a maneuver card and an aircraft card predict together.
package plan

import (
	"cmp"
	"errors"
	"math"

	"halfturn/coach/aero"
	"halfturn/coach/aircraft"
	"halfturn/coach/maneuver"
	"halfturn/stream/phrase"
)

// Altitude is where the reference path of a plan begins, ft above sea level. Where a leg will begin is not known before
// it does; From gives the path from there. 1,000 ft more make a leg 1.5 % longer.
const Altitude = 5000

// A Plan is what a card and an aircraft predict together. It does not change once made, so it can be shared.
type Plan struct {
	Card     *maneuver.Card
	Aircraft aircraft.Aircraft // with its numbers for this maneuver
	Known    bool              // an aircraft card was chosen
	Nose     float64           // °, highest nose above level pitch; NaN when not known
	Path     *aero.Path        // nil when not known, or where height and airspeed are held
	Problem  phrase.Phrase     // why there is no path; nothing when there is one or none is needed
	Power    float64           // thrust at entry over that of level flight there; 0 when not known
	held     *aero.Path        // where height and airspeed are held; nil when not known
}

// New works out the plan of a card for an aircraft. Without an aircraft (nil) there is no path.
func New(card *maneuver.Card, aircraft *aircraft.Aircraft) *Plan {
	p := &Plan{Card: card, Nose: math.NaN()}
	if aircraft == nil {
		p.Problem = phrase.NoAircraftChosen.Of()
		return p
	}
	p.Known = true
	p.Aircraft = aircraft.For(card.Name)
	if card.Reference.Slowest == maneuver.Glide && aircraft.Speeds[card.Name].Entry == 0 && p.Aircraft.Glide > 0 {
		p.Aircraft.Entry = p.Aircraft.Glide
	}
	if err := p.solve(); err != nil {
		p.Nose, p.Path, p.held, p.Power = math.NaN(), nil, nil, 0
		p.Problem = phrase.OfError(err)
		if none, ok := errors.AsType[*aero.PathError](err); ok {
			p.Problem = none.Why
		}
	}
	return p
}

// Choice names the cards of the plan.
func (p *Plan) Choice() maneuver.Choice {
	return maneuver.Choice{Maneuver: p.Card.Name, Standard: p.Card.Standard, Aircraft: p.Aircraft.Name}
}

// solve finds the reference path: by the lowest airspeed or by the nose that the aircraft card states, and back at
// the height and airspeed of the entry where the card asks for that.
func (p *Plan) solve() error {
	switch {
	case p.level():
		return p.hold()
	case p.Card.Reference.Slowest == maneuver.Pivotal:
		return p.hold()
	case p.Card.Reference.Slowest == maneuver.Glide:
		return p.glide()
	}
	slowest, err := p.slowest()
	if err != nil {
		return err
	}
	program, airplane, entry := p.asWritten(), p.airplane(), p.entry()
	p.Nose = p.Aircraft.Nose
	if p.Card.Reference.Regains {
		s, err := aero.Regain(program, airplane, entry, slowest, p.Nose)
		if err != nil {
			return err
		}
		p.Path, p.Nose, p.Power = s.Path, s.Path.Nose, s.Power
		return nil
	}
	if p.Nose == 0 {
		if p.Nose, err = aero.SolveNose(program, airplane, entry, slowest); err != nil {
			return err
		}
	}
	p.Power = cmp.Or(entry.Power, 1)
	p.Path, err = aero.FlyWithin(program, airplane, entry, p.Nose)
	return err
}

// entry is where the reference path starts.
func (p *Plan) entry() aero.Entry {
	e := aero.Entry{Airspeed: p.Aircraft.Entry, Altitude: Altitude, Power: p.Card.Reference.Power}
	if p.Card.Reference.Increase && p.Aircraft.ClimbPower > 0 {
		e.Added = p.Aircraft.ClimbPower - 1
	}
	return e
}

// level reports whether height and airspeed are to be held, which leaves nothing to solve.
func (p *Plan) level() bool { return p.Card.Reference.Slowest == "level" }

// engines are the kinds of engine by the card's word; a card may leave it out.
var engines = map[string]aero.Engine{"propeller": aero.Propeller, "jet": aero.Jet, "": aero.UnknownEngine}

// hold predicts the path where height and airspeed are held; without an entry speed there is none.
func (p *Plan) hold() (err error) {
	if p.Aircraft.Entry > 0 {
		p.held, err = aero.Level(p.asWritten(), p.airplane(), p.entry())
	}
	return err
}

// glide predicts the path without power at the speed of least drag, or at the aircraft's entry speed of the maneuver;
// without either there is none.
func (p *Plan) glide() (err error) {
	if p.Aircraft.Entry > 0 {
		p.held, err = aero.Glide(p.asWritten(), p.airplane(), p.entry())
	}
	return err
}

// Reference returns the predicted path, also where height and airspeed are held; nil when it is not known.
func (p *Plan) Reference() *aero.Path {
	if p.held != nil {
		return p.held
	}
	return p.Path
}

// slowest returns the lowest airspeed of the maneuver, kt.
func (p *Plan) slowest() (float64, error) {
	if p.Aircraft.Entry == 0 {
		return 0, errors.New("the aircraft card gives no entry speed")
	}
	speeds := map[string]float64{"apex": p.Aircraft.Apex, "stall": p.Aircraft.Stall, "entry": p.Aircraft.Entry}
	base := speeds[p.Card.Reference.Slowest]
	if base == 0 && p.Aircraft.Nose > 0 {
		return 0, nil // the nose is stated, and the airspeed follows
	}
	if base == 0 {
		return 0, errors.New("the aircraft card gives no " + p.Card.Reference.Slowest + " speed")
	}
	return base + p.Card.Reference.Plus, nil
}

// asWritten is the card's profile for this aircraft: where the card's bank is steepest it is the aircraft's steepest,
// and never past that elsewhere. The banks on the way there and back are the card's, as its checks are.
func (p *Plan) asWritten() aero.Program {
	prog := aero.Program{Turn: p.Card.Turn}
	for _, k := range p.Card.Profile {
		prog.Knots = append(prog.Knots, aero.Knot{Turn: k.Turn, Bank: p.bankOf(k.Bank, p.most()), Nose: k.Nose})
	}
	return prog
}

// most is the steepest bank of the card's profile, °.
func (p *Plan) most() (bank float64) {
	for i := range p.Card.Profile {
		bank = math.Max(bank, p.Card.Profile[i].Bank)
	}
	return bank
}

// bankOf is the bank of this aircraft where the card's profile has one, °; most is the card's steepest.
func (p *Plan) bankOf(bank, most float64) float64 {
	switch steepest := p.Aircraft.Steepest; {
	case steepest == 0:
		return bank
	case bank == most:
		return steepest
	default:
		return math.Min(bank, steepest)
	}
}

func (p *Plan) airplane() aero.Airplane {
	a := p.Aircraft
	return aero.Airplane{
		Stall:      a.Stall,
		Entry:      a.Entry,
		Apex:       a.Apex,
		LiftToDrag: a.Ratio,
		MinDrag:    a.Glide,
		LoadLimit:  a.LoadMax,
		Engine:     engines[a.Engine],
	}
}
