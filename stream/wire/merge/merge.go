// Package merge makes samples of messages that each hold a part of a simulator's state, at rates of their own.
package merge

import (
	"halfturn/stream"
	"halfturn/stream/wire/fault"
)

// Values keeps the latest value of each channel of a sender. A sample is made at each update of the attitude and
// carries the other known values unchanged: nothing is interpolated or extrapolated. A value that is older than the
// channel's Info.Carry is missing. Times are seconds of receive time.
type Values struct {
	latest stream.Sample
	at     [stream.NumChannels]float64 // receive time of the value
	rank   [stream.NumChannels]uint8
	fresh  stream.Set // put since the last sample
	filled float64    // receive time of the last sample
}

// Put stores a value received at a time.
func (m *Values) Put(c stream.Channel, v, now float64) { m.Offer(c, v, now, 0) }

// Offer stores a value of a source with a rank. A value of a higher rank is kept until it is too old. For
// altitude it is kept forever: sources differ by an offset, and a change between them would look like a climb.
func (m *Values) Offer(c stream.Channel, v, now float64, rank uint8) {
	if m.Outranked(c, now, rank) {
		return
	}
	m.latest.Drop(c)
	m.latest.Bad = m.latest.Bad.Without(c)
	m.rank[c], m.at[c] = rank, now
	if m.latest.Put(c, v) {
		m.fresh = m.fresh.With(c)
	}
}

// Outranked reports whether a value of that rank gives way to the one there is.
func (m *Values) Outranked(c stream.Channel, now float64, rank uint8) bool {
	return rank < m.rank[c] && (c == stream.Altitude || m.latest.Has.Has(c) && m.young(c, now))
}

// Rank returns the rank of the channel's latest value.
func (m *Values) Rank(c stream.Channel) uint8 { return m.rank[c] }

// Lose forgets a value: the sender says that it has none.
func (m *Values) Lose(c stream.Channel, now float64, rank uint8) {
	if !m.Outranked(c, now, rank) {
		m.latest.Drop(c)
	}
}

// SetMagnetic says which north the latest heading refers to.
func (m *Values) SetMagnetic(magnetic bool) { m.latest.Magnetic = magnetic }

// Has reports whether a channel has a value, of any age.
func (m *Values) Has(c stream.Channel) bool { return m.latest.Has.Has(c) }

// carry holds how long each channel's value may be used, s: closer together than in the table.
var carry = func() (limits [stream.NumChannels]float64) {
	for c := range stream.NumChannels {
		limits[c] = c.Info().Carry
	}
	return limits
}()

// young reports whether a value may still be used; a receive clock that went back makes it old.
func (m *Values) young(c stream.Channel, now float64) bool {
	age := now - m.at[c]
	return age <= carry[c] && age >= -carry[c]
}

// Fresh returns the channels that were stored since the last sample.
func (m *Values) Fresh() stream.Set { return m.fresh }

// Updated reports whether any of heading, pitch and bank came since the last sample.
func (m *Values) Updated() bool { return m.fresh&stream.AttitudeSet != 0 }

// Sample makes the sample once the attitude came; err is what came of the datagram read before. The error is
// fault.ErrPart when no attitude came, fault.ErrValue when it came with impossible values alone.
func (m *Values) Sample(err error, now float64, s *stream.Sample) error {
	l := &m.latest
	if l.Bad&stream.AttitudeSet != 0 && !m.Updated() && (err == nil || err == fault.ErrPart) {
		s.Bad = l.Bad
		if channel, v, ok := l.TakeRefused(); ok {
			s.Refuse(channel, v)
		}
		l.Bad = 0
		return fault.ErrValue
	}
	if err != nil {
		return err
	}
	if !m.Updated() {
		return fault.ErrPart
	}
	m.fill(s, now)
	return fault.OfHollow(s)
}

func (m *Values) fill(s *stream.Sample, now float64) {
	*s = m.latest
	for c := range stream.NumChannels {
		if s.Has.Has(c) && !m.young(c, now) {
			s.Drop(c)
		}
	}
	s.Magnetic = s.Magnetic && s.Has.Has(stream.Heading)
	m.latest.TakeRefused() // the sample has it
	m.latest.Bad, m.fresh, m.filled = 0, 0, now
}

// Age returns how old a channel's value was when it was put into the last sample: more than 0 for what a slower message
// of the same sender brought.
func (m *Values) Age(c stream.Channel) float64 {
	if !m.latest.Has.Has(c) {
		return 0
	}
	return m.filled - m.at[c]
}

// Latest returns the latest value of every channel, of any age.
func (m *Values) Latest() stream.Sample { return m.latest }
