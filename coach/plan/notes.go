package plan

import (
	"math"

	"halfturn/stream/phrase"
)

// Steepest returns the steepest bank that is asked for, °.
func (p *Plan) Steepest() (bank float64) {
	if path := p.Reference(); path != nil {
		for i := range path.Points {
			bank = math.Max(bank, path.Points[i].Bank)
		}
		return bank
	}
	most := p.most()
	return p.bankOf(most, most)
}

// overBank are the sentences about a maneuver that asks for more bank than the category of the airplane allows.
var overBank = map[string]*phrase.Definition{"normal": phrase.BankNormal, "utility": phrase.BankUtility}

// Warnings says what the aircraft may not do and the maneuver asks for.
func (p *Plan) Warnings() []phrase.Phrase {
	all := []phrase.Phrase{}
	a := &p.Aircraft
	if bank := math.Round(p.Steepest()); p.Known && a.BankMax > 0 && bank > a.BankMax {
		says, known := overBank[a.Category]
		if !known {
			says = phrase.BankLimit
		}
		all = append(all, says.Of(phrase.Number("limit", a.BankMax, 0, "°"), phrase.Number("bank", bank, 0, "°")))
	}
	if limit := a.ManeuveringLimit(); limit > 0 && a.Entry > math.Ceil(limit) {
		all = append(all, phrase.EntryOverLimit.Of(phrase.Number("entry", a.Entry, 0, "kt"),
			phrase.Number("limit", limit, 0, "kt")))
	}
	return all
}

// Beyond these anyone on board but the crew asks for parachutes, °. Source: 14 CFR 91.307(c).
const (
	parachuteBank = 60
	parachuteNose = 30
)

// Notes says what else is to be known of the plan before it is flown.
func (p *Plan) Notes() []phrase.Phrase {
	all := []phrase.Phrase{}
	steep := math.Round(p.Steepest()) > parachuteBank
	if path := p.Path; path != nil {
		for i := range path.Points {
			steep = steep || math.Abs(path.Points[i].Pitch) > parachuteNose
		}
		if p.Aircraft.Nose > 0 {
			all = append(all, phrase.NoseStated.Of(phrase.Number("nose", p.Nose, 0, "°"),
				phrase.Number("speed", path.Slowest().Airspeed, 0, "kt")))
		}
	}
	if steep {
		all = append(all, phrase.Parachutes.Of(phrase.Number("bank", parachuteBank, 0, "°"),
			phrase.Number("nose", parachuteNose, 0, "°")))
	}
	return all
}
