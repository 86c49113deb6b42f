package coach

import (
	"fmt"
	"math"

	"halfturn/coach/callout"
	"halfturn/coach/maneuver"
	"halfturn/stream"
)

// Cues are sent early, so that every listener can begin them when its own voice needs to. What the
// coach itself reckons with is one listener of an average voice: what that one would be saying is
// what corrections have to give way to. A cue that is sent and waits keeps nothing from being said.

// giveWay is how soon a cue must begin for a correction on the way to wait for it, s.
const giveWay = 1.0

// skipCues passes over the cues that the leg had already gone by when it committed itself.
func (l *leg) skipCues(card *maneuver.Card) {
	cues := card.AllCues
	for l.cue < len(cues) && cues[l.cue].Turn <= l.cur.Turn {
		l.cue++
	}
	l.sent = l.cue
	for i := range l.known {
		if l.known[i] <= l.cur.Turn {
			l.known[i] = math.Inf(1)
		}
	}
}

// sendCues sends every cue whose turn angle comes within the lead of a slow voice. One that even
// an average voice could no more than half say in time is dropped.
func (c *Coach) sendCues(l *leg) {
	cues := c.plan.Card.AllCues
	for l.sent < len(cues) {
		q := &cues[l.sent]
		if q.Say == "" || q.Turn <= l.cur.Turn {
			l.sent++
			continue
		}
		left, ok := c.until(l, q.Turn)
		if !ok || left > callout.LongestLead {
			return
		}
		words := c.expand(q.Say, q.Of)
		if left > callout.Early(words) {
			return
		}
		l.sent++
		if left < c.voice.Lead(words)-c.voice.Length(words)/2 || c.voice.Repeats(c.now, words) {
			continue
		}
		c.emit(&Callout{Time: round(c.now, 3), Kind: Cue, ID: fmt.Sprintf("cue-%g", q.Of), Words: words, Turn: round(l.cur.Turn, 1),
			To: ptr(q.Turn), Due: ptr(round(c.now+left, 2))})
	}
}

// sayCue has the average voice begin the next cue when its words, begun now, end a reaction time
// before its turn angle. One that was not sent is not said.
func (c *Coach) sayCue(l *leg) bool {
	cues := c.plan.Card.AllCues
	for l.cue < len(cues) && cues[l.cue].Turn <= l.cur.Turn {
		l.cue++
		l.words = ""
	}
	left, ok := c.beforeCue(l)
	if !ok || left > 0 || l.cue >= l.sent || c.voice.Busy(c.now, callout.CueLevel) {
		return false
	}
	words := l.words
	l.cue, l.words = l.cue+1, ""
	return left >= -c.voice.Length(words)/2 && c.voice.Say(c.now, callout.CueLevel, words)
}

// beforeCue returns how long it is until the average voice has to begin the next cue, s.
func (c *Coach) beforeCue(l *leg) (float64, bool) {
	cues := c.plan.Card.AllCues
	if l.cue == len(cues) || cues[l.cue].Say == "" {
		return 0, false
	}
	q := &cues[l.cue]
	if l.words == "" {
		l.words = c.expand(q.Say, q.Of)
	}
	left, ok := c.until(l, q.Turn)
	return left - c.voice.Lead(l.words), ok
}

// cueSoon tells whether the average voice is about to begin a cue.
func (c *Coach) cueSoon(l *leg) bool {
	left, ok := c.beforeCue(l)
	return ok && left > 0 && left < giveWay
}

// until predicts the time to a turn angle, s. The exit is where the wings come level, whatever
// the turn angle.
func (c *Coach) until(l *leg, turn float64) (s float64, ok bool) {
	switch full := c.plan.Card.Turn; {
	case turn >= full:
		return c.untilExit(l, turn)
	case turn >= full-maneuver.ExitLead:
		return c.untilRolledOut(l, turn)
	}
	return c.untilTurn(l, turn)
}

