package judge

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

// clear forgets everything. Warnings that are shown are taken down.
func (l *limits) clear(j *Judge) {
	for i := range l.shown {
		if l.shown[i] {
			j.emit(&coach.Callout{Time: coach.Round(j.track.Now, 3), Kind: coach.Clear, ID: limitTable[i].id})
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
func (j *Judge) watchLimits(s *stream.Sample) {
	l, a, now := &j.limits, &j.opt.Plan.Aircraft, j.track.Now
	if parked(s) {
		l.clear(j)
		return
	}
	margin, known := check.StallMarginAt(s, a.Stall)
	warned := s.Value(stream.StallWarning) != 0
	if l.broke(now, margin, known, s) {
		l.since[limitStall] = math.Inf(-1)
		j.limit(limitStall, true, true)
		return
	}
	j.limit(limitStall, known && margin < 0 || !known && warned, known && margin < marginStall || warned)

	low := j.belowDeck(s)
	j.limit(limitDeck, low, low)

	fast := a.Never > 0 && s.Value(stream.Airspeed) > a.Never
	j.limit(limitNever, fast, fast)

	n, has := s.Get(stream.NormalLoad)
	heavy := has && (a.LoadMax > 0 && n > a.LoadMax || a.LoadMin < 0 && n < a.LoadMin)
	j.limit(limitLoad, heavy, heavy)

	steep := a.BankMax > 0 && math.Abs(s.Value(stream.Bank)) > a.BankMax
	j.limit(limitBank, steep, steep)
}

// limit notes whether one limit is passed, warns of it, and knocks the leg off when it stays passed.
func (j *Judge) limit(i int, passed, warn bool) {
	row, l, now := &limitTable[i], &j.limits, j.track.Now
	if !warn {
		l.since[i] = 0
		if l.shown[i] && now-l.saidAt[i] >= callout.Slowest(row.words) { // it was heard to its end
			j.emit(&coach.Callout{Time: coach.Round(now, 3), Kind: coach.Clear, ID: row.id})
			l.shown[i] = false
		}
		return
	}
	if !l.shown[i] && (passed || j.leg != nil) && j.voice.Say(now, callout.SafetyLevel, row.words) {
		l.shown[i], l.saidAt[i] = true, now
		j.emit(&coach.Callout{
			Time:  coach.Round(now, 3),
			Kind:  coach.Safety,
			ID:    row.id,
			Words: row.words,
			Tone:  "safety",
			Turn:  j.turnNow(),
		})
	}
	if !passed {
		l.since[i] = 0
		return
	}
	if l.since[i] == 0 {
		l.since[i] = now
	}
	if j.leg != nil && now-l.since[i] >= row.hold {
		j.endLeg(leg.End{Outcome: coach.KnockOff, Reason: row.reason.Of(), Limit: row.id})
	}
}

// belowDeck reports whether the hard deck is broken: in a leg, and for a while after one in which it was.
func (j *Judge) belowDeck(s *stream.Sample) bool {
	if j.leg == nil && !(j.limits.shown[limitDeck] && j.track.Now-j.ended < deckAfter) {
		return false
	}
	return j.aboveDeck(s) < 0
}

// aboveDeck returns the height above the hard deck, ft; NaN when it is not known. The card's deck stands above the
// ground, the user's above sea level; the nearer one counts.
func (j *Judge) aboveDeck(s *stream.Sample) float64 {
	above := math.NaN()
	if h, ok := s.Get(stream.Height); ok && j.opt.Plan.Card.Deck.Height > 0 {
		above = h - j.opt.Plan.Card.Deck.Height
	}
	if alt, ok := s.Get(stream.Altitude); ok && j.opt.Deck != 0 && !(above < alt-j.opt.Deck) {
		above = alt - j.opt.Deck
	}
	return above
}

func (j *Judge) turnNow() float64 {
	if j.leg == nil {
		return 0
	}
	return coach.Round(j.leg.Cur.Turn, 1)
}
