// Package check holds what every check has: its spec on a card, the quantities it can judge, the moments of a leg it
// looks at, and how a measured value is graded. What differs from one kind of check to the next is a Kind; the kinds
// there are stand in package kinds. It is pure.
package check

import (
	"math"

	"halfturn/coach/aircraft"
	"halfturn/coach/ground"
	"halfturn/coach/spectral"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

// A Moment is the flight at one sample of a leg. Everything with a side (bank, ball, roll and
// yaw rate, sideslip, lateral load, aileron, rudder) is positive toward the turn, so that
// left and right legs are judged by the same numbers.
type Moment struct {
	Turn   float64 // ° since the entry heading, positive in the direction of the turn
	Out    float64 // s since the wings came level at the exit; 0 before
	Sample stream.Sample
}

// Set makes m the moment of a sample in a turn to the right (side 1) or left (−1).
func (m *Moment) Set(s *stream.Sample, turn, side float64) {
	m.Turn = turn
	m.Sample = *s
	if side < 0 {
		m.Sample.Mirror()
	}
}

// Lerp makes m the moment a share f of the way from a to b.
func (m *Moment) Lerp(a, b *Moment, f float64) {
	m.Turn = a.Turn + f*(b.Turn-a.Turn)
	m.Sample.Lerp(&a.Sample, &b.Sample, f)
}

// Time returns the stream time of the moment in seconds.
func (m *Moment) Time() float64 { return m.Sample.Value(stream.Time) }

// Facts is what is known about a leg besides its moments.
type Facts struct {
	Aircraft aircraft.Aircraft // with its numbers for this maneuver
	Known    bool              // an aircraft card was chosen
	Side     float64           // 1 is a turn to the right, −1 to the left
	Nose     float64           // °, highest nose above level pitch that the reference path needs; NaN when unknown
	Dive     float64           // °, lowest nose of the reference path, from level pitch; NaN when unknown
	Duration float64           // s, of the reference path; NaN when unknown
	Climb    float64           // ft that the reference path gains from entry to exit; NaN when unknown
	Meant    Meant             // what the leg was meant to be, where its card leaves a choice
	Entry    Moment            // means over the set-up; Turn 0
	Setup    map[string]float64

	Common *Common // shared by the checks of one station; nil works

	Chosen *ground.Fixed // the point on the ground that was chosen to fly about; nil where none was

	way      *ground.Way // of the leg, for the checks that look at the ground
	passings []*Passing
	room     *room // of the passings
}

// Meant is the bank and the turn that a leg was meant to be flown at and through, both in °; 0 is not known.
type Meant struct{ Bank, Turn float64 }

// A Common is what the checks of several cards work out alike, at the same samples of one station. The zero value is
// ready for use. It is not safe for concurrent use.
type Common struct {
	arcs   spectral.Memory
	decays []decay // of the last interval, one for each time constant
}

// A decay is what a time constant keeps over an interval, both in s.
type decay struct{ dt, constant, kept float64 }

// ArcLength is [spectral.ArcLength], remembered.
func (c *Common) ArcLength(v []float64, fs float64) float64 {
	if c == nil {
		return spectral.ArcLength(v, fs)
	}
	return c.arcs.ArcLength(v, fs)
}

// Decay returns what an exponential smoothing with a time constant keeps of its state over an interval, both in s.
func (c *Common) Decay(dt, constant float64) float64 {
	if c == nil {
		return math.Exp(-dt / constant)
	}
	if len(c.decays) > 0 && c.decays[0].dt != dt {
		c.decays = c.decays[:0]
	}
	for i := range c.decays {
		if c.decays[i].constant == constant {
			return c.decays[i].kept
		}
	}
	kept := math.Exp(-dt / constant)
	c.decays = append(c.decays, decay{dt, constant, kept})
	return kept
}

// Way returns the way over the ground that the checks of the leg share.
func (f *Facts) Way() *ground.Way {
	if f.way == nil {
		f.way = &ground.Way{}
	}
	return f.way
}

// Passing returns the passing of a turn angle that the checks of the leg share.
func (f *Facts) Passing(turn float64) *Passing {
	for _, p := range f.passings {
		if p.turn == turn {
			return p
		}
	}
	if f.room == nil {
		f.room = &room{[]*[4]Moment{{}}}
	}
	p := &Passing{room: f.room}
	p.Await(turn)
	f.passings = append(f.passings, p)
	return p
}

// A Measure is what a judge found.
type Measure struct {
	OK     bool
	Value  float64
	At     float64       // the turn angle it belongs to, NaN when it has none
	Off    float64       // how far the value may be off, for samples that come slowly
	Reason phrase.Phrase // why nothing was measured
	Note   phrase.Phrase // what more there is to say of it
}

// None is the measure of what could not be measured, and why.
func None(reason phrase.Phrase) Measure {
	return Measure{At: math.NaN(), Reason: reason}
}

// Found is the measure of a value at a turn angle; NaN is none.
func Found(v, at float64) Measure { return Measure{OK: true, Value: v, At: at} }

// A Judge measures one thing over a leg. Step is called for every moment from the entry on,
// without allocating; Measure may be called at any time and judges what was seen so far.
// exit is nil while the leg is being flown and for a leg that never came to its end.
type Judge interface {
	Step(m *Moment)
	Measure(exit *Moment) Measure
}

// SeriesFacts is what a check of a series sees of it.
type SeriesFacts struct {
	Finished []FinishedLeg // in the order in which they were flown
	Legs     int           // as many as the card asks for
	Turn     float64       // ° of a whole leg
	Cut      bool          // something other than the pilot ended the series
}

// A FinishedLeg is what a check of a series sees of a leg.
type FinishedLeg struct {
	Direction   string                   // "right" or "left"
	Entry, Exit float64                  // °, headings
	Value       func(id string) *float64 // of a check of the leg; nil where it was not measured
	// At returns a channel at the entry or the exit; ok is false where the leg lacks it.
	At func(channel string, exit bool) (v float64, ok bool)
}
