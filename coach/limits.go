package coach

import (
	"math"

	"halfturn/coach/callout"
	"halfturn/coach/check"
	"halfturn/stream"
)

// The limits watched all the time. Each is a safety callout while it holds, and knocks a leg
// off when it holds for as long as the limit says.
const (
	limitStall = iota
	limitDeck
	limitNever
	limitLoad
	limitBank
	numLimits
)

var limitTable = [numLimits]struct {
	id, words, reason string
	hold              float64 // s until it knocks off
}{
	limitStall: {"stall", "Stall! Lower the nose", "stalled", 0.5},
	limitDeck:  {"hard-deck", "Hard deck! Climb", "below the hard deck", 0},
	limitNever: {"never-exceed", "Too fast! Ease out", "over the never-exceed airspeed", 0},
	limitLoad:  {"load", "Ease the pull", "over the load factor limit", 0.2},
	limitBank:  {"bank-limit", "Too steep! Roll level", "over the bank limit", 0},
}

// deckAfter is how long after a leg the deck is still warned of, s (common practice, no source): time to climb out,
// and an end to it for who flies on below to land.
const deckAfter = 10.0

// marginStall is how close to the stall the warning comes, kt.
const marginStall = 3.0

// A stall breaks: the nose drops by itself at a margin that looks safe, since the load goes
// too. Both numbers are common practice, no source; proved on a recorded stall.
const (
	breakRate  = 5.0 // °/s of nose drop
	breakHold  = 0.3 // s of it
	breakAfter = 1.0 // s since the margin was last below marginStall
)

// limits keeps since when each limit has been passed.
type limits struct {
	since [numLimits]float64 // 0 while not passed
	said  [numLimits]bool
	told  [numLimits]float64 // when it was said

	slow     float64 // when the margin over the stall was last small
	dropping float64 // since when the nose drops, 0 while it does not
}

// broke tells whether the wing has let go: close to the stall, and the nose dropping.
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

// clear forgets all; what was on show is taken down.
func (l *limits) clear(c *Coach) {
	for i := range l.said {
		if l.said[i] {
			c.emit(&Callout{Time: round(c.now, 3), Kind: Clear, ID: limitTable[i].id})
		}
	}
	*l = limits{}
}

// parked tells that the airplane is not in the air, as far as the stream tells.
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

// watchLimits judges every sample against the limits.
func (c *Coach) watchLimits(s *stream.Sample) {
	if parked(s) {
		c.limits.clear(c)
		return
	}
	a := &c.plan.Aircraft
	margin, known := check.StallMarginAt(s, a.Stall)
	warned := s.Value(stream.StallWarning) != 0
	if c.limits.broke(c.now, margin, known, s) {
		c.limits.since[limitStall] = math.Inf(-1)
		c.limit(limitStall, true, true)
		return
	}
	c.limit(limitStall, known && margin < 0 || !known && warned, known && margin < marginStall || warned)
	deck := c.aboveDeck(s)
	flown := (c.leg != nil || c.limits.said[limitDeck] && c.now-c.ended < deckAfter) && !math.IsNaN(deck)
	c.limit(limitDeck, flown && deck < 0, flown && deck < 0)
	v := s.Value(stream.Airspeed)
	c.limit(limitNever, a.Never > 0 && v > a.Never, a.Never > 0 && v > a.Never)
	n, has := s.Get(stream.NormalLoad)
	heavy := has && (a.LoadMax > 0 && n > a.LoadMax || a.LoadMin < 0 && n < a.LoadMin)
	c.limit(limitLoad, heavy, heavy)
	steep := a.BankMax > 0 && math.Abs(s.Value(stream.Bank)) > a.BankMax
	c.limit(limitBank, steep, steep)
}

// limit notes whether one limit is passed, says so, and knocks the leg off when it stays.
func (c *Coach) limit(i int, passed, warn bool) {
	row, l := &limitTable[i], &c.limits
	if !warn {
		l.since[i] = 0
		if l.said[i] && c.now-l.told[i] >= callout.Slowest(row.words) { // it was heard to its end
			c.emit(&Callout{Time: round(c.now, 3), Kind: Clear, ID: row.id})
			l.said[i] = false
		}
		return
	}
	if !l.said[i] && (passed || c.leg != nil) && c.voice.Say(c.now, callout.SafetyLevel, row.words) {
		l.said[i], l.told[i] = true, c.now
		c.emit(&Callout{Time: round(c.now, 3), Kind: Safety, ID: row.id, Words: row.words, Tone: "safety", Turn: c.turnNow()})
	}
	if !passed {
		l.since[i] = 0
		return
	}
	if l.since[i] == 0 {
		l.since[i] = c.now
	}
	if c.leg != nil && c.now-l.since[i] >= row.hold {
		c.endLeg(KnockOff, row.reason, nil)
	}
}

// aboveDeck returns the height above the hard deck in ft, NaN when it is not known. The
// card's deck stands above the ground, the user's above sea level; the nearer one counts.
func (c *Coach) aboveDeck(s *stream.Sample) float64 {
	above := math.NaN()
	if h, ok := s.Get(stream.Height); ok && c.plan.Card.Deck.Height > 0 {
		above = h - c.plan.Card.Deck.Height
	}
	if alt, ok := s.Get(stream.Altitude); ok && c.deck != 0 && !(above < alt-c.deck) {
		above = alt - c.deck
	}
	return above
}

func (c *Coach) turnNow() float64 {
	if c.leg == nil {
		return 0
	}
	return round(c.leg.cur.Turn, 1)
}
