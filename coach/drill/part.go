package drill

import (
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/coach/cause"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/coach/maneuver"
	"halfturn/coach/score"
)

// A Part is what of a maneuver belongs to a cause.
type Part struct {
	Checks  []string  `json:"checks"`  // ids
	Cues    []float64 `json:"cues"`    // turn angles that they are about
	Watches []string  `json:"watches"` // ids
}

// HasCheck reports whether a check belongs to the part.
func (p *Part) HasCheck(id string) bool { return slices.Contains(p.Checks, id) }

// HasCue reports whether the cue about a turn angle does.
func (p *Part) HasCue(of float64) bool { return slices.Contains(p.Cues, of) }

// HasWatch reports whether a watch does.
func (p *Part) HasWatch(id string) bool { return slices.Contains(p.Watches, id) }

// PartOf is what of a maneuver belongs to a cause. ok is false when no check of a leg shows it that counts, and for
// what ends a leg: that is to be talked over before anything is flown again (common practice, no source).
func PartOf(card *maneuver.Card, id string) (p Part, ok bool) {
	p = Part{Checks: []string{}, Cues: []float64{}, Watches: []string{}}
	if cause.Ends(id) {
		return p, false
	}
	var looks []look
	for _, shows := range cause.Shows(id) {
		i := slices.IndexFunc(card.Checks, func(k check.Spec) bool { return k.ID == shows })
		if i < 0 || kinds.Of(&card.Checks[i]).OfSeries() {
			continue
		}
		ok = ok || card.Checks[i].Weight > 0
		p.Checks = append(p.Checks, shows)
		looks = append(looks, lookOf(card, &card.Checks[i]))
	}
	if !ok {
		return p, false
	}
	for i := range card.AllCues {
		q := &card.AllCues[i]
		if q.Say != "" && slices.ContainsFunc(looks, func(l look) bool { return l.has(q.Of, q.Of, q.Asks...) }) {
			p.Cues = append(p.Cues, q.Of)
		}
	}
	for i := range card.Watches {
		w := &card.Watches[i]
		if slices.ContainsFunc(looks, func(l look) bool { return l.has(w.From, w.To, w.HighAsks, w.LowAsks) }) {
			p.Watches = append(p.Watches, w.ID)
		}
	}
	return p, true
}

// A look is at what a check looks, and where.
type look struct {
	from, to float64 // ° of turn
	asks     []callout.Ask
}

// has reports whether something that is said of a part of the turn asks for what the check looks at. A part that only
// touches another is none of it.
func (l *look) has(from, to float64, asks ...callout.Ask) bool {
	meets := from < l.to && to > l.from || from == to && from > l.from && from <= l.to
	return meets && slices.ContainsFunc(asks, func(a callout.Ask) bool { return slices.Contains(l.asks, a) })
}

// lookOf is where and at what a check looks: to a point, over the turn that comes before it; else over its span, or the
// whole turn.
func lookOf(card *maneuver.Card, k *check.Spec) look {
	l := look{from: -1, to: card.Longest(), asks: asksOf(k)}
	turns := card.Turns()
	kind := kinds.Of(k)
	switch post := score.PostOf(k, &coach.Check{Aim: k.Aim}, turns); {
	case kind.Looks == check.BeforeTurn:
		l.to = 0
	case kind.Doubt == check.Angle && k.Aim != nil:
		l.from, l.to = around(turns, *k.Aim)
	case post != nil:
		l.from, l.to = around(turns, *post)
	case k.From != nil && k.To != nil:
		l.from, l.to = *k.From, *k.To
	}
	return l
}

// around is the part of the turn between two checkpoints that a turn angle ends or lies in.
func around(turns []float64, at float64) (from, to float64) {
	from, to = -1, math.Max(at, turns[len(turns)-1])
	for _, x := range turns {
		if x < at {
			from = x
		} else {
			return from, x
		}
	}
	return from, to
}

// What is asked of the pilot about how steep the bank is, also where it goes, the nose, and with the rudder and the
// throttle.
var (
	steepAsks = []callout.Ask{callout.BankMore, callout.BankLess, callout.RollSlower, callout.BankAim}
	bankAsks  = append([]callout.Ask{callout.RollOut, callout.RollOutSlower, callout.WingsLevel}, steepAsks...)
	noseAsks  = []callout.Ask{callout.NoseUp, callout.NoseDown, callout.NoseAim, callout.HoldHeight, callout.Push,
		callout.EasePush}
	footAsks  = []callout.Ask{callout.Ball}
	powerAsks = []callout.Ask{callout.PowerMore, callout.PowerLess, callout.PowerBack}
)

// asksOf is what a pilot is asked for about what a check looks at. Speed and height follow from the nose, and where
// they are held from power, too.
func asksOf(k *check.Spec) []callout.Ask {
	switch k.Channel {
	case "bank":
		if kind := kinds.Of(k); kind.Looks != check.AtPlace && kind.Doubt != check.Angle {
			return steepAsks
		}
		return bankAsks
	case "turn", "roll-rate":
		return bankAsks
	case "pitch", "pitch-rate", "normal-load", "stall-margin", "altitude", "height", "off-pivotal", "pivotal":
		return noseAsks
	case "slip", "ball":
		return footAsks
	case "power":
		return powerAsks
	case "airspeed", "speed-change", "vertical-speed":
		return slices.Concat(noseAsks, powerAsks)
	}
	switch k.Kind {
	case "roll-out-angle", "roll-ratio", "round", "mirror", "pace", "rhythm":
		return bankAsks
	case "gain", "sight":
		return noseAsks
	}
	return nil
}
