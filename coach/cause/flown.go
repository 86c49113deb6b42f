package cause

import (
	"math"

	"halfturn/coach"
	"halfturn/stream/phrase"
)

// What the trace of a leg shows, for causes that a single check cannot tell apart.

// at returns the trace at a turn angle.
func (f *ledger) at(turn float64) (coach.Trace, bool) {
	if f.leg == nil {
		return coach.Trace{}, false
	}
	for _, t := range f.leg.Trace {
		if t.Turn >= turn {
			return t, t.Turn < turn+3
		}
	}
	return coach.Trace{}, false
}

// A swing is how a bank that is to be held went: as it was set, and how far it then strayed.
type swing struct {
	set, aim       float64 // °
	most, least    float64 // °
	mostAt, lestAt float64 // ° of turn
	from           float64 // ° of turn where it was set
}

// swung returns how the bank went over the span in which the card holds it; ok is false when it holds none, or the leg
// did not get there.
func (f *ledger) swung() (s swing, ok bool) {
	if f.plan == nil || !holdsBank(f.plan.Card) || f.checks[heldBank] == nil {
		return s, false
	}
	to := 0.0
	for i := range f.plan.Card.Checks {
		k := &f.plan.Card.Checks[i]
		if k.ID == heldBank && k.From != nil && k.To != nil && k.Aim != nil {
			s.from, to, s.aim = *k.From, *k.To, *k.Aim
		}
	}
	first, ok := f.at(s.from)
	s.set, s.most, s.least, s.mostAt, s.lestAt = first.Bank, first.Bank, first.Bank, first.Turn, first.Turn
	for i := range f.leg.Trace {
		t := &f.leg.Trace[i]
		if t.Turn < s.from || t.Turn > to {
			continue
		}
		if t.Bank > s.most {
			s.most, s.mostAt = t.Bank, t.Turn
		}
		if t.Bank < s.least {
			s.least, s.lestAt = t.Bank, t.Turn
		}
	}
	return s, ok && to > s.from
}

// leastSwing is by how much a bank must stray from where it was set to be called growing or falling off, °: more than
// a person's hands make of a bank that is held (about 2° r.m.s. in recorded flights).
const leastSwing = 3

// grew reports whether the bank was set well and then grew: most of what it is too steep came after it was set.
func grew(f *ledger) bool {
	s, ok := f.swung()
	return ok && s.most-s.set > leastSwing && s.most-s.set > s.set-s.aim
}

// fellOff reports whether the bank was set well and then came off.
func fellOff(f *ledger) bool {
	s, ok := f.swung()
	return ok && s.set-s.least > leastSwing && s.set-s.least > s.aim-s.set
}

// growth says how the bank went on growing.
func growth(f *ledger) phrase.Phrase {
	s, ok := f.swung()
	if !ok {
		return phrase.Phrase{}
	}
	return phrase.BankWent.Of(phrase.Number("from", s.set, 0, "°"), phrase.Number("start", s.from, 0, "°"),
		phrase.Number("to", s.most, 0, "°"), phrase.Number("end", s.mostAt, 0, "°"))
}

// decline says how the bank came off.
func decline(f *ledger) phrase.Phrase {
	s, ok := f.swung()
	if !ok {
		return phrase.Phrase{}
	}
	return phrase.BankWent.Of(phrase.Number("from", s.set, 0, "°"), phrase.Number("start", s.from, 0, "°"),
		phrase.Number("to", s.least, 0, "°"), phrase.Number("end", s.lestAt, 0, "°"))
}

// tooShallow reports whether even the steepest bank fell short of what is wanted at the steepest point. Where such a
// bank was steepest says nothing.
func tooShallow(f *ledger) bool {
	k := f.named("-bank-at-90")
	if k == nil {
		k = f.named("-steepest-bank")
	}
	if k == nil || k.Verdict != coach.Missed || k.Met[0] == nil || f.leg == nil || len(f.leg.Trace) == 0 {
		return false
	}
	most := 0.0
	for i := range f.leg.Trace {
		most = math.Max(most, f.leg.Trace[i].Bank)
	}
	return most < *k.Met[0]
}

