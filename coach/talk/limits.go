package talk

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/coach/check"
	"halfturn/coach/leg"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

// The limits, watched all the time, the one that matters most first. While one is passed, the way back is said; passed
// for as long as its hold, it knocks the leg off.
const (
	limitStall = iota
	limitDeck
	limitLoad
	limitBank
	limitNever
	numLimits
)

var limitTable = [numLimits]struct {
	id     string
	reason *phrase.Definition
	hold   float64                       // s until it knocks the leg off
	back   func(s *stream.Sample) string // the words for the way back
}{
	limitStall: {coach.LimitStall, phrase.Stalled, 0.5, push},
	limitDeck:  {coach.LimitDeck, phrase.BelowDeck, 0, climb},
	limitLoad:  {coach.LimitLoad, phrase.OverLoad, 0.2, unload},
	limitBank:  {coach.LimitBank, phrase.OverBank, 0, levelOff},
	limitNever: {coach.LimitNever, phrase.OverSpeed, 0, slow},
}

// deckAfter is how long after a leg the deck warning goes on, s (common practice, no source): time to climb out, and
// an end for a pilot who flies on below it to land.
const deckAfter = 10.0

// mostAlone is how often an alert is said in a row while no leg is flown: a card's number may be wrong for what is
// flown.
const mostAlone = 3

// A pilot who was told twice that a stall is near, and neither pushes nor gains speed by unheeded, s, is not told a
// third time: the leg is knocked off. Not in the last degrees, where a chandelle is flown just above the stall (common
// practice, no source).
const (
	mostTold = 2
	unheeded = 3.0
	atTheEnd = 10.0 // ° to go
)

// marginStall is how close to the stall the warning comes, kt.
const marginStall = 3.0

// A stall breaks: the nose drops by itself at a margin that looks safe, since the load goes too. Common practice, no
// source; proved on a recorded stall.
const (
	breakRate  = 5.0 // °/s of nose drop
	breakHold  = 0.3 // s of it
	breakAfter = 1.0 // s since the margin was last below marginStall
)

// limits is the state of all limits.
type limits struct {
	alerts   [numLimits]alert
	slow     float64 // when the margin over the stall was last small
	dropping float64 // since when the nose drops; 0 while it does not
}

// An alert is the state of one limit.
type alert struct {
	since float64 // when it was passed; 0 while it is not
	shown bool
	words string // said last
	said  float64
	times int // said while it is shown
}

// any reports whether the way back from a limit is being said.
func (l *limits) any() bool {
	for i := range l.alerts {
		if l.alerts[i].shown {
			return true
		}
	}
	return false
}

// broke reports whether the wing has let go: close to the stall, and the nose dropping.
func (l *limits) broke(now, margin float64, known bool, s *stream.Sample) bool {
	if known && margin < marginStall {
		l.slow = now
	}
	q, ok := s.Get(stream.PitchRate)
	if !ok || q > -breakRate {
		l.dropping = 0
		return false
	}
	if l.dropping == 0 {
		l.dropping = now
	}
	return l.slow != 0 && now-l.dropping >= breakHold && l.dropping-l.slow <= breakAfter
}

// clearLimits forgets everything. Warnings that are shown are taken down.
func (t *Talk) clearLimits() {
	l := &t.limits
	for i := range l.alerts {
		if l.alerts[i].shown {
			t.put(coach.Callout{Kind: coach.Clear, ID: limitTable[i].id})
		}
	}
	*l = limits{}
}

// parked reports that the airplane is on the ground, as far as the stream shows.
func parked(s *stream.Sample) bool {
	if v, ok := s.Get(stream.OnGround); ok && v != 0 {
		return true
	}
	for _, speed := range [...]stream.Channel{stream.Airspeed, stream.GroundSpeed} {
		if v, ok := s.Get(speed); ok {
			return v < 20
		}
	}
	return false
}

