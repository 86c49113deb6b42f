package audit

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/coach/talk"
)

// afterWords is how long after the last word the flight is looked at once more, s: a reaction of 0.25 s (Woods 2015)
// and a movement.
const afterWords = 1.5

// slack is the part of a corridor by which a quantity may be on the other side of its aim before a phrase is wrong.
const slack = 0.25

// asksOf returns what a phrase asks, as it is declared; nil when it is not.
func (f *flight) asksOf(h *heard) []callout.Ask {
	c := f.plan.Card
	for _, q := range c.AllCues {
		if h.ID == fmt.Sprintf("cue-%g", q.Of) {
			return q.Asks
		}
	}
	for _, w := range c.Watches {
		switch {
		case h.ID != w.ID:
		case h.Words == w.High && w.HighAsks != "":
			return []callout.Ask{w.HighAsks}
		case h.Words == w.Low && w.LowAsks != "":
			return []callout.Ask{w.LowAsks}
		}
	}
	return talk.SafetyAsks(h.Words)
}

// leg returns the leg in which a moment lies.
func (f *flight) leg(time float64) *coach.Leg {
	for _, l := range f.legs {
		if time >= l.Start && time <= l.End {
			return l
		}
	}
	return nil
}

// turn returns how far a leg had turned at a moment, °.
func turn(l *coach.Leg, time float64) float64 {
	n := len(l.Trace)
	i := sort.Search(n, func(i int) bool { return l.Trace[i].Time >= time })
	switch {
	case n == 0:
		return 0
	case i == n:
		return l.Trace[n-1].Turn
	case i == 0:
		return l.Trace[0].Turn
	}
	a, b := &l.Trace[i-1], &l.Trace[i]
	return a.Turn + (b.Turn-a.Turn)*math.Max(0, math.Min(1, (time-a.Time)/(b.Time-a.Time)))
}

// A view is the flight where words have ended, and what is wanted there and a little later, at the next checkpoint at
// the latest.
type view struct {
	turn, later                float64
	bank, bankAim, bankLater   float64
	bankNext                   float64 // the aim at the next checkpoint
	nose, noseAim, noseLater   float64
	known                      bool // the nose to aim at
	speed, height, climb       float64
	corridorBank, corridorNose float64
}

func (f *flight) view(l *coach.Leg, time float64) (v view) {
	p, side := f.plan, 1.0
	if l.Direction == "left" {
		side = -1
	}
	s := f.at(time)
	v.turn, v.later = turn(l, time), turn(l, time+afterWords)
	for _, c := range p.Card.Checkpoints {
		if c.Turn > v.turn {
			v.later = math.Min(v.later, c.Turn)
			break
		}
	}
	for _, c := range p.Card.Checkpoints {
		if c.Turn > v.turn+5 { // a roll-out is asked for as its own checkpoint comes
			v.bankNext = p.Bank(c.Turn)
			break
		}
	}
	v.bank, v.nose, v.speed = s.bank*side, s.pitch-l.Entry.Values["pitch"], s.speed
	v.bankAim, v.corridorBank, _ = p.Aim("bank", v.turn)
	v.bankLater, _, _ = p.Aim("bank", v.later)
	v.noseAim, v.corridorNose, v.known = p.Aim("pitch", v.turn)
	v.noseLater, _, _ = p.Aim("pitch", v.later)
	v.height = s.altitude - l.Entry.Values["altitude"]
	v.climb = (f.at(time+0.5).altitude - f.at(time-0.5).altitude)
	return v
}

