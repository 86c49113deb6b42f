package judge

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/maneuver"
	"halfturn/stream"
)

// shallowest is the share of the card's committing bank from which a full circle counts as an attempt at the maneuver
// (common practice, no source). A turn at standard rate has less bank: 15 % of the true airspeed (FAA-H-8083-15).
const shallowest = 0.6

// A circle is the turn since the flight was last steady, as long as it has not committed.
type circle struct {
	ok       bool
	from     float64 // unwrapped heading where it began, °
	steepest float64 // ° of bank
	reported float64 // stream time at which one too shallow to count ended; NaN without one
	side     string  // of that one
}

// watchCircle reports a full circle that was meant as a leg and too shallow to be one. Shorter turns at that bank may
// have any other purpose.
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
	if o.ok && math.Abs(turned) >= card.Turn-maneuver.ExitMargin && o.steepest >= shallowest*card.Commit.Bank {
		o.reported, o.side = now, coach.Direction(turned)
		j.talk.Shallow(math.Abs(turned))
	}
	o.ok, o.from, o.steepest = true, flight.Turned, 0
}
