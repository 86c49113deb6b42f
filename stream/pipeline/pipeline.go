package pipeline

import (
	"math"
	"math/bits"

	"halfturn/stream"
	"halfturn/stream/derive"
	"halfturn/stream/phrase"
	"halfturn/stream/timebase"
	"halfturn/stream/wire"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
)

// Options are the settings of a Pipeline. The zero value is ready to use.
type Options struct {
	Wire                  format.Options
	GroundSpeedAsAirspeed bool // estimate a missing airspeed from ground speed, with an error of the wind speed
	BankSign, PitchSign   Sign // how the signs of these two are taken
}

// An Outcome is the effect of one datagram.
type Outcome uint8

// The outcomes.
const (
	Nothing  Outcome = iota // no sample
	Accepted                // a sample that continues the flight
	Jumped                  // a sample that does not
	Paused                  // no sample: the simulator is paused
)

// A Result describes the effect of one datagram.
type Result struct {
	Outcome Outcome
	Reason  phrase.Phrase // of Jumped
	Drop    string        // of Nothing: a short label for counting, "" when it is no fault
}

// The drop labels of the pipeline itself; the others are those of fault.Reason.
const (
	DropDuplicate = "duplicate"
	DropLate      = "late"
)

// The states of the link to the simulator.
const (
	LinkNone   = ""       // nothing has arrived yet
	LinkLive   = "live"   // datagrams arrive
	LinkPaused = "paused" // they arrive, and the simulator is paused
	LinkSilent = "silent" // nothing has arrived for a while
)

// SilentAfter is how many seconds without a datagram make a link silent.
const SilentAfter = 2.0

// A Pipeline is one sender's pipeline. It is not safe for concurrent use, its memory does
// not grow, and in the steady state it does not allocate.
type Pipeline struct {
	reader *wire.Reader
	base   timebase.Base
	derive derive.Deriver
	senses senses
	turned *phrase.Definition // a sign was turned at the last sample: the next does not continue the flight
	sample stream.Sample

	changes  int     // of format, so far
	received float64 // s, of the last datagram
	paused   bool
	rate     meter
	channels window
	values   latest
	spacing  spacing
	stats    counts
}

// New makes the pipeline of one sender.
func New(o Options) *Pipeline {
	s := &Pipeline{
		reader: wire.NewReader(o.Wire),
		derive: derive.Deriver{GroundSpeedAsAirspeed: o.GroundSpeedAsAirspeed},
	}
	s.senses.tell(o.BankSign, o.PitchSign)
	return s
}

// Feed takes one datagram, received at a time in seconds of any epoch. The sample is nil
// unless the outcome is Accepted or Jumped; it is valid until the next call.
func (s *Pipeline) Feed(datagram []byte, received float64) (*stream.Sample, Result) {
	s.spacing.add(received)
	s.received = received
	s.stats.datagrams++
	s.stats.bytes += uint64(len(datagram))
	err := s.reader.Decode(datagram, received, &s.sample)
	s.stats.outOfRange(s.reader.Bad())
	if n := s.reader.Changes(); n != s.changes {
		s.changes = n
		s.base.Restart()
	}
	if err != nil {
		return nil, s.drop(fault.Reason(err))
	}
	s.senses.apply(&s.sample)
	switch s.base.Next(&s.sample, received) {
	case timebase.Fresh:
		if s.turned != nil {
			return s.jumped(s.turned.Of(), received)
		}
		s.accept(received, false)
		return &s.sample, Result{Outcome: Accepted}
	case timebase.Jump:
		if s.turned != nil {
			return s.jumped(s.turned.Of(), received)
		}
		return s.jumped(s.base.Reason(), received)
	case timebase.Still:
		s.paused = true
		s.stats.paused++
		return nil, Result{Outcome: Paused}
	case timebase.Late:
		return nil, s.drop(DropLate)
	default:
		return nil, s.drop(DropDuplicate)
	}
}

// jumped takes a sample that does not continue what came before.
func (s *Pipeline) jumped(reason phrase.Phrase, received float64) (*stream.Sample, Result) {
	s.derive.Reset()
	s.stats.jumps++
	s.accept(received, true)
	return &s.sample, Result{Outcome: Jumped, Reason: reason}
}

func (s *Pipeline) accept(received float64, jumped bool) {
	s.paused = false
	s.stats.samples++
	s.derive.Fill(&s.sample)
	s.turned = s.senses.watch(&s.sample, jumped)
	s.rate.add(received)
	s.channels.add(&s.sample, received)
	s.values.add(&s.sample, received)
}

func (s *Pipeline) drop(reason string) Result {
	if reason != "" {
		s.stats.drop(reason)
	}
	return Result{Drop: reason}
}

// Format names what the sender sends, "" until it is recognized.
func (s *Pipeline) Format() string { return s.reader.Format() }

// Detail says what was decided or must be known about the stream besides its format, if
// anything.
func (s *Pipeline) Detail() phrase.Phrase { return s.reader.Detail() }

// Age returns how old, in seconds of receive time, the value of a channel was in the last
// sample: more than 0 for what a slower message of the same sender brought.
func (s *Pipeline) Age(c stream.Channel) float64 { return s.reader.Age(c) }

// Advice says what to do when the datagrams cannot be read, or an angle in them has the wrong
// sign; nothing when all is well.
func (s *Pipeline) Advice() phrase.Phrase {
	if advice := s.reader.Advice(); !advice.IsZero() {
		return advice
	}
	return s.senses.advice()
}

