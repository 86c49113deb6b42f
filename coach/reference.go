package coach

import (
	"math"

	"halfturn/coach/aero"
	"halfturn/stream"
)

// A reference is the level flight before a leg, from which it departs.
type reference struct {
	ok, level   bool    // there is one, flown with the wings level
	turned      float64 // unwrapped heading
	bank, pitch float64 // at which the heading and the height stand
	until       float64 // when it was last renewed
	altitude    float64
	place       place
	heading     float64 // as sent
}

// What counts as steady flight, over two seconds. Common practice, no source; proved on recorded flights.
const (
	steadyOver = 2.0  // s
	steadyTilt = 12.0 // °: no steady flight beyond
	steadyRoll = 1.0  // °/s
	steadyTurn = 2.0  // °/s
)

// What of it counts as level: what comes of a hand that holds the wings level is less, a gentle first roll is more.
const (
	levelOff   = 4.5  // ° of bank off the one at which the heading stands
	levelTurn  = 2.0  // °: the bank of a level turn as fast as the heading moves
	levelNose  = 0.5  // °/s
	levelStale = 15.0 // s after which steady flight that is not level will do,
	levelWorn  = 6.0  // ° of bank in it, at most,
	levelLeft  = 45.0 // ° of turn after which it will do
)

// A climb of more than this, with airspeed falling by more than that, is not taken for steady
// flight (common practice, no source; proved on recorded lazy eights). Level flight is like that
// now and then; the reference then stays as it was a moment before.
const (
	zoomClimb = 100.0 // ft/min
	zoomSpeed = 0.12  // kt/s
)

// energy are the channels that tell a zoom.
const energy = stream.Set(1<<stream.Altitude | 1<<stream.Airspeed)

// steady renews the reference in steady level flight. A roll-in, however gentle, leaves it where it was: the bank is
// off by then, or the heading comes round. Steady flight that is not level (a wing held low, a slow turn) becomes the
// reference only when there has been none for a while.
func (c *Coach) steady() {
	w, full := c.ring.trend(c.now - steadyOver)
	zooming := w.climb > zoomClimb && w.speedRate < -zoomSpeed
	if !full || zooming || math.Abs(w.bank) >= steadyTilt ||
		math.Abs(w.bankRate) >= steadyRoll || math.Abs(w.turnRate) >= steadyTurn {
		return
	}
	now, turning, was := &c.ring.back(0).sample, w.turningBank(), c.from()
	c.trim.add(w.bank - turning)
	bank := c.trim.bank
	if math.Abs(w.bank-bank) >= levelOff {
		bank = w.bank
	}
	straight := bank == c.trim.bank && math.Abs(turning) < levelTurn
	level := straight && math.Abs(w.noseRate) < levelNose
	if c.rest.ok { // a leg that ran on would be zooming
		was.level = !straight || now.Has&energy != energy
	}
	if !level {
		stale := c.now-was.until > levelStale && math.Abs(w.bank) < levelWorn
		if was.level && !stale && math.Abs(w.turned-was.turned) < levelLeft {
			return
		}
	}
	c.level = reference{ok: true, level: level, turned: w.turned, bank: bank, pitch: w.pitch - w.path(), until: c.now,
		altitude: now.Value(stream.Altitude), place: placeOf(now), heading: now.Value(stream.Heading)}
	c.rest = rest{}
}

// from is what a leg would depart from: the exit of the leg before that ran into it, else level flight.
func (c *Coach) from() reference {
	if c.rest.ok {
		return reference{ok: true, level: true, turned: c.rest.turned, pitch: c.rest.pitch, until: c.ended}
	}
	return c.level
}

// A trim is the bank at which the heading stands: a wing is held a little low against a rudder that is not in trim.
type trim struct{ bank, n float64 }

// How quickly a trim follows, and how far, in what is added ten times a second (common practice, no source).
const (
	trimFirst = 10.0
	trimOver  = 80.0
	mostTrim  = 4.0 // °
)

// add takes a bank less that which turns as fast as the heading moves.
func (t *trim) add(bank float64) {
	t.n = math.Min(t.n+1, trimOver)
	t.bank += (bank - t.bank) / (t.n + trimFirst)
	t.bank = math.Max(-mostTrim, math.Min(mostTrim, t.bank))
}

// usualSpeed stands for that of a stream that sends none, kt: that of the slow trainers.
const usualSpeed = 100.0

// turningBank is the bank of a level turn as fast as the heading moves, °: tan = ωV/g (Pilot's Handbook of Aeronautical
// Knowledge, aerodynamics of flight; see [aero.TurnRate]).
func (w *trend) turningBank() float64 {
	return math.Atan(w.turnRate*degree*w.speed*aero.FeetPerSecond/aero.Gravity) / degree
}

// path is the angle of the flight path over the horizon, °; 0 when it is not known.
func (w *trend) path() float64 {
	return math.Asin(math.Max(-1, math.Min(1, w.climb/(w.speed*60*aero.FeetPerSecond)))) / degree
}
