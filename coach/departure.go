package coach

import (
	"math"

	"halfturn/stream"
)

// How the beginning of a leg is looked for. Common practice, no source; proved on recorded flights.
const (
	leftLevel   = 3.0  // ° off level: no hand that holds it
	leaving     = 5.0  // s in which that is reached from where level was left, at most
	atLevel     = 0.5  // °
	standOver   = 0.75 // s over which it is looked at whether a value stands
	alongBefore = 0.5
	alongAfter  = 1.0
	alongLeast  = 1.2
	standRate   = 0.3  // °/s: less is standing
	lookBack    = 12.0 // s between the nose leaving level and the bank leaving it, at most

	stoodFor  = 1.0 // s in which a bank is held before the nose leaves level
	stoodRate = 2.0 // °/s, at most, in that time
	pulled    = 2.0 // s in which the nose then comes up by 3°
	brisk     = 4.5 // °/s of a roll to it that is an act of its own
	brought   = 0.8 // of it, in the time of such a roll

	slowTurn = 1.0  // ° turned before bank or nose has visibly left level
	slowRate = 0.35 // °/s that count as turning
	slowStep = 0.5  // s over which that is looked at
	slowLag  = 0.7  // s from the first bank to that
)

// departure looks back for where the leg began: bank leaving its level value toward the turn, or before that the
// nose. Where the heading had already begun to come round by then, the roll-in was too slow to be seen so: the leg
// began where the heading began to move.
func (c *Coach) departure(side float64) float64 {
	ref, climbs := c.from(), c.plan.Card.Commit.Bank == 0
	nose, up := c.leftLevel(func(p *past) float64 { return p.sample.Value(stream.Pitch) - ref.pitch })
	tilt := func(p *past) float64 { return side * (p.sample.Value(stream.Bank) - ref.bank) }
	bank, earliest := 0.0, math.Inf(-1)
	if c.rest.ok {
		bank, earliest = c.throughLevel(tilt), c.ended-levelToEnd
	} else {
		bank, _ = c.leftLevel(tilt)
	}
	switch {
	case climbs && nose < bank && nose > math.Max(bank-lookBack, earliest):
		return nose
	case c.rest.ok:
		return bank
	case climbs && up-nose < pulled && c.stopped(bank, nose, tilt):
		return nose
	case bank > ref.until && side*(c.turnedAt(bank)-ref.turned) > slowTurn:
		return c.turningSince(bank, ref.until-steadyOver, side)
	}
	return bank
}

// throughLevel returns when bank passed through level from one side to the other, where one leg runs into the next.
func (c *Coach) throughLevel(tilt func(*past) float64) float64 {
	i := 0
	for i < c.ring.n-1 && tilt(c.ring.back(i)) > -leftLevel {
		i++
	}
	for i > 0 && tilt(c.ring.back(i)) < 0 {
		i--
	}
	return c.ring.back(i).time()
}

// stopped tells whether the wings were rolled out of level briskly, held there, and only then the nose left level: the
// leg began out of a bank that was not yet part of it. A gentle first roll is part of it, however long it stands.
func (c *Coach) stopped(rolled, nose float64, tilt func(*past) float64) bool {
	var n, sum float64
	for i := range c.ring.n {
		p := c.ring.back(i)
		if p.time() < nose-stoodFor {
			break
		}
		if p.time() <= nose {
			n, sum = n+1, sum+tilt(p)
		}
	}
	held := sum / n
	if !(held > levelOff && held < steadyTilt && nose-stoodFor > rolled) || math.Abs(c.slope(nose-stoodFor, nose, tilt)) > stoodRate {
		return false
	}
	return tilt(c.pastAt(rolled+held/brisk)) > brought*held
}

// turningSince walks back from a time to where the heading began to come round to the side, not beyond another.
func (c *Coach) turningSince(t, oldest, side float64) float64 {
	oldest = math.Max(oldest, c.ring.back(c.ring.n-1).time())
	for t-slowStep > oldest && side*(c.turnedAt(t)-c.turnedAt(t-slowStep)) > slowRate*slowStep {
		t -= slowStep / 2
	}
	return math.Max(oldest, t-slowLag)
}

// leftLevel returns when a value left level for good: from where it was last seen within 3°, back to where it stood,
// or to level.
func (c *Coach) leftLevel(value func(*past) float64) (left, seen float64) {
	i := 0
	for i < c.ring.n-1 && value(c.ring.back(i)) >= leftLevel {
		i++
	}
	seen = c.ring.back(i).time()
	along := seen - leftLevel/math.Max(c.slope(seen-alongBefore, seen+alongAfter, value), alongLeast)
	for i < c.ring.n-1 {
		now := c.ring.back(i)
		before := c.pastAt(now.time() - standOver)
		if value(now) <= atLevel || seen-now.time() > leaving || value(now)-value(before) < standRate*standOver {
			break
		}
		i++
	}
	return math.Min(c.ring.back(i).time(), along), seen
}

// slope returns the slope of a value over a stretch of the ring, fitted.
func (c *Coach) slope(from, to float64, value func(*past) float64) float64 {
	var n, st, stt, sv, stv float64
	for i := range c.ring.n {
		p := c.ring.back(i)
		if p.time() < from {
			break
		}
		if p.time() > to {
			continue
		}
		t, v := p.time()-from, value(p)
		n, st, stt, sv, stv = n+1, st+t, stt+t*t, sv+v, stv+t*v
	}
	return (n*stv - st*sv) / (n*stt - st*st)
}

// newer returns the first place in the ring, from i on, that is not before a time.
func (c *Coach) newer(i int, t float64) int {
	for i > 0 && c.ring.back(i).time() < t {
		i--
	}
	return i
}

// pastAt returns the entry of the ring at a time.
func (c *Coach) pastAt(t float64) *past {
	i := 0
	for i < c.ring.n-1 && c.ring.back(i).time() > t {
		i++
	}
	return c.ring.back(i)
}

// turnedAt returns the unwrapped heading at a time in the ring.
func (c *Coach) turnedAt(t float64) float64 { return c.pastAt(t).turned }
