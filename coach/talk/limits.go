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

// The limits, watched all the time. While one is passed it is a safety callout; passed for as long as its hold, it
// knocks the leg off.
const (
	limitStall = iota
	limitDeck
	limitNever
	limitLoad
	limitBank
	numLimits
)

var limitTable = [numLimits]struct {
	id, words string
	reason    *phrase.Definition
	hold      float64 // s until it knocks the leg off
}{
	limitStall: {coach.LimitStall, "Stall! Lower the nose", phrase.Stalled, 0.5},
	limitDeck:  {coach.LimitDeck, "Hard deck! Climb", phrase.BelowDeck, 0},
	limitNever: {coach.LimitNever, "Too fast! Ease out", phrase.OverSpeed, 0},
	limitLoad:  {coach.LimitLoad, "Ease the pull", phrase.OverLoad, 0.2},
	limitBank:  {coach.LimitBank, "Too steep! Roll level", phrase.OverBank, 0},
}

// deckAfter is how long after a leg the deck warning goes on, s (common practice, no source): time to climb out, and
// an end for a pilot who flies on below it to land.
const deckAfter = 10.0

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
	since  [numLimits]float64 // when each was passed; 0 while it is not
	shown  [numLimits]bool
	saidAt [numLimits]float64

	slow     float64 // when the margin over the stall was last small
	dropping float64 // since when the nose drops; 0 while it does not
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
	for i := range l.shown {
		if l.shown[i] {
			t.out.Put(&coach.Callout{Time: coach.Round(t.now, 3), Kind: coach.Clear, ID: limitTable[i].id})
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
		l.since[limitStall] = math.Inf(-1)
		t.limit(limitStall, true, true)
		return
	}
	t.limit(limitStall, known && margin < 0 || !known && warned, known && margin < marginStall || warned)

	low := t.belowDeck(above)
	t.limit(limitDeck, low, low)

	fast := a.Never > 0 && s.Value(stream.Airspeed) > a.Never
	t.limit(limitNever, fast, fast)

	n, has := s.Get(stream.NormalLoad)
	heavy := has && (a.LoadMax > 0 && n > a.LoadMax || a.LoadMin < 0 && n < a.LoadMin)
	t.limit(limitLoad, heavy, heavy)

	steep := a.BankMax > 0 && math.Abs(s.Value(stream.Bank)) > a.BankMax
	t.limit(limitBank, steep, steep)
}

// limit notes whether one limit is passed, warns of it, and ends the leg when it stays passed.
func (t *Talk) limit(i int, passed, warn bool) {
	row, l, now := &limitTable[i], &t.limits, t.now
	if !warn {
		l.since[i] = 0
		if l.shown[i] && now-l.saidAt[i] >= callout.Slowest(row.words) { // it was heard to its end
			t.out.Put(&coach.Callout{Time: coach.Round(now, 3), Kind: coach.Clear, ID: row.id})
			l.shown[i] = false
		}
		return
	}
	if !l.shown[i] && (passed || t.leg != nil) && t.voice.Say(now, callout.SafetyLevel, row.words) {
		l.shown[i], l.saidAt[i] = true, now
		t.out.Put(&coach.Callout{
			Time:  coach.Round(now, 3),
			Kind:  coach.Safety,
			ID:    row.id,
			Words: row.words,
			Tone:  "safety",
			Turn:  t.turnNow(),
		})
	}
	if !passed {
		l.since[i] = 0
		return
	}
	if l.since[i] == 0 {
		l.since[i] = now
	}
	if t.leg != nil && now-l.since[i] >= row.hold {
		t.knockOff(leg.End{Outcome: coach.KnockOff, Reason: row.reason.Of(), Limit: row.id})
	}
}

// belowDeck reports whether the hard deck is broken: in a leg, and for a while after one in which it was.
func (t *Talk) belowDeck(above float64) bool {
	if t.leg == nil && !(t.limits.shown[limitDeck] && t.now-t.ended < deckAfter) {
		return false
	}
	return above < 0
}

func (t *Talk) turnNow() float64 {
	if t.leg == nil {
		return 0
	}
	return coach.Round(t.leg.Cur.Turn, 1)
}
