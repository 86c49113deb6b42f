package judge

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/leg"
	"halfturn/stream"
)

// shallowest is the share of the committing bank that a full turn needs to be taken for an attempt at the maneuver
// (common practice, no source). A turn at standard rate has less: 15 % of the true airspeed (FAA-H-8083-15).
const shallowest = 0.6

// A circle is a turn that has not committed, since the flight was last steady.
type circle struct {
	ok       bool
	from     float64 // unwrapped heading where it began, °
	steepest float64 // ° of bank
	reported float64 // when one ended that was too shallow to count; NaN when none did
	side     string  // to which side that was
}

// watchCircle reports a full turn that was plainly meant as a leg and too shallow to be one. It does so only for full
// circles: half a circle at that bank may have any other reason.
func (j *Judge) watchCircle() {
	card := j.opt.Plan.Card
	if card.Commit.Bank == 0 || card.Turn < 360 {
		return
	}
	o, now := &j.circle, j.track.Now
	if ref := j.level.Reference(); !o.ok && ref.Joined {
		o.ok, o.from, o.steepest = true, ref.Turned, 0
	}
	flight := j.level.Flight()
	if flight.Until != now || !flight.OK {
		o.steepest = max(o.steepest, math.Abs(j.track.Past.Value(0, stream.Bank)))
		return
	}
	turned := flight.Turned - o.from
	if o.ok && math.Abs(turned) >= card.Turn-leg.EndMargin && o.steepest >= shallowest*card.Commit.Bank {
		o.reported, o.side = now, coach.Direction(turned)
		j.talk.Shallow(math.Abs(turned))
	}
	o.ok, o.from, o.steepest = true, flight.Turned, 0
}
