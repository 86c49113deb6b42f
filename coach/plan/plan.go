// Package plan computes what is to be flown: what a maneuver card and an aircraft card predict together.
package plan

import (
	"errors"
	"math"

	"halfturn/coach/aero"
	"halfturn/coach/aircraft"
	"halfturn/coach/maneuver"
	"halfturn/stream/phrase"
)

// planAltitude is the altitude of the reference path, ft. Speeds are calibrated, so it hardly matters; Duration
// corrects the time of a leg for the altitude flown.
const planAltitude = 5000

// A Plan is what a card and an aircraft predict together. It does not change once made, so it can be shared.
type Plan struct {
	Card     *maneuver.Card
	Aircraft aircraft.Aircraft // with its numbers for this maneuver
	Known    bool              // an aircraft card was chosen
	Nose     float64           // °, highest nose above level pitch; NaN when not known
	Path     *aero.Path        // nil when not known
	Problem  phrase.Phrase     // why there is no path; nothing when there is one or none is needed
	program  aero.Program
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
	if err := p.solve(); err != nil {
		p.Nose, p.Path, p.Problem = math.NaN(), nil, phrase.OfError(err)
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

// solve finds the highest nose that slows to the lowest airspeed, then how low the nose must go afterwards to
// be back at the entry height.
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

// level reports whether height and airspeed are to be held, which leaves nothing to solve.
func (p *Plan) level() bool { return p.Card.Reference.Slowest == "level" }

// engines are the kinds of engine by the card's word; a card may leave it out.
var engines = map[string]aero.Engine{"propeller": aero.Propeller, "jet": aero.Jet, "": aero.UnknownEngine}

// Reference returns the predicted path, also where height and airspeed are held; nil when it is not known.
func (p *Plan) Reference() *aero.Path {
	if p.Path != nil || !p.level() || p.Aircraft.Entry == 0 {
		return p.Path
	}
	entry := aero.Entry{Airspeed: p.Aircraft.Entry, Altitude: planAltitude}
	path, err := aero.Level(p.asWritten(), p.airplane(), entry)
	if err != nil {
		return nil
	}
	return path
}

// slowest returns the lowest airspeed of the maneuver, kt.
func (p *Plan) slowest() (float64, error) {
	if p.Aircraft.Entry == 0 {
		return 0, errors.New("the aircraft card gives no entry speed")
	}
	speeds := map[string]float64{"apex": p.Aircraft.Apex, "stall": p.Aircraft.Stall, "entry": p.Aircraft.Entry}
	base := speeds[p.Card.Reference.Slowest]
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

// steepness is the ratio of this aircraft's bank to the card's.
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
