package pipeline

import (
	"math"
	"math/bits"

	"halfturn/stream"
)

// latest keeps the last value of every channel, and when it arrived.
type latest struct {
	values   [stream.NumChannels]float64
	received [stream.NumChannels]float64
	seen     stream.Set
	derived  stream.Set
}

func (l *latest) add(s *stream.Sample, received float64) {
	for has := uint64(s.Has); has != 0; has &= has - 1 {
		c := stream.Channel(bits.TrailingZeros64(has))
		l.values[c], l.received[c] = s.Value(c), received
	}
	l.seen |= s.Has
	l.derived = l.derived&^s.Has | s.Derived
}

// A Value is the last one of a channel.
type Value struct {
	Value   float64 // in the channel's unit
	Age     float64 // s since it arrived
	Derived bool    // computed here
}

// Last returns the last value of a channel at a moment in seconds of the epoch of Feed, false when
// there was none.
func (s *Pipeline) Last(c stream.Channel, now float64) (Value, bool) {
	l := &s.values
	age := max(now-l.received[c], 0) + s.reader.Age(c)
	return Value{l.values[c], age, l.derived.Has(c)}, l.seen.Has(c)
}

// spacing measures how evenly datagrams arrive: the mean of the time between them and the mean
// deviation from it, both over about the last fifty.
type spacing struct {
	last, mean, deviation float64
	n                     int
}

func (m *spacing) add(received float64) {
	gap := received - m.last
	m.last = received
	if m.n++; m.n < 2 || gap < 0 || gap > SilentAfter {
		return // the first, or after a silence
	}
	if m.mean == 0 {
		m.mean = gap
	}
	const share = 1.0 / 50
	m.deviation += (math.Abs(gap-m.mean) - m.deviation) * share
	m.mean += (gap - m.mean) * share
}

// Jitter returns the mean deviation of the time between datagrams from its own mean, in
// seconds, over about the last fifty.
func (s *Pipeline) Jitter() float64 { return s.spacing.deviation }
