package plan

import (
	"fmt"
	"math"
	"strings"
)

// Label names a checkpoint: its turn angle, or "out" for the exit.
func (p *Plan) Label(turn float64) string {
	if turn == p.Card.Turn {
		return "out"
	}
	return fmt.Sprintf("%g°", turn)
}

// Want words the values to aim at at a turn angle: "bank 45°, nose 17° down, 131 kt".
func (p *Plan) Want(turn float64) string {
	bank := math.Round(p.Bank(turn))
	parts := []string{fmt.Sprintf("bank %.0f°", bank)}
	if bank == 0 {
		parts[0] = "wings level"
	}
	if aim, _, ok := p.Aim("pitch", turn); ok {
		switch n := math.Round(aim); {
		case n > 0:
			parts = append(parts, fmt.Sprintf("nose %.0f° up", n))
		case n < 0:
			parts = append(parts, fmt.Sprintf("nose %.0f° down", -n))
		default:
			parts = append(parts, "nose level")
		}
	}
	if aim, _, ok := p.Aim("airspeed", turn); ok {
		parts = append(parts, fmt.Sprintf("%.0f kt", aim))
	}
	return strings.Join(parts, ", ")
}

// Phrase fills in a phrase of the card: {bank} and {speed} with the values of the plan at a turn angle, {heading}
// with a heading as it is to be spoken.
func (p *Plan) Phrase(say string, turn float64, heading string) string {
	speed := ""
	if aim, _, ok := p.Aim("airspeed", turn); ok {
		speed = fmt.Sprintf("%.0f", aim)
	}
	bank := fmt.Sprintf("%.0f", p.Bank(turn))
	return strings.NewReplacer("{bank}", bank, "{speed}", speed, "{heading}", heading).Replace(say)
}
