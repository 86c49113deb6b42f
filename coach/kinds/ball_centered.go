package kinds

import (
	"fmt"
	"math"

	"halfturn/coach/check"
	"halfturn/stream"
)

var ballCenteredKind = &check.Kind{
	Name:   "ball-centered",
	Says:   "share of time with the ball within a distance of the middle, and its worst moment",
	Needs:  []string{"channel", "within", "from", "to"},
	Allows: []string{"smooth"},
	Valid:  oneOf(check.Slip, "ball"),
	Where: func(s *check.Spec) string {
		q := s.Quantity()
		return fmt.Sprintf("share of time with the %s within %g %s of the middle,%s", q.Title, s.Within, q.Unit, s.Span())
	},
	Unit: in("ratio"),
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return newBallCentered(s, f)
	},
	Bands:  check.Tolerances,
	Looks:  check.OnAverage,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// ballCentered gives the share of time (0 to 1) in a span in which the ball stays within a
// distance of the middle. Its place is the worst moment; its note says whether that was a slip
// or a skid, which rudder was missing, and what part of it the propeller is known for.
//
// The law: ball to the inside of the turn is a slip, to the outside a skid, and the pedal on the
// ball's side is pressed (Pilot's Handbook of Aeronautical Knowledge and Instrument Flying Handbook).
type ballCentered struct {
	span
	facts              *check.Facts
	within, good, time float64
	worst              float64 // ball's widths, positive toward the turn
	at                 float64
	slow, leveling     bool // at the worst moment: slower than the entry, bank coming off
}

func newBallCentered(spec *check.Spec, f *check.Facts) *ballCentered {
	return &ballCentered{span: newSpan(spec, f), facts: f, within: spec.Within}
}

func (b *ballCentered) Step(m *check.Moment) {
	v, dt, ok := b.read(m)
	if !ok {
		return
	}
	b.time += dt
	if math.Abs(v) <= b.within {
		b.good += dt
	}
	if math.Abs(v) > math.Abs(b.worst) {
		b.worst, b.at = v, m.Turn
		now, ok := m.Sample.Get(stream.Airspeed)
		then, had := b.facts.Entry.Sample.Get(stream.Airspeed)
		b.slow = ok && had && now < then-5 // kt, more than a held speed wanders
		roll, ok := m.Sample.Get(stream.RollRate)
		b.leveling = ok && roll < -1 // °/s
	}
}

func (b *ballCentered) Measure(*check.Moment) check.Measure {
	if b.time == 0 {
		return b.nothing()
	}
	found := check.Found(b.good/b.time, b.at)
	if math.Abs(b.worst) > b.within {
		found.Note = b.note()
	}
	return found
}

// note words the worst moment.
func (b *ballCentered) note() string {
	motion, pedal := "slip", "right"
	if b.worst < 0 {
		motion = "skid"
	}
	side := b.facts.Side
	if side == 0 {
		side = 1
	}
	if b.worst*side < 0 {
		pedal = "left"
	}
	return fmt.Sprintf("worst at %.0f°: %s, the ball %s to the %s; more %s rudder%s",
		b.at, motion, widths(math.Abs(b.worst)), pedal, pedal, b.propeller(pedal, side))
}

// propeller says what the trade expects of right against left: as the speed falls, a propeller
// that turns clockwise as seen from the seat wants more right rudder (Airplane Flying Handbook,
// chandelle, FAA-H-8083-3 ch. 10); the rest is common practice, no source. Other propellers are the mirror
// image; jets have none of it.
func (b *ballCentered) propeller(pedal string, side float64) string {
	wanted := map[string]string{"clockwise": "right", "counterclockwise": "left"}[b.facts.Aircraft.Rotation]
	if wanted == "" || b.facts.Aircraft.Engine == "jet" || !b.slow {
		return ""
	}
	away := (side > 0) != (wanted == "right") // the leg turns the way the propeller pulls
	switch {
	case pedal != wanted:
		return fmt.Sprintf(". Ease the %s rudder held against the propeller first", wanted)
	case away && b.leveling:
		return fmt.Sprintf(". Rolling out of this side takes a lot of %s rudder: the propeller pulls the other way, most when slow", wanted)
	case away:
		return fmt.Sprintf(". The propeller asks for %s rudder as the speed falls, also in this turn", wanted)
	}
	return fmt.Sprintf(". The propeller asks for more %s rudder as the speed falls, most in climbing turns to the %s", wanted, wanted)
}

// widths words a distance of the ball.
func widths(v float64) string {
	switch {
	case v < 0.375:
		return "a quarter of its width"
	case v < 0.625:
		return "half its width"
	case v < 0.875:
		return "three quarters of its width"
	case v < 1.25:
		return "its width"
	}
	return fmt.Sprintf("%.1f widths", v)
}
