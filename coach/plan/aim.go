package plan

import (
	"math"

	"halfturn/coach/aero"
)

// Duration predicts the time of a leg from the airspeed (kt) and altitude (ft) of its entry, s; NaN when there is
// no path. The same bank and nose over the turn at another speed take time in proportion to the true airspeed:
// the turn rate is g·tan(bank)/V.
func (p *Plan) Duration(airspeed, altitude float64) float64 {
	if p.Path == nil {
		return math.NaN()
	}
	if airspeed <= 0 {
		return p.Path.Duration
	}
	return p.Path.Duration * aero.TrueAirspeed(airspeed, altitude) / aero.TrueAirspeed(p.Aircraft.Entry, planAltitude)
}

// Dive returns the lowest nose of the reference path, ° from the pitch of level flight; NaN when there is no path.
func (p *Plan) Dive() float64 {
	if p.Path == nil {
		return math.NaN()
	}
	lowest := 0.0
	for i := range p.Path.Points {
		lowest = math.Min(lowest, p.Path.Points[i].Pitch)
	}
	return lowest
}

// Climb returns the height that the reference path gains from entry to exit, ft; NaN when there is no path.
func (p *Plan) Climb() float64 {
	if p.Path == nil {
		return math.NaN()
	}
	return p.Path.At(p.Card.Turn).Height
}

// Bank returns the bank to aim at, ° toward the turn.
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

// Aim returns the value to aim at in a lane ("bank", "pitch" above level, "airspeed", "height" since the entry) at
// a turn angle, and how far off it may be; ok is false when it is not known.
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

// deckMargin is the room that the reference path leaves above the hard deck, ft (common practice, no source).
const deckMargin = 100

// Room returns the height above the hard deck from which the reference path stays above it, with a margin, ft.
func (p *Plan) Room() float64 {
	lowest := 0.0
	if p.Path != nil {
		lowest = math.Max(0, -p.Path.Lowest().Height)
	}
	return math.Ceil((lowest+deckMargin)/10) * 10
}
