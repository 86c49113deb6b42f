package coach

import (
	"math"

	"halfturn/coach/callout"
	"halfturn/stream"
)

// shallowest is the share of the committing bank that a turn all the way round needs to be taken for an attempt at the
// maneuver (common practice, no source). A turn at standard rate has less: 15 % of the true airspeed (FAA-H-8083-15).
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

// watchCircle says so when a whole turn that was plainly meant as a leg was too shallow to be one. It does so for
// turns of a full circle alone: half a circle at that bank may have any other reason.
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
