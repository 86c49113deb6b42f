package maneuver

import (
	"fmt"
	"strings"
)

// Where says in words what a check measures: "highest nose from 0° to 90° of turn".
func (k *Check) Where() string {
	q, _ := QuantityNamed(k.Channel)
	what := q.Title
	span := ""
	if k.From != nil && k.To != nil {
		span = fmt.Sprintf(" from %g° to %g° of turn", *k.From, *k.To)
	}
	var s string
	switch k.Kind {
	case "set-up":
		s = what + " over the set-up, mean"
	case "value":
		s = what + " at the exit"
		if k.Turn != nil {
			s = fmt.Sprintf("%s at %g° of turn", what, *k.Turn)
		}
	case "extreme":
		s = k.Extreme + " " + what + span
	case "extreme-angle":
		s = "where the " + k.Extreme + " " + what + " is," + span
	case "crossing-angle":
		way := "up"
		if k.Falling {
			way = "down"
		}
		s = fmt.Sprintf("where %s goes %s through %g%s,%s", what, way, k.Cross, q.Unit, span)
	case "change":
		s = "change of " + what + " from entry to exit"
	case "departure":
		s = "largest departure of " + what + " from the entry"
		if span != "" {
			s = "largest departure of " + what + " from the start of the span," + span
		}
	case "mean", "rms":
		s = map[string]string{"mean": "mean ", "rms": "root mean square of "}[k.Kind] + what + span
	case "share":
		s = fmt.Sprintf("share of time with %s within %g %s,%s", what, k.Within, q.Unit, span)
	case "ball-centered":
		s = fmt.Sprintf("share of time with the %s within %g %s of the middle,%s", what, k.Within, q.Unit, span)
	case "smoothness":
		s = "smoothness of " + what + span + " (−1.4 is one smooth movement, less is rougher)"
	case "symmetry":
		s = "difference of " + k.Of + " from leg to leg"
	default:
		kind, _ := KindNamed(k.Kind)
		s = kind.Says
		if k.Channel != "" {
			s += ", of " + what
		}
		if span != "" {
			s += "," + span
		}
	}
	if k.Smooth > 0 {
		s += fmt.Sprintf(", smoothed over %g s", k.Smooth)
	}
	return strings.ReplaceAll(s, ", from", " from")
}

// Unit names the unit of what a check measures; that of a symmetry is that of the check it
// compares, which its card knows.
func (k *Check) Unit() string {
	switch k.Kind {
	case "extreme-angle", "crossing-angle", "roll-out-angle", "return":
		return "°"
	case "roll-ratio", "pace", "share", "rhythm", "ball-centered":
		return "ratio"
	case "smoothness":
		return ""
	case "directions", "legs":
		return "legs"
	}
	q, _ := QuantityNamed(k.Channel)
	return q.Unit
}

// UnitOf names the unit of a check of the card.
func (c *Card) UnitOf(k *Check) string {
	for i := range c.Checks {
		if k.Of != "" && c.Checks[i].ID == k.Of {
			return c.Checks[i].Unit()
		}
	}
	return k.Unit()
}
