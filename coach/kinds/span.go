package kinds

import (
	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

// A span reads a quantity between two turn angles, smoothed in time when the check asks for it.
type span struct {
	get      check.Reader
	name     string
	facts    *check.Facts
	from, to float64
	smooth   float64 // s
	state    float64
	last     float64 // time of the moment before
	begun    bool
	absent   bool // the quantity was needed and missing
}

func newSpan(spec *check.Spec, f *check.Facts) span {
	return span{
		get:    check.Read(spec.Channel, f),
		name:   spec.Channel,
		facts:  f,
		from:   *spec.From,
		to:     *spec.To,
		smooth: spec.Smooth,
	}
}

// read returns the quantity if the moment lies in the span, and the time since the moment
// before (0 for the first).
func (s *span) read(m *check.Moment) (v, dt float64, ok bool) {
	v, dt, ok = s.value(m)
	return v, dt, ok && m.Turn >= s.from && m.Turn <= s.to
}

// value returns the quantity at any moment, in the span or not, and the time since the moment before.
func (s *span) value(m *check.Moment) (v, dt float64, ok bool) {
	v, ok = s.get(m)
	if !ok {
		s.absent = s.absent || m.Turn >= s.from && m.Turn <= s.to
		return 0, 0, false
	}
	now := m.Time()
	if s.begun {
		dt = now - s.last
	}
	s.last = now
	if s.smooth > 0 {
		if s.begun {
			s.state = v + (s.state-v)*s.facts.Common.Decay(dt, s.smooth)
		} else {
			s.state = v
		}
		v = s.state
	}
	s.begun = true
	return v, dt, true
}

func (s *span) nothing() check.Measure {
	if s.absent || !s.begun {
		return check.Absent(s.name, s.facts, s.begun)
	}
	return check.None(phrase.NotReached.Of(phrase.Number("turn", s.from, -1, "°")))
}
