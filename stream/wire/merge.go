package wire

import "halfturn/stream"

// carried is for how long, in seconds of receive time, a value that came in a message of its
// own is put into the samples made by later messages. A value older than that is missing. A
// limit covers one lost message at the usual rate of its group (rates: see the decoders; the
// limits are common practice, no source):
//
//	0.5 s  attitude, body rates, load factors, flow angles, ball, controls: sent 4 to 60 times a second
//	1.5 s  airspeeds and vertical speed: 1 to 10 times a second, worthless when old
//	2.5 s  position, altitude, height, ground speed and track: once a second
//	5 s    throttle, engine, flags: change seldom
var carried = func() (limit [stream.NumChannels]float64) {
	for c := range limit {
		limit[c] = 0.5
	}
	for _, c := range [...]stream.Channel{stream.Airspeed, stream.TrueAirspeed, stream.VerticalSpeed} {
		limit[c] = 1.5
	}
	for _, c := range [...]stream.Channel{stream.Latitude, stream.Longitude, stream.Altitude, stream.Height, stream.GroundSpeed, stream.Track} {
		limit[c] = 2.5
	}
	for _, c := range [...]stream.Channel{stream.Throttle, stream.RPM, stream.Torque, stream.N1, stream.StallWarning, stream.OnGround, stream.Paused} {
		limit[c] = 5
	}
	return limit
}()

// A merger keeps the latest value of each channel of a sender whose messages each hold only
// a part, at rates of their own. A sample is made at each update of the attitude and carries
// what else is known, as it came: nothing is interpolated or run ahead.
type merger struct {
	latest stream.Sample
	at     [stream.NumChannels]float64 // receive time of the value, s
	rank   [stream.NumChannels]uint8
	fresh  stream.Set // put since the last sample
	filled float64    // receive time of the last sample
}

const attitudeSet = stream.Set(1<<stream.Heading | 1<<stream.Pitch | 1<<stream.Bank)

// put stores a value received at a time in seconds.
func (m *merger) put(c stream.Channel, v, now float64) { m.offer(c, v, now, 0) }

// offer stores a value of a source with a rank. It gives way to a value of a higher rank that
// is not yet too old. For altitude it gives way for good: sources differ by an offset, and a
// change between them would read as a climb.
func (m *merger) offer(c stream.Channel, v, now float64, rank uint8) {
	if m.outranked(c, now, rank) {
		return
	}
	m.latest.Drop(c)
	m.latest.Bad = m.latest.Bad.Without(c)
	m.rank[c], m.at[c] = rank, now
	if m.latest.Put(c, v) {
		m.fresh = m.fresh.With(c)
	}
}

func (m *merger) outranked(c stream.Channel, now float64, rank uint8) bool {
	return rank < m.rank[c] && (c == stream.Altitude || m.latest.Has.Has(c) && m.young(c, now))
}

// lose forgets a value: the sender says that it has none.
func (m *merger) lose(c stream.Channel, now float64, rank uint8) {
	if !m.outranked(c, now, rank) {
		m.latest.Drop(c)
	}
}

// young tells whether a value may still be used; a receive clock that went back makes it old.
func (m *merger) young(c stream.Channel, now float64) bool {
	age := now - m.at[c]
	return age <= carried[c] && age >= -carried[c]
}

// updated tells whether any of heading, pitch and bank came since the last sample.
func (m *merger) updated() bool { return m.fresh&attitudeSet != 0 }

// fill makes the sample.
func (m *merger) fill(s *stream.Sample, now float64) {
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
