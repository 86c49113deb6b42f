// Package coach finds maneuvers in samples, grades them, and decides what to say. It is a
// pure function of the samples: no clock, no input or output, no goroutine, no global state.
// The same samples give the same events, live and long after.
//
// For simulator practice only.
package coach

import (
	"math"

	"halfturn/coach/callout"
	"halfturn/stream"
)

// Options say what is flown, and by whom it is heard.
type Options struct {
	Plan  *Plan
	Deck  float64 // ft MSL, a hard deck besides the card's height above ground; 0 is none
	Voice callout.Options
	// Explain finds the causes of what was missed; nil leaves them out.
	Explain Explainer
}

// needed are the channels without which nothing can be tracked.
const needed = stream.Set(1<<stream.Time | 1<<stream.Heading | 1<<stream.Pitch | 1<<stream.Bank)

// A Coach follows one station. It is not safe for concurrent use.
type Coach struct {
	plan   *Plan
	among  []*Plan // one of which is about to be flown: plan alone, or all that an Auto follows
	why    Explainer
	deck   float64
	voice  *callout.Voice
	events []Event

	ring    ring
	begun   bool
	now     float64 // stream time
	heading float64 // of the sample before
	turned  float64 // unwrapped
	last    stream.Sample

	trim   trim
	level  reference // the latest level flight
	tick   float64   // when the slow work is due
	gates  [numGates]gate
	wants  [numGates]Gate // their words, without values
	room   float64        // height above the hard deck that is wanted, ft
	ready  bool
	told   uint64 // which gates were open when last told
	leg    *leg
	ended  float64 // when the last leg ended, NaN when none has
	rest   rest
	limits limits
	series *Series
	circle circle

	ground   ground
	clearing clearing
	line     line
	touched  point // the reference point as chosen by a touch
}

// rest is where the nose stood when a leg went straight into the next.
type rest struct {
	ok            bool
	turned, pitch float64
}

// New makes a coach for one station.
func New(o Options) *Coach {
	c := &Coach{deck: o.Deck, why: o.Explain, voice: callout.New(o.Voice), ended: math.NaN()}
	c.Choose(o.Plan)
	return c
}

// Choose changes what is flown from here on. A leg under way is broken off, a series closed.
func (c *Coach) Choose(plan *Plan) {
	c.Break("another maneuver or aircraft was chosen")
	c.plan = plan
	c.expect(plan)
	c.limits = limits{}
}

// Plan returns what is to be flown.
func (c *Coach) Plan() *Plan { return c.plan }

// Take returns the events since the last call. The slice is valid until the next call of Step.
func (c *Coach) Take() []Event {
	e := c.events
	c.events = c.events[:0]
	return e
}

func (c *Coach) emit(e Event) { c.events = append(c.events, e) }

// Step takes the next sample. Samples come in order of their time; one that lacks time,
// heading, pitch or bank is passed over and reported by the result.
func (c *Coach) Step(s *stream.Sample) bool {
	if s.Has&needed != needed {
		return false
	}
	h := s.Value(stream.Heading)
	if c.begun {
		c.turned += stream.Wrap180(h - c.heading)
	}
	c.heading, c.now, c.begun = h, s.Value(stream.Time), true
	c.ring.add(s, c.turned)
	c.ground.add(s, c.turned)
	c.watchLimits(s)
	switch {
	case c.leg != nil:
		c.fly(s)
	case c.now >= c.tick:
		c.tick = c.now + 0.1
		c.clearing.add(c.now, c.turned)
		c.settle(s)
	}
	c.last = *s
	return true
}

// Break ends whatever is under way: the stream jumped, or ended.
func (c *Coach) Break(reason string) {
	if c.leg != nil {
		c.leg.external = true
		c.endLeg(BrokenOff, reason, nil)
	}
	c.closeSeries(true)
	c.circle = circle{told: math.NaN()}
	c.ring.clear()
	c.ground.clear()
	c.clearing.clear()
	c.trim, c.level, c.rest = trim{}, reference{}, rest{}
	c.begun, c.tick = false, math.Inf(-1)
	c.ready, c.told, c.gates = false, 0, [numGates]gate{}
	c.ended = math.NaN()
	c.limits.clear(c)
	c.voice.Reset()
}

// settle does the slow work between legs: the reference, the set-up, and the question
// whether a leg has begun.
func (c *Coach) settle(s *stream.Sample) {
	if !math.IsNaN(c.ended) && c.now-c.ended > c.plan.Card.Series.Gap {
		c.closeSeries(false)
	}
	c.steady()
	c.watchCircle()
	c.setUp(s)
	if turned, side, ok := c.committed(); ok {
		c.beginLeg(turned, side)
	}
}

// committed tells whether what is being flown is a leg: how far it has turned from the
// reference, and to which side (1 right, −1 left).
func (c *Coach) committed() (turned, side float64, ok bool) {
	ref := c.from()
	if !ref.ok {
		return 0, 0, false
	}
	w, _ := c.ring.trend(c.now - 0.4)
	turned = w.turned - ref.turned
	side = math.Copysign(1, turned)
	card := &c.plan.Card.Commit
	switch {
	case math.Abs(turned) > c.plan.Card.Turn/2:
		return 0, 0, false // a turn that long without commitment is just a turn
	case card.Bank > 0:
		ok = side*w.bank >= card.Bank
	default:
		ok = math.Abs(turned) >= card.Turned && w.pitch-ref.pitch >= card.Nose && side*(w.bank-ref.bank) > 3
	}
	return turned, side, ok
}