// watchLimits judges a sample against the limits.
func (t *Talk) watchLimits(s *stream.Sample, above float64) {
	l, a := &t.limits, &t.plan.Aircraft
	if parked(s) {
		t.clearLimits()
		return
	}
	margin, known := check.StallMarginAt(s, a.Stall)
	warned := s.Value(stream.StallWarning) != 0
	if l.broke(t.now, margin, known, s) {
		l.alerts[limitStall].since = math.Inf(-1)
		t.limit(limitStall, true, true, s)
		return
	}
	t.limit(limitStall, known && margin < 0 || !known && warned, known && margin < marginStall || warned, s)

	low := t.belowDeck(above)
	t.limit(limitDeck, low, low, s)

	n, has := s.Get(stream.NormalLoad)
	heavy, light := has && a.LoadMax > 0 && n > a.LoadMax, has && a.LoadMin < 0 && n < a.LoadMin
	t.limit(limitLoad, heavy || light, heavy || light, s)

	bank := math.Abs(s.Value(stream.Bank))
	t.limit(limitBank, a.BankMax > 0 && bank > a.BankMax, t.overbanked(bank), s)

	fast := a.Never > 0 && s.Value(stream.Airspeed) > a.Never
	t.limit(limitNever, fast, fast, s)
}

// cured is how far inside its limit a bank must be to be cured, °.
const cured = 3.0

// overbanked reports whether a bank is past the limit of the aircraft's card, or in a leg past that of the maneuver's.
// It stays so until it is well inside.
func (t *Talk) overbanked(bank float64) bool {
	most := math.Inf(1)
	if a := t.plan.Aircraft.BankMax; a > 0 {
		most = a
	}
	if m := t.plan.Card.Limits.Bank; m > 0 && t.leg != nil {
		most = min(most, m)
	}
	if t.limits.alerts[limitBank].shown {
		most -= cured
	}
	return bank > most
}

// limit notes whether one limit is passed, says the way back, and ends the leg when it stays passed.
func (t *Talk) limit(i int, passed, warn bool, s *stream.Sample) {
	row, l, now := &limitTable[i], &t.limits.alerts[i], t.now
	if !warn {
		l.since = 0
		if l.shown && now-l.said >= callout.Slowest(l.words) { // it was heard to its end
			t.put(coach.Callout{Kind: coach.Clear, ID: row.id})
			*l = alert{}
		}
		return
	}
	if i == limitStall && t.deaf(l) {
		t.knockOff(leg.End{Outcome: coach.KnockOff, Reason: phrase.NearStall.Of()})
		return
	}
	if passed || t.leg != nil || l.shown {
		t.alert(i, row.back(s))
	}
	if !passed {
		l.since = 0
		return
	}
	if l.since == 0 {
		l.since = now
	}
	if t.leg != nil && now-l.since >= row.hold {
		t.knockOff(leg.End{Outcome: coach.KnockOff, Reason: row.reason.Of(), Limit: row.id})
	}
}

// deaf reports whether a pilot who was told of a limit often enough goes on in the same way.
func (t *Talk) deaf(l *alert) bool {
	return t.leg != nil && t.leg.Moment().Turn < t.plan.Card.Turn-atTheEnd &&
		l.times >= mostTold && t.now-l.said >= unheeded && t.leg.Rates().SpeedRate <= 0
}

// alert says the way back from a limit: at once, again after a pause, and when the attitude asks for other words. It
// waits for the words of a limit that matters more.
func (t *Talk) alert(i int, words string) {
	l := &t.limits.alerts[i]
	for k := range i {
		if o := &t.limits.alerts[k]; o.shown && t.now-o.said < t.voice.Length(o.words) {
			return
		}
	}
	if l.shown && words != l.words && t.now-l.said < callout.Slowest(l.words) {
		return // what was begun is heard to its end
	}
	if t.leg == nil && l.times >= mostAlone || !t.voice.Insist(t.now, callout.SafetyLevel, words) {
		return
	}
	if t.leg != nil && !l.shown {
		t.withdraw()
	}
	l.shown, l.said, l.words = true, t.now, words
	l.times++
	t.put(coach.Callout{
		Kind:  coach.Safety,
		ID:    limitTable[i].id,
		Words: words,
		Tone:  "safety",
	})
}

// belowDeck reports whether the hard deck is broken: in a leg, and for a while after one in which it was.
func (t *Talk) belowDeck(above float64) bool {
	if t.leg == nil && !(t.limits.alerts[limitDeck].shown && t.now-t.ended < deckAfter) {
		return false
	}
	return above < 0
}