// steep reports whether the bank went past what is wanted.
func steep(f *ledger) bool {
	return f.off("+"+heldBank) || f.off("+mean-bank") || f.missed("+steepest-bank") || f.missed("+bank-at-90")
}

// height returns the greatest height of a leg above its entry and that at its end, ft.
func (f *ledger) height() (most, last float64, ok bool) {
	if f.leg == nil {
		return 0, 0, false
	}
	for i := range f.leg.Trace {
		if h := f.leg.Trace[i].Height; h != nil {
			most, last, ok = math.Max(most, *h), *h, true
		}
	}
	return most, last, ok
}

// Shares of a leg (common practice, no source).
const (
	littleClimb = 0.45   // of the height of the reference path: less is a turn and no climb
	littleGain  = 0.6    // the same of a chandelle, which gains some height from its power alone
	farRound    = 2. / 3 // of the turn, from where level wings are a roll-out and no longer a maneuver given up
	givenBack   = 1. / 3 // of the height gained that may be left when the wings of a returning leg come level
)

// hardlyClimbed reports whether a climbing turn gained little of the height that the numbers give.
func hardlyClimbed(f *ledger) bool {
	most, _, ok := f.height()
	if !ok || f.plan == nil || f.plan.Path == nil || isLevel(f.plan.Card) || !finished(f) {
		return false
	}
	wanted := 0.0
	for i := range f.plan.Path.Points {
		wanted = math.Max(wanted, f.plan.Path.Points[i].Height)
	}
	share := littleClimb
	if isChandelle(f.plan.Card) {
		share = littleGain
	}
	return wanted > 0 && most < share*wanted
}

// rolledShort reports whether a leg that was broken off with level wings was flown as far as a roll-out: well round,
// and with the height given back where it is to be. One that was given up on the way is still high, or not far round.
func rolledShort(f *ledger) bool {
	l := f.leg
	if f.plan == nil || f.plan.Card == nil || l.Outcome != coach.BrokenOff || !l.Reason.Is(phrase.RolledLevel) ||
		len(l.Trace) == 0 || l.Trace[len(l.Trace)-1].Turn < farRound*f.plan.Card.Turn {
		return false
	}
	most, last, ok := f.height()
	switch card := f.plan.Card; {
	case isLevel(card):
		return true
	case isChandelle(card):
		return ok && last > most*(1-givenBack)
	}
	return ok && last < givenBack*most
}

// shortOf says where the wings of a leg that was rolled out far too early came level.
func shortOf(f *ledger) phrase.Phrase {
	if f.leg == nil || !rolledShort(f) {
		return phrase.Phrase{}
	}
	turn := f.leg.Trace[len(f.leg.Trace)-1].Turn
	return phrase.LevelAt.Of(phrase.Number("turn", turn, 0, "°"), phrase.Number("wanted", f.plan.Card.Turn, 0, "°"))
}

// How the nose comes down over the top. It follows a sine over the turn in the reference path, so that over 20° in the
// middle it falls by a third of the way from highest to lowest (common practice, no source).
const (
	topSpan  = 20.0 // ° of turn
	topFrom  = 60.0 // ° of turn, where the span may begin
	topTo    = 125.0
	fallsFor = 0.62 // of the way from highest to lowest nose, within topSpan
)

// plunge returns the greatest share of the way from highest to lowest nose that was covered within topSpan of turn, and
// where it began, °.
func (f *ledger) plunge() (share, from float64) {
	if f.leg == nil {
		return 0, 0
	}
	high, low := math.Inf(-1), math.Inf(1)
	for i := range f.leg.Trace {
		high, low = math.Max(high, f.leg.Trace[i].Pitch), math.Min(low, f.leg.Trace[i].Pitch)
	}
	for i := range f.leg.Trace {
		a := &f.leg.Trace[i]
		if a.Turn < topFrom || a.Turn+topSpan > topTo {
			continue
		}
		if b, ok := f.at(a.Turn + topSpan); ok && high > low && (a.Pitch-b.Pitch)/(high-low) > share {
			share, from = (a.Pitch-b.Pitch)/(high-low), a.Turn
		}
	}
	return share, from
}