// untilRolledOut predicts when a turn angle of the roll-out comes for a pilot who rolls steadily to level
// wings at the full turn: the bank that is left and with it the turn rate shrink in proportion to the time
// left, so the turn that is left shrinks with its square.
func (c *Coach) untilRolledOut(l *leg, turn float64) (s float64, ok bool) {
	w, _ := c.ring.trend(c.now - rateOver)
	rate := w.turnRate * l.side
	left := c.plan.Card.Turn - l.cur.Turn + rate*rateOver/2 // where the rate was measured
	if rate <= 0.5 || left <= 0 {
		return 0, false
	}
	whole := 2 * left / rate
	return math.Max(0, whole*(1-math.Sqrt((c.plan.Card.Turn-turn)/left))-rateOver/2), true
}

// untilTurn takes the middle of two predictions: what the turn rate and its change give, and the
// time the reference path takes over the same angles, at the pace of now. The first sees what
// this pilot does, the second what comes later; it may correct the first by a third.
func (c *Coach) untilTurn(l *leg, turn float64) (s float64, ok bool) {
	w, _ := c.ring.trend(c.now - rateOver)
	rate, left := w.turnRate*l.side, turn-l.cur.Turn
	if rate <= 0.5 {
		return 0, false
	}
	s = left / rate
	if growth := c.rateGrowth(l, &w); growth != 0 {
		s = accelerated(left, rate, growth)
	}
	if path := c.plan.Path; path != nil {
		back := l.cur.Turn - rate*rateOver/2 // where the rate was measured
		a, b := path.At(back-2), path.At(back+2)
		if dt := b.Time - a.Time; dt > 0 {
			far := (path.At(turn).Time - path.At(l.cur.Turn).Time) * (b.Turn - a.Turn) / dt / rate
			s = far + math.Max(-0.3*far, math.Min(0.3*far, (s-far)/2))
		}
	}
	return math.Max(0, s), true
}

// rateOver is the stretch over which turn and roll rate are measured, s.
const rateOver = 0.5

// rateGrowth is how fast the turn rate grows, as a share of itself a second. In a turn of load
// factor n it is g·n·sin(bank)/V: it grows with the bank and the pull, and falls with the speed.
func (c *Coach) rateGrowth(l *leg, w *trend) float64 {
	const rad = math.Pi / 180
	sin, cos := math.Sincos(math.Max(l.cur.Sample.Value(stream.Bank), 8) * rad)
	growth := w.bankRate * l.side * rad * cos / sin
	if v, ok := l.cur.Sample.Get(stream.Airspeed); ok && v > 0 {
		growth -= w.speedRate / v
	}
	if n, ok := l.cur.Sample.Get(stream.NormalLoad); ok && n > 0.5 {
		growth += w.loadRate / n
	}
	return growth
}

// accelerated is the time to turn by an angle when the rate keeps growing as it does; the rate
// was measured over rateOver, so it is that of half as long ago.
func accelerated(left, rate, growth float64) float64 {
	now := rate * math.Max(0.2, 1+growth*rateOver/2)
	if d := now*now + 2*rate*growth*left; d > 0.1*now*now {
		return 2 * left / (now + math.Sqrt(d))
	}
	return 2 * left / (1.3 * now) // it would stop turning before
}

// untilExit predicts when the wings come level, from the bank coming off at the rate of now, and
// from the turn that is left when a steady roll-out uses it up. How pilots fly the last degrees
// differs, so it is a rough one until the wings are nearly level.
func (c *Coach) untilExit(l *leg, turn float64) (s float64, ok bool) {
	w, _ := c.ring.trend(c.now - rateOver)
	off, rate := -w.bankRate*l.side, w.turnRate*l.side
	if l.exiting || rate < 0.3 || l.cur.Turn < turn-endMargin {
		return 0, false
	}
	rolled, turned := c.exits(l, turn, off, rate)
	if off < 0.5 {
		return turned, true
	}
	return (rolled + turned) / 2, true
}

// exits returns both predictions of the exit, s.
func (c *Coach) exits(l *leg, turn, off, rate float64) (rolled, turned float64) {
	bank := l.cur.Sample.Value(stream.Bank)
	rolled = math.Max(0, bank-levelBank) / off
	return rolled, math.Max(0, 2*(turn-l.cur.Turn)/rate*(1-levelBank/math.Max(bank, levelBank)))
}
