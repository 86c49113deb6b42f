// Package measure takes an aircraft's numbers from a flight: speed and power from stretches of steady level flight,
// the stall speed from a stall.
package measure

import (
	"math"
	"slices"

	"halfturn/stream"
)

// A Measurer measures one aircraft. It is a pure function of the samples.
type Measurer struct {
	stretch   Stretch // under way
	stretches []Stretch

	recent   [recentSize]unloaded
	n        int
	smooth   float64 // airspeed over √load factor, smoothed, kt
	last     float64 // stream time of the sample before; NaN before the first
	dropping float64 // since when the nose drops; NaN while it does not
	lowest   float64 // of smooth over the whole flight, kt
	stall    float64 // kt; NaN while none was seen
	at       float64 // when, s
	seen     stream.Set
}

// A Stretch is some seconds of steady level flight; the values are means.
type Stretch struct {
	Time, Duration float64 // s
	Airspeed       float64 // kt
	Values         [stream.NumChannels]float64
	Has            stream.Set
	n              float64
}

type unloaded struct{ time, speed float64 }

// Steady flight is what the set-up of a card asks for (CNATRA's 10 kt and 100 ft are wider); the rest is common
// practice, no source, proved on recorded flights.
const (
	recentSize   = 256
	steadyBank   = 5.0   // °
	steadyClimb  = 300.0 // ft/min
	steadySpread = 2.0   // kt from the mean of the stretch
	steadyLeast  = 4.0   // s
	mostStretch  = 256
	alike        = 5.0  // kt: stretches flown at the same speed
	stallRate    = 8.0  // °/s of nose drop: faster than a nose that is lowered by hand in slow flight
	breakHold    = 0.3  // s of such a drop
	stallSmooth  = 0.15 // s
	stallBefore  = 1.5  // s before the nose drops in which the wing carried most
	stallBand    = 1.04 // of the slowest flight: a nose drop at a higher speed is no stall
	leastLoad    = 0.5  // g: below it the wing hardly works
)

// New begins to measure.
func New() *Measurer {
	return &Measurer{last: math.NaN(), dropping: math.NaN(), lowest: math.Inf(1), stall: math.NaN()}
}

// Step takes the next sample of the flight.
func (m *Measurer) Step(s *stream.Sample) {
	now := s.Value(stream.Time)
	v, ok := s.Get(stream.Airspeed)
	if on, has := s.Get(stream.OnGround); !ok || v < 20 || has && on != 0 {
		m.Break()
		return
	}
	m.seen |= s.Has
	m.level(s, now, v)
	m.slow(s, now, v)
	m.last = now
}

// Break ends what is under way: the stream jumped or ended.
func (m *Measurer) Break() {
	m.closeStretch()
	m.n, m.last, m.dropping = 0, math.NaN(), math.NaN()
}

func (m *Measurer) level(s *stream.Sample, now, v float64) {
	climb, ok := s.Get(stream.VerticalSpeed)
	bank, banked := s.Get(stream.Bank)
	steady := ok && math.Abs(climb) <= steadyClimb && banked && math.Abs(bank) <= steadyBank
	if !steady || m.stretch.n > 0 && math.Abs(v-m.stretch.Airspeed) > steadySpread {
		m.closeStretch()
	}
	if !steady {
		return
	}
	if m.stretch.n == 0 {
		m.stretch = Stretch{Time: now, Has: s.Has}
	}
	t := &m.stretch
	t.n++
	t.Duration = now - t.Time
	t.Has &= s.Has
	t.Airspeed += (v - t.Airspeed) / t.n
	for c := range stream.NumChannels {
		if s.Has.Has(c) {
			t.Values[c] += (s.Value(c) - t.Values[c]) / t.n
		}
	}
}

func (m *Measurer) closeStretch() {
	if m.stretch.n > 0 && m.stretch.Duration >= steadyLeast && len(m.stretches) < mostStretch {
		m.stretches = append(m.stretches, m.stretch)
	}
	m.stretch = Stretch{}
}

// slow watches for a stall. At the break the wing carries the most it can, so that the 1 g stall
// speed is the airspeed over the root of the load factor there, at its lowest
// (Vs = V/√n, FAA-H-8083-3C ch. 5). The nose then drops by itself.
func (m *Measurer) slow(s *stream.Sample, now, v float64) {
	n, ok := s.Get(stream.NormalLoad)
	if !ok {
		return
	}
	if n >= leastLoad {
		x := v / math.Sqrt(n)
		if math.IsNaN(m.last) || m.n == 0 {
			m.smooth = x
		} else {
			m.smooth += (x - m.smooth) * (1 - math.Exp(-(now-m.last)/stallSmooth))
		}
		m.lowest = math.Min(m.lowest, m.smooth)
		m.recent[m.n%recentSize] = unloaded{now, m.smooth}
		m.n++
	}
	q, ok := s.Get(stream.PitchRate)
	if !ok || q > -stallRate {
		m.dropping = math.NaN()
		return
	}
	if math.IsNaN(m.dropping) {
		m.dropping = now
	}
	if now-m.dropping < breakHold {
		return
	}
	for i := range min(m.n, recentSize) {
		r := m.recent[i]
		if r.time >= m.dropping-stallBefore && r.time <= now && !(r.speed >= m.stall) {
			m.stall, m.at = r.speed, r.time
		}
	}
}

// Stall returns the clean stall speed at 1 g (kt) and the stream time at which it was flown (s). When no stall was
// seen, reason says why.
func (m *Measurer) Stall() (speed, at float64, reason string) {
	switch {
	case !m.seen.Has(stream.NormalLoad):
		return 0, 0, "the stream has no load factor"
	case !m.seen.Has(stream.PitchRate):
		return 0, 0, "the stream has no pitch rate"
	case math.IsNaN(m.stall) || m.stall > m.lowest*stallBand:
		return 0, 0, "no stall was flown: the nose never dropped by itself at the lowest speed"
	}
	return m.stall, m.at, ""
}

// Lowest returns the lowest airspeed over √load factor, kt: the stall speed is no higher. It is +Inf when there is no
// load factor.
func (m *Measurer) Lowest() float64 { return m.lowest }

// Steady returns the stretches at the speed that was held for longest, and how many others there are.
func (m *Measurer) Steady() (at []Stretch, others int) {
	best := 0.0
	for _, x := range m.stretches {
		near, sum := []Stretch{}, 0.0
		for _, y := range m.stretches {
			if math.Abs(x.Airspeed-y.Airspeed) <= alike {
				near, sum = append(near, y), sum+y.Duration
			}
		}
		if sum > best {
			at, best = near, sum
		}
	}
	return at, len(m.stretches) - len(at)
}

// Mean returns the mean of a channel over stretches, by their time; ok is false when one lacks it.
func Mean(list []Stretch, c stream.Channel) (mean float64, ok bool) {
	total := 0.0
	for _, x := range list {
		mean += x.Values[c] * x.Duration
		total += x.Duration
	}
	lacking := slices.ContainsFunc(list, func(x Stretch) bool { return !x.Has.Has(c) })
	return mean / total, total > 0 && !lacking
}
