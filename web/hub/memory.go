package hub

import (
	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/stream/pack"
)

// A memory keeps what a State needs of the messages of a station. What is over is packed: it is read when a page is
// opened, and there are hundreds of stations.
type memory struct {
	plan     *message.Chart
	trace    tracer
	last     pack.Record[coach.Leg]
	side     string                 // of last
	lastPlan *message.Chart         // what last was flown of
	other    pack.Record[coach.Leg] // the latest to the other side before last
	series   []pack.Record[coach.Series]
	callouts []*coach.Callout
	acted    *message.Acted // the latest command
	now      float64        // of the stream, s
}

// keep keeps what a State needs of a message.
func (m *memory) keep(body message.Body) {
	switch x := body.(type) {
	case *message.Chart:
		m.planned(x)
	case message.Callout:
		m.callout(x.Callout)
	case *message.Acted:
		m.acted = x
	case message.Leg:
		if !m.last.IsZero() && m.side != x.Direction {
			m.other = m.last
		}
		m.last, m.side, m.lastPlan = pack.Of(x.Leg), x.Direction, m.plan
		m.trace.reset()
	case message.Series:
		m.series = tail(append(m.series, pack.Of(x.Series)), seriesKept)
	}
}

// latestSeries are the latest series; nil where there are none.
func (m *memory) latestSeries() (all []*coach.Series) {
	for _, x := range m.series {
		all = append(all, x.Unpack())
	}
	return all
}

// planned takes a plan. A leg of another maneuver does not belong on its sheet; what is being flown
// does, as it may have told which maneuver it is.
func (m *memory) planned(p *message.Chart) {
	if m.plan != nil && m.plan.Maneuver != p.Maneuver {
		m.last, m.side, m.other, m.lastPlan = pack.Record[coach.Leg]{}, "", pack.Record[coach.Leg]{}, nil
	}
	m.plan = p
}

// before returns what the last leg was flown of, nil when nothing else was chosen since.
func (m *memory) before() *message.Chart {
	if m.lastPlan == m.plan {
		return nil
	}
	return m.lastPlan
}

func (m *memory) callout(c *coach.Callout) {
	m.clock(c.Time)
	m.callouts = tail(append(m.callouts, c), callouts)
}

// moment takes a frame.
func (m *memory) moment(f *coach.Frame) {
	m.clock(f.Time)
	m.trace.add(f)
}

// setBack is the least step back of a stream time that means a restart, s.
const setBack = 1.0

// clock takes the time of now. Callouts of before the clock was set back are of another flight.
func (m *memory) clock(now float64) {
	if now < m.now-setBack {
		m.callouts = nil
	}
	m.now = now
}

// A Scene is a station as a viewer sees it at one moment, built without viewers:
// that of a replay on its way to another place.
type Scene struct {
	info  *message.Station
	frame *coach.Frame
	memory
}

// Event takes a message of the station.
func (s *Scene) Event(m message.Message) {
	switch x := m.Body.(type) {
	case *message.Station:
		s.info = x
	default:
		s.keep(m.Body)
	}
}

// Frame takes the state of a moment, which is not changed afterwards.
func (s *Scene) Frame(f *coach.Frame) {
	s.frame = f
	s.moment(f)
}

// tail keeps the last n, in memory of its own now and then, so that the rest can be freed.
func tail[T any](s []T, n int) []T {
	if len(s) <= n {
		return s
	}
	return append(make([]T, 0, n+1), s[len(s)-n:]...)
}