// contradicts returns how a phrase contradicts what is wanted from where it ends to the next checkpoint; "" when it
// does not.
func (f *flight) contradicts(ask callout.Ask, v *view) string {
	bank, nose := slack*v.corridorBank, slack*v.corridorNose
	switch ask {
	case callout.BankMore:
		if v.bank > v.bankLater+bank {
			return "the bank is to be less"
		}
	case callout.BankLess:
		if v.bank < v.bankLater-bank {
			return "the bank is to be more"
		}
	case callout.RollOut:
		if v.bank < v.bankNext-bank {
			return "less is left than the next checkpoint wants"
		}
	case callout.RollSlower:
		if v.bank < v.bankAim-bank {
			return "the bank lags"
		}
	case callout.RollOutSlower:
		if v.bank > v.bankAim+bank {
			return "the bank lags coming off"
		}
	case callout.NoseUp:
		level := f.plan.Card.Reference.Slowest == "level"
		switch {
		case math.Abs(v.bank) > 45 && !level || math.Abs(v.bank) > 60:
			return "a rolling pull"
		case v.known && v.nose > v.noseLater+nose:
			return "the nose is to fall"
		case v.speed < f.plan.Aircraft.Stall+5:
			return "a pull near the stall"
		case level && v.height > 20 && v.climb > 0:
			return "it is high already"
		}
	case callout.NoseDown:
		level := f.plan.Card.Reference.Slowest == "level"
		switch {
		case v.known && v.nose < v.noseLater-nose:
			return "the nose is to rise"
		case level && v.height < -20 && v.climb < 0:
			return "it is low already"
		}
	case callout.WingsLevel:
		if v.bank < -10 {
			return "it is rolled through level"
		}
	}
	return ""
}

// row words what was heard, for the table.
func (f *flight) row(h *heard) (line string, wrong []string) {
	l := f.leg(h.ended)
	if l == nil {
		l = f.leg(h.begun)
	}
	cut := ""
	if h.cut {
		cut = "…"
	}
	if l == nil || h.Kind == coach.Result || h.Kind == coach.NextTime || h.Kind == coach.SetUpSaid {
		return fmt.Sprintf("  %7.1f s         %-8s %s%s", h.begun, h.Kind, h.Words, cut), nil
	}
	asks := f.asksOf(h)
	v := f.view(l, h.ended)
	if len(asks) == 0 {
		wrong = append(wrong, "it declares nothing")
	}
	if !h.cut {
		for _, a := range asks {
			if why := f.contradicts(a, &v); why != "" {
				wrong = append(wrong, why)
			}
		}
	}
	if h.Kind == coach.Cue {
		wrong = append(wrong, f.misplaced(l, h)...)
	}
	names := make([]string, len(asks))
	for i, a := range asks {
		names[i] = string(a)
	}
	line = fmt.Sprintf("  %7.1f s %6.1f° %-8s %-28s bank %4.0f (%3.0f, then %3.0f)", h.begun, v.turn, h.Kind,
		h.Words+cut, v.bank, v.bankAim, v.bankLater)
	if v.known {
		line += fmt.Sprintf("  nose %4.0f (%3.0f, then %3.0f)", v.nose, v.noseAim, v.noseLater)
	} else {
		line += fmt.Sprintf("  nose %4.0f               ", v.nose)
	}
	line += fmt.Sprintf("  %3.0f kt  %s", v.speed, strings.Join(names, ", "))
	if len(wrong) > 0 {
		line += "  WRONG: " + strings.Join(wrong, "; ")
	}
	return line, wrong
}

// How far from its place a cue may end: before it, s, since nobody can hurry a phrase once begun; after it, since a
// pilot may speed up; or as near as this, °, in a turn that has all but ended.
const (
	earliest = 3.0
	latest   = 1.5
	near     = 4.0
)

// misplaced returns what is wrong with where a cue was heard.
func (f *flight) misplaced(l *coach.Leg, h *heard) (wrong []string) {
	before := 0.0
	for _, c := range f.plan.Card.Checkpoints {
		if c.Turn < *h.To {
			before = c.Turn
		}
	}
	if at := turn(l, h.begun); at < before-1 {
		wrong = append(wrong, fmt.Sprintf("begun at %.0f°, before %g° was passed", at, before))
	}
	if h.cut {
		return wrong
	}
	for i := 1; i < len(l.Trace); i++ {
		if a, b := &l.Trace[i-1], &l.Trace[i]; a.Turn <= *h.To && b.Turn > *h.To {
			if off := h.ended - b.Time; (off < -earliest || off > latest) && math.Abs(turn(l, h.ended)-*h.To) > near {
				wrong = append(wrong, fmt.Sprintf("%.1f s off its place", off))
			}
			break
		}
	}
	return wrong
}
