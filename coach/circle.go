package coach

import (
	"math"

	"halfturn/coach/callout"
	"halfturn/stream"
)

// shallowest is the share of the bank that commits a turn from which on one that came all the way round was meant as the
// maneuver: a turn at standard rate is flown at less (15 % of the true airspeed, FAA-H-8083-15; the share itself is
// common practice, no source).
const shallowest = 0.6

// A circle is a turn that has not committed, since the flight was last steady.
type circle struct {
	ok       bool
	from     float64 // unwrapped heading where it began
	steepest float64 // ° of bank
	told     float64 // when one ended that was too shallow to count, NaN when none did
	side     string  // to which side that was
}

// TooShallow says of a turn to a side that it is no leg.
func TooShallow(side string) string { return "the turn to the " + side + " was too shallow to count" }

// watchCircle says so when a whole turn, plainly meant as a leg, was too shallow to be one. Only maneuvers of a full
// circle by bank are flown by nobody who means something else.
func (c *Coach) watchCircle() {
	card := c.plan.Card
	if card.Commit.Bank == 0 || card.Turn < 360 {
		return
	}
	o := &c.circle
	if !o.ok && c.rest.ok {
		o.ok, o.from, o.steepest = true, c.rest.turned, 0
	}
	if c.level.until != c.now || !c.level.ok {
		o.steepest = math.Max(o.steepest, math.Abs(c.ring.back(0).sample.Value(stream.Bank)))
		return
	}
	turned := c.level.turned - o.from
	if o.ok && math.Abs(turned) >= card.Turn-endMargin && o.steepest >= shallowest*card.Commit.Bank {
		o.told, o.side = c.now, direction(turned)
		k := &Callout{Time: round(c.now, 3), Kind: Result, ID: "shallow", Tone: Missed, Turn: round(math.Abs(turned), 1)}
		if k.Words = "Too shallow to count"; !c.voice.Say(c.now, callout.ResultLevel, k.Words) {
			k.Words = ""
		}
		c.emit(k)
	}
	o.ok, o.from, o.steepest = true, c.level.turned, 0
}
