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
// and a movement. What is asked for must then be right still, and must not be wrong at the next checkpoint either. The
// way back from an excursion alone is not held to that checkpoint: it is said until it is cured, and no longer, so it
// is over by then; a nose that drops far too soon is to be held up although it is to be level a quarter later.
const afterWords = 1.5

// slack is the part of a corridor by which a quantity may be on the other side of its aim before a phrase is wrong.
const slack = 0.25

// asksOf returns what a phrase asks, as it is declared; nil when it is not.
func (f *flight) asksOf(h *heard) []callout.Ask {
	if h.asks != nil {
		return h.asks
	}
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
	bankPost, nosePost         float64 // likewise; after a time when it was far out, the aim a little later
	nose, noseAim, noseLater   float64
	known                      bool // the nose to aim at
	speed, height, climb       float64
	speedAim                   float64 // NaN where none is known
	ball, load, power          float64 // power since the entry
	corridorBank, corridorNose float64
}

// post returns the turn angle of the checkpoint after a turn angle.
func (f *flight) post(turn float64) float64 {
	for _, c := range f.plan.Card.Checkpoints {
		if c.Turn > turn {
			return c.Turn
		}
	}
	return f.plan.Card.Turn
}

func (f *flight) view(l *coach.Leg, time float64) (v view) {
	p, side := f.plan, 1.0
	if l.Direction == "left" {
		side = -1
	}
	s := f.at(time)
	v.turn, v.later = turn(l, time), turn(l, time+afterWords)
	v.later = math.Min(v.later, math.Max(v.turn, f.post(v.turn)))
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
	post := f.post(v.turn)
	v.bankPost, _, _ = p.Aim("bank", post)
	v.nosePost, _, _ = p.Aim("pitch", post)
	v.height = s.altitude - l.Entry.Values["altitude"]
	v.climb = (f.at(time+0.5).altitude - f.at(time-0.5).altitude)
	v.ball, v.load, v.power = s.ball*side, s.load, s.power-f.at(l.Start).power
	v.speedAim = math.NaN()
	if aim, _, ok := p.Aim("airspeed", v.turn); ok {
		v.speedAim = aim
	}
	return v
}

const rollingPull = "a rolling pull"

// wayBack takes what words were begun at, in another view: while they were said, bank or nose may have been far out.
func (v *view) wayBack(begun *view) {
	if v.farBank() || begun.farBank() {
		v.bankPost = v.bankLater
	}
	if v.farNose() || begun.farNose() {
		v.nosePost = v.noseLater
	}
}

func (v *view) farBank() bool { return math.Abs(v.bank-v.bankAim) >= far*v.corridorBank }
func (v *view) farNose() bool { return v.known && math.Abs(v.nose-v.noseAim) >= far*v.corridorNose }

// contradicts returns how a phrase contradicts what is wanted from where it ends to the next checkpoint; "" when it
// does not.
func (f *flight) contradicts(ask callout.Ask, v *view) string {
	bank, nose := slack*v.corridorBank, slack*v.corridorNose
	switch ask {
	case callout.BankMore:
		if v.bank > math.Min(v.bankLater, v.bankPost)+bank {
			return "the bank is to be less"
		}
	case callout.BankLess:
		if v.bank < math.Max(v.bankLater, v.bankPost)-bank {
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
			return rollingPull
		case v.known && v.nose > math.Min(v.noseLater, v.nosePost)+nose:
			return "the nose is to fall"
		case v.speed < f.plan.Aircraft.Stall+5:
			return "a pull near the stall"
		case level && v.height > 20 && v.climb > 0:
			return "it is high already"
		}
	case callout.NoseDown:
		level := f.plan.Card.Reference.Slowest == "level"
		switch {
		case v.known && v.nose < math.Max(v.noseLater, v.nosePost)-nose:
			return "the nose is to rise"
		case level && v.height < -20 && v.climb < 0:
			return "it is low already"
		}
	case callout.WingsLevel:
		if v.bank < -10 {
			return "it is rolled through level"
		}
	}
	return contradictsOther(ask, v)
}

// contradictsOther is contradicts for what is not of bank and nose.
func contradictsOther(ask callout.Ask, v *view) string {
	switch {
	case ask == callout.PowerMore && v.speed > v.speedAim:
		return "it is fast"
	case ask == callout.PowerLess && v.speed < v.speedAim:
		return "it is slow"
	case ask == callout.PowerBack && math.Abs(v.power) < 0.01:
		return "the power is that of the entry"
	case ask == callout.Ball && math.Abs(v.ball) < slack:
		return "the ball is in the middle"
	case ask == callout.Push && v.load < 0:
		return "it is pushed already"
	case ask == callout.EasePush && v.load > 1:
		return "it is pulled"
	}
	return ""
}

// row words what was heard, for the table.
func (f *flight) row(h *heard) (line string, wrong []string) {
	l := f.leg(h.ended)
	if begun := f.leg(h.begun); l == nil || h.Kind == coach.Cue && begun != nil {
		l = begun // the cue of an exit may end in the next leg
	}
	cut := ""
	if h.cut {
		cut = "…"
	}
	if l == nil || h.Kind == coach.Result || h.Kind == coach.NextTime || h.Kind == coach.SetUpSaid {
		return fmt.Sprintf("  %7.1f s         %-8s %s%s", h.begun, h.Kind, h.Words, cut), nil
	}
	asks := f.asksOf(h)
	v, begun := f.view(l, h.ended), f.view(l, h.begun)
	v.wayBack(&begun)
	if len(asks) == 0 {
		wrong = append(wrong, "it declares nothing")
	}
	for _, a := range asks {
		if h.cut { // what cut it takes it back
			break
		}
		if why := f.contradicts(a, &v); why != "" {
			wrong = append(wrong, why)
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
	return line, wrong
}