// Turned returns which signs are reversed, as configured or as found.
func (s *Pipeline) Turned() (bank, pitch bool) { return s.senses.bank.turned, s.senses.pitch.turned }

// Sent returns the channels that were sent within the last few seconds.
func (s *Pipeline) Sent() stream.Set { return s.channels.sent() }

// Derived returns the channels that were computed within the last few seconds and not sent.
func (s *Pipeline) Derived() stream.Set { return s.channels.derived() &^ s.channels.sent() }

// BySimulator reports whether stream time is the simulator's own, not the time of receipt.
func (s *Pipeline) BySimulator() bool { return s.base.BySimulator() }

// LastReceived returns when the last datagram of any kind arrived, 0 before the first.
func (s *Pipeline) LastReceived() float64 { return s.received }

// Rate returns the samples per second at a moment in seconds of the epoch of Feed: a mean over about two seconds that
// falls to 0 when nothing arrives.
func (s *Pipeline) Rate(now float64) float64 { return s.rate.at(now) }

// Link returns the state of the link at a moment in seconds of the epoch of Feed.
func (s *Pipeline) Link(now float64) string {
	switch {
	case s.stats.datagrams == 0:
		return LinkNone
	case now-s.received > SilentAfter:
		return LinkSilent
	case s.paused:
		return LinkPaused
	}
	return LinkLive
}

// A meter measures a rate as a sum of events that fade away.
type meter struct {
	sum, first, last float64 // of the events up to last
	since, newest    float64 // how many came after that, and when the newest
	running          bool
}

const (
	meterTime = 2.0  // s
	meterStep = 0.25 // s of events that are added together
	meterEnds = 5.0  // s of silence after which it starts over: a pause is not a slow stream
)

func (m *meter) add(t float64) {
	if !m.running || t-m.newest > meterEnds {
		*m = meter{first: t, last: t, newest: t, running: true}
		return // an interval needs two
	}
	m.since, m.newest = m.since+1, t
	if past := t - m.last; past >= meterStep || past < 0 {
		m.gather()
	}
}

// gather adds the latest events to the sum. They stand for the interval before them: they
// count in its middle.
func (m *meter) gather() {
	half := fade((m.newest - m.last) / 2)
	m.sum = (m.sum*half + m.since) * half
	m.last, m.since = m.newest, 0
}

// at works on a copy, so that reading the rate does not change it.
func (m meter) at(t float64) float64 {
	m.gather()
	if !m.running || m.sum == 0 {
		return 0
	}
	// The events of a young meter fill only a part of its window.
	// Two that arrived together do not give a rate yet.
	filled := 1 - fade(max(max(t, m.last)-m.first, meterStep))
	return m.sum * fade(t-m.last) / meterTime / filled
}

func fade(dt float64) float64 { return math.Exp(-max(dt, 0) / meterTime) }

// A window remembers which channels came within the last two periods, so that a channel
// that is no longer sent goes away.
type window struct {
	has, computed [2]stream.Set
	since         float64
}

const windowTime = 2.0 // s

func (w *window) add(s *stream.Sample, received float64) {
	if past := received - w.since; past > windowTime || past < 0 {
		w.has[1], w.computed[1] = w.has[0], w.computed[0]
		w.has[0], w.computed[0] = 0, 0
		w.since = received
	}
	w.has[0] |= s.Has &^ s.Derived
	w.computed[0] |= s.Derived
}

func (w *window) sent() stream.Set    { return w.has[0] | w.has[1] }
func (w *window) derived() stream.Set { return w.computed[0] | w.computed[1] }

// counts are the counters of a pipeline, of fixed size.
type counts struct {
	datagrams, bytes, samples, jumps, paused uint64

	reasons [16]Drop // in order of appearance
	other   uint64   // for reasons beyond the array
	bad     [stream.NumChannels]uint64
}

func (c *counts) drop(reason string) {
	for i := range c.reasons {
		r := &c.reasons[i]
		if r.Reason == "" {
			r.Reason = reason
		}
		if r.Reason == reason {
			r.Count++
			return
		}
	}
	c.other++
}

func (c *counts) outOfRange(bad stream.Set) {
	for ; bad != 0; bad &= bad - 1 {
		c.bad[bits.TrailingZeros64(uint64(bad))]++
	}
}

// A Drop is how many datagrams were dropped for one reason.
type Drop struct {
	Reason string
	Count  uint64
}

// A Bad is how often a channel's value was out of range, NaN or infinite.
type Bad struct {
	Channel stream.Channel
	Count   uint64
}

// Stats are the counts of a Pipeline.
type Stats struct {
	Datagrams uint64
	Bytes     uint64
	Samples   uint64 // accepted, jumps among them
	Jumps     uint64
	Paused    uint64 // datagrams of a paused simulator
	Drops     []Drop // in order of first appearance
	Bad       []Bad  // in the order of the channel table
}

// Stats returns a copy of the counts.
func (s *Pipeline) Stats() Stats {
	c := &s.stats
	out := Stats{Datagrams: c.datagrams, Bytes: c.bytes, Samples: c.samples, Jumps: c.jumps, Paused: c.paused}
	for _, d := range c.reasons {
		if d.Count > 0 {
			out.Drops = append(out.Drops, d)
		}
	}
	if c.other > 0 {
		out.Drops = append(out.Drops, Drop{"other", c.other})
	}
	for ch, n := range c.bad {
		if n > 0 {
			out.Bad = append(out.Bad, Bad{stream.Channel(ch), n})
		}
	}
	return out
}
