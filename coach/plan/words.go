package plan

import (
	"fmt"
	"math"

	"halfturn/stream/phrase"
)

// Label names a checkpoint: its turn angle, or "out" for the exit.
func (p *Plan) Label(turn float64) string {
	if turn == p.Card.Turn {
		return "out"
	}
	return fmt.Sprintf("%g°", turn)
}

// Want says the values to aim at at a turn angle: "bank 45°, nose 17° down, 131 kt".
func (p *Plan) Want(turn float64) phrase.Phrase {
	parts := []phrase.Phrase{phrase.AimLevel.Of()}
	if bank := math.Round(p.Bank(turn)); bank != 0 {
		parts[0] = phrase.AimBank.Of(phrase.Number("bank", bank, 0, "°"))
	}
	if aim, _, ok := p.Aim("pitch", turn); ok {
		switch n := math.Round(aim); {
		case n > 0:
			parts = append(parts, phrase.AimNoseUp.Of(phrase.Number("nose", n, 0, "°")))
		case n < 0:
			parts = append(parts, phrase.AimNoseDown.Of(phrase.Number("nose", -n, 0, "°")))
		default:
			parts = append(parts, phrase.AimNoseLevel.Of())
		}
	}
	if aim, _, ok := p.Aim("airspeed", turn); ok {
		parts = append(parts, phrase.Exactly.Of(phrase.Number("value", aim, 0, "kt")))
	}
	return phrase.Joined(parts...)
}

// Phrase fills in what a card has said: {bank} and {speed} with the values of the plan at a turn angle, {heading} and
// {pivotal} with the arguments of those names.
func (p *Plan) Phrase(say string, turn float64, more ...phrase.Arg) phrase.Phrase {
	speed := phrase.Words("speed", "")
	if aim, _, ok := p.Aim("airspeed", turn); ok {
		speed = phrase.Number("speed", aim, 0, "")
	}
	return phrase.Template(say, append([]phrase.Arg{phrase.Number("bank", p.Bank(turn), 0, ""), speed}, more...)...)
}
