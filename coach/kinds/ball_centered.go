package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

var ballCenteredKind = &check.Kind{
	Name:   "ball-centered",
	Says:   "share of time with the ball within a distance of the middle, and its worst moment",
	Needs:  []string{"channel", "within", "from", "to"},
	Allows: []string{"smooth"},
	Valid:  oneOf(check.Slip, "ball"),
	Where: func(s *check.Spec, in *phrase.Language) string {
		return over(s, in, in.Wordf("share of time with the %s within %s of the middle", quantity(s, in),
			amount(s, in)))
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

// ballCentered measures the share of time (0 to 1) in a span in which the ball stays within a distance of the middle.
// Its place is the worst moment; its note says whether that was a slip or a skid, which rudder was missing, and what
// the propeller has to do with it.
//
// A ball to the inside of the turn is a slip, to the outside a skid, and the pedal on the side of the ball is to be
// pressed (Pilot's Handbook of Aeronautical Knowledge and Instrument Flying Handbook).
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

// note describes the worst moment.
func (b *ballCentered) note() phrase.Phrase {
	motion := phrase.Slip.Of()
	if b.worst < 0 {
		motion = phrase.Skid.Of()
	}
	side := b.facts.Side
	if side == 0 {
		side = 1
	}
	right := b.worst*side >= 0
	widths := widths(math.Abs(b.worst))
	ball := phrase.BallLeft.Of(
		phrase.Number("turn", b.at, 0, "°"), phrase.Part("motion", motion), phrase.Part("widths", widths))
	if right {
		ball = phrase.BallRight.Of(
			phrase.Number("turn", b.at, 0, "°"), phrase.Part("motion", motion), phrase.Part("widths", widths))
	}
	if propeller := b.propeller(right, side > 0); propeller != nil {
		return phrase.Propeller.Of(phrase.Part("ball", ball), phrase.Part("propeller", propeller.Of()))
	}
	return ball
}

// ofPropeller says what a propeller that asks for right rudder, and one that asks for left rudder, does to it.
var ofPropeller = map[bool]struct{ ease, out, also, more *phrase.Definition }{
	true:  {phrase.EaseRight, phrase.OutRight, phrase.AlsoRight, phrase.MoreRight},
	false: {phrase.EaseLeft, phrase.OutLeft, phrase.AlsoLeft, phrase.MoreLeft},
}

// propeller says what the propeller does to the rudder needed, nil for nothing: as the speed falls, one that turns
// clockwise as seen from the seat needs more right rudder (Airplane Flying Handbook, chandelle, FAA-H-8083-3 ch. 10);
// the rest is common practice, no source. Other propellers are the mirror image; jets have no such effect. right tells
// which pedal is wanted, and toRight where the leg turns.
func (b *ballCentered) propeller(right, toRight bool) *phrase.Definition {
	clockwise := b.facts.Aircraft.Rotation == "clockwise"
	known := clockwise || b.facts.Aircraft.Rotation == "counterclockwise"
	if !known || b.facts.Aircraft.Engine == "jet" || !b.slow {
		return nil
	}
	says := ofPropeller[clockwise]
	away := toRight != clockwise // the leg turns the way the propeller pulls
	switch {
	case right != clockwise:
		return says.ease
	case away && b.leveling:
		return says.out
	case away:
		return says.also
	}
	return says.more
}

// widths is a distance of the ball in words.
func widths(v float64) phrase.Phrase {
	switch {
	case v < 0.375:
		return phrase.QuarterWidth.Of()
	case v < 0.625:
		return phrase.HalfWidth.Of()
	case v < 0.875:
		return phrase.ThreeQuarters.Of()
	case v < 1.25:
		return phrase.OneWidth.Of()
	}
	return phrase.Widths.Of(phrase.Number("widths", v, 1, ""))
}
