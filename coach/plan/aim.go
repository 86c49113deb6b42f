package plan

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
		return p.Bank(turn), c.Bank, !p.Card.Several()
	}
	if p.level() && lane == "height" {
		return 0, c.Height, true
	}
	if p.level() && lane == "airspeed" && p.EntrySpeed() > 0 {
		return p.EntrySpeed(), c.Airspeed, true
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
