package brief

import (
	"halfturn/coach/check"
	"halfturn/coach/plan"
)

// bandOf returns the band within which a number of the brief is met, by the check of the card that judges it; both ends
// are nil where none does, and one that is open.
func bandOf(p *plan.Plan, n *Number) (band [2]*float64) {
	k := judging(p, n.ID)
	if k == nil || n.Value == nil {
		return band
	}
	times, plus := 1.0, 0.0 // the number is counted in what the band is not
	switch n.ID {
	case "duration", "height":
		times = *n.Value // a share of it
	case "nose":
		plus = p.Nose // above level flight
	default:
		switch k.About {
		case "entry":
			plus = p.Aircraft.Entry
		case "apex":
			plus = p.Aircraft.Apex
		case "stall":
			plus = p.Aircraft.Stall
		}
	}
	for i, end := range []*float64{k.MetBand.Low, k.MetBand.High} {
		if end != nil {
			band[i] = new(round1(plus + times**end))
		}
	}
	return band
}

// judging returns the check of a card that judges a number of the brief; nil when none with a weight does.
func judging(p *plan.Plan, id string) *check.Spec {
	is := func(k *check.Spec, kind, channel string) bool { return k.Kind == kind && k.Channel == channel }
	for i := range p.Card.Checks {
		k := &p.Card.Checks[i]
		found := false
		switch id {
		case "entry":
			found = is(k, "set-up", "airspeed") && k.About == "entry"
		case "apex":
			found = is(k, "extreme", "airspeed") && k.Extreme == "lowest" && k.About == "apex"
		case "bank":
			found = is(k, "held", "bank") || is(k, "extreme", "bank") && k.Extreme == "highest" && k.Aim != nil
		case "nose":
			found = is(k, "extreme", "pitch") && k.Extreme == "highest" && k.About == "nose"
		case "slowest":
			found = is(k, "value", "airspeed") && k.At == "exit" && k.About == "stall"
		case "height":
			found = k.Kind == "gain"
		case "duration":
			found = k.Kind == "pace"
		case "load":
			found = is(k, "extreme", "normal-load") && k.Extreme == "highest"
		case "stall-margin":
			found = is(k, "extreme", "stall-margin") && k.Extreme == "lowest"
		}
		if found && k.Weight > 0 {
			return k
		}
	}
	return nil
}
