package coach

import (
	"math"

	"halfturn/stream"
)

// How the beginning of a leg is looked for. All are common practice, no source; proved on recorded flights and on
// swept entries.
const (
	leftLevel = 3.0  // ° off level: no hand that holds it
	leaving   = 5.0  // s in which that is reached from level, at most
	atLevel   = 0.5  // ° off level: not left yet
	standOver = 0.75 // s over which a value is seen to stand
	standRate = 0.3  // °/s: less is standing

	alongBefore = 0.5 // s before and
	alongAfter  = 1.0 // s after a value was seen to have left level: its slope there leads back to level,
	alongLeast  = 1.2 // °/s, not longer than by this

	lookBack = 12.0 // s between the nose leaving level and the bank leaving it, at most

	turnBefore = 10.0 // ° of bank that came off again: that was another turn

	slowTurn = 1.0  // ° turned before the bank has visibly left level
	slowRate = 0.35 // °/s that count as turning
	slowStep = 0.5  // s over which that is looked at
	slowLag  = 0.7  // s from the first bank to that

	stoodFor  = 1.0  // s in which a bank is held before the nose leaves level
	stoodRate = 3.0  // °/s at most in that time
	pulled    = 1.2  // °/s of a nose that is then pulled up
	brisk     = 5.0  // °/s of a roll to it that is an act of its own
	briskLag  = 0.15 // s that such a roll may take to stop
	brought   = 0.8  // share of the bank that it brings
)

// departure looks back for where the leg began: bank leaving level toward the turn, or before that, where the maneuver
// climbs, the nose. Where the heading had already begun to come round by then, the roll-in was too slow to be seen so:
// the leg began where the heading began to move.
func (c *Coach) departure(side float64) float64 {
	ref, climbs := c.from(), c.plan.Card.Commit.Bank == 0
	rise := func(p *past) float64 { return p.sample.Value(stream.Pitch) - ref.pitch }
	left := 0.0
	tilt := func(p *past) float64 { return side*(p.sample.Value(stream.Bank)-ref.bank) - left }
	left = c.leftFromTurn(tilt)
	nose, up := c.leftLevel(rise)
	bank, rolled := c.leftLevel(tilt)
	earliest := math.Inf(-1)
	if c.rest.ok {
		bank, earliest = c.throughLevel(tilt), c.ended-levelToEnd
	}
	switch {
	case climbs && nose < bank && nose > math.Max(bank-lookBack, earliest):
		return nose
	case c.rest.ok:
		return bank
	case climbs && c.slope(nose, up, rise) > pulled && c.heldBefore(nose, rolled, tilt):
		return nose
	case bank > ref.until && side*(c.turnedAt(bank)-ref.turned) > slowTurn:
		return c.turningSince(bank, ref.until-steadyOver, side)
	}
	return bank
}

// leftFromTurn returns the bank that was left from a turn before, whose wings never came level again; 0 when they did.
func (c *Coach) leftFromTurn(tilt func(*past) float64) float64 {
	least := math.Inf(1)
	for i := range c.ring.n {
		v := tilt(c.ring.back(i))
		if v < leftLevel {
			break
		}
		least = math.Min(least, v)
		if v > least+turnBefore {
			return least
		}
	}
	return 0
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

// leftLevel returns when a value left level for good: from where it was last seen within 3° of it back to where it
// stood, or was level; or along its slope, whichever is earlier.
func (c *Coach) leftLevel(value func(*past) float64) (left, seen float64) {
	i := 0
	for i < c.ring.n-1 && value(c.ring.back(i)) >= leftLevel {
		i++
	}
	seen = c.ring.back(i).time()
	along := seen - leftLevel/math.Max(c.slope(seen-alongBefore, seen+alongAfter, value), alongLeast)
	for before := i; i < c.ring.n-1; i++ {
		now := c.ring.back(i)
		before = c.older(before, now.time()-standOver)
		v := value(now)
		if v <= atLevel || seen-now.time() > leaving || v-value(c.ring.back(before)) < standRate*standOver {
			break
		}
	}
	return math.Min(c.ring.back(i).time(), along), seen
}

// heldBefore tells whether the wings were rolled out of level briskly and held there, and only then the nose left
// level: the leg began out of a bank that is no part of it. A gentle first roll is a part, however long it stands.
func (c *Coach) heldBefore(nose, rolled float64, tilt func(*past) float64) bool {
	n, sum := 0.0, 0.0
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
	if !(held > leftLevel && held < steadyTilt) || nose-stoodFor <= rolled {
		return false
	}
	reached := rolled + (brought*held-leftLevel)/brisk + briskLag
	return tilt(c.pastAt(reached)) > brought*held && math.Abs(c.slope(nose-stoodFor, nose, tilt)) < stoodRate
}

// turningSince walks back from a time to where the heading began to come round to the side, not beyond another.
func (c *Coach) turningSince(t, oldest, side float64) float64 {
	oldest = math.Max(oldest, c.ring.back(c.ring.n-1).time())
	for t-slowStep > oldest && side*(c.turnedAt(t)-c.turnedAt(t-slowStep)) > slowRate*slowStep {
		t -= slowStep / 2
	}
	return math.Max(oldest, t-slowLag)
}

// slope returns the slope of a value over a stretch of the ring, fitted, per second; 0 when too little is in it.
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
	d := n*stt - st*st
	if d < 1e-9 {
		return 0
	}
	return (n*stv - st*sv) / d
}

// older returns the first place in the ring, from i on, that is not after a time; the last when there is none.
func (c *Coach) older(i int, t float64) int {
	for i < c.ring.n-1 && c.ring.back(i).time() > t {
		i++
	}
	return i
}

// pastAt returns the entry of the ring at a time.
func (c *Coach) pastAt(t float64) *past { return c.ring.back(c.older(0, t)) }

// turnedAt returns the unwrapped heading at a time in the ring.
func (c *Coach) turnedAt(t float64) float64 { return c.pastAt(t).turned }
