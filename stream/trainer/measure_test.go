package trainer

import (
	"math"
	"testing"

	"halfturn/stream"
)

// measured is a leg as found in the samples alone: from where the bank leaves 3° and goes on past
// 10° until the wings are within 3° of level again past 150° of turn, or given up.
type measured struct {
	side                             float64 // +1 right, -1 left
	start, exitTime                  float64
	entry, exit                      stream.Sample
	at                               map[int]stream.Sample // interpolated at these turn angles
	turn                             float64               // at the exit
	steepest, steepestAt             float64
	highest, highestAt, lowest, trim float64
	slowest, slip, power             float64 // kt; rms of the lateral load, g; largest throttle change
	heaviest, least, margin          float64
}

type point struct {
	th float64
	s  stream.Sample
}

// legs cuts a recording into legs.
func legs(samples []stream.Sample) []measured {
	var out []measured
	v := func(i int, c stream.Channel) float64 { return samples[i].Value(c) }
	for i := 1; i < len(samples); i++ {
		if math.Abs(v(i, stream.Bank)) < 10 {
			continue
		}
		first := i
		for first > 0 && math.Abs(v(first, stream.Bank)) > 3 {
			first--
		}
		m := measured{side: math.Copysign(1, v(i, stream.Bank))}
		var track []point
		th := 0.0
		j := first
		for ; j < len(samples); j++ {
			if j > first {
				th += m.side * stream.Wrap180(v(j, stream.Heading)-v(j-1, stream.Heading))
			}
			track = append(track, point{th, samples[j]})
			if j > i && m.side*v(j, stream.Bank) < 3 {
				break
			}
		}
		i = j
		if th > 30 {
			m.measure(samples, first, track)
			out = append(out, m)
		}
	}
	return out
}

func (m *measured) measure(samples []stream.Sample, first int, track []point) {
	ref := &samples[max(0, first-60)]
	m.entry, m.trim = *ref, ref.Value(stream.Pitch)
	m.start = track[0].s.Value(stream.Time)
	last := track[len(track)-1]
	m.exit, m.turn, m.exitTime = last.s, last.th, last.s.Value(stream.Time)
	m.at = map[int]stream.Sample{}
	m.slowest, m.margin, m.least = math.Inf(1), math.Inf(1), math.Inf(1)
	m.lowest = math.Inf(1)
	for i, p := range track {
		g := func(c stream.Channel) float64 { return p.s.Value(c) }
		if b := m.side * g(stream.Bank); b > m.steepest {
			m.steepest, m.steepestAt = b, p.th
		}
		if n := g(stream.Pitch) - m.trim; n > m.highest {
			m.highest, m.highestAt = n, p.th
		}
		m.lowest = math.Min(m.lowest, g(stream.Pitch)-m.trim)
		m.slowest = math.Min(m.slowest, g(stream.Airspeed))
		m.slip += g(stream.LateralLoad) * g(stream.LateralLoad) / float64(len(track))
		m.power = math.Max(m.power, math.Abs(g(stream.Throttle)-m.entry.Value(stream.Throttle)))
		m.heaviest = math.Max(m.heaviest, g(stream.NormalLoad))
		m.least = math.Min(m.least, g(stream.NormalLoad))
		for a := 15; a < 360 && i > 0; a += 15 {
			if q := track[i-1]; q.th < float64(a) && p.th >= float64(a) {
				var s stream.Sample
				s.Lerp(&q.s, &p.s, (float64(a)-q.th)/(p.th-q.th))
				m.at[a] = s
			}
		}
	}
	m.slip = math.Sqrt(m.slip)
}

func (m *measured) bank(a int) float64 { s := m.at[a]; return m.side * s.Value(stream.Bank) }
func (m *measured) nose(a int) float64 { s := m.at[a]; return s.Value(stream.Pitch) - m.trim }
func (m *measured) climb() float64 {
	return m.exit.Value(stream.Altitude) - m.entry.Value(stream.Altitude)
}
func (m *measured) gain() float64 {
	return m.exit.Value(stream.Airspeed) - m.entry.Value(stream.Airspeed)
}

// record flies a pilot at 60 Hz to the end.
func record(t testing.TB, p *Pilot) []stream.Sample {
	t.Helper()
	var out []stream.Sample
	for {
		var s stream.Sample
		more := p.Step(1.0/60, &s)
		out = append(out, s)
		if !more {
			return out
		}
		if len(out) > 60*3600 {
			t.Fatal("the flight does not end")
		}
	}
}
