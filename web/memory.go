package web

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/session"
)

// A memory is what of a station's messages a State needs, beside the station itself.
type memory struct {
	plan     *session.Plan
	trace    tracer
	last     *coach.Leg
	series   []*coach.Series
	callouts []*coach.Callout
	now      float64 // of the stream, s
}

// keep takes from a message what a State needs.
func (m *memory) keep(body any) {
	switch x := body.(type) {
	case session.Plan:
		m.planned(&x)
	case *session.Plan:
		m.planned(x)
	case coach.Callout:
		m.callout(&x)
	case *coach.Callout:
		m.callout(x)
	case *coach.Leg:
		m.last = x
		m.trace.reset()
	case *coach.Series:
		m.series = tail(append(m.series, withoutTraces(x)), seriesKept)
	}
}

// planned takes a plan. A leg of another maneuver does not belong on its sheet; what is being flown
// does, as it may have told which maneuver it is.
func (m *memory) planned(p *session.Plan) {
	if m.plan != nil && m.plan.Maneuver != p.Maneuver {
		m.last = nil
	}
	m.plan = p
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

// setBack is by how much a clock goes back that was set back, s: the simulator began again.
const setBack = 1.0

// clock takes the time of now. Callouts of before the clock was set back are of another flight.
func (m *memory) clock(now float64) {
	if now < m.now-setBack {
		m.callouts = nil
	}
	m.now = now
}

// A Scene is a station as a viewer sees it at one moment, put together while nobody looked:
// that of a replay on its way to another place.
type Scene struct {
	info  *session.Station
	frame *coach.Frame
	memory
}

// Event takes a message of the station.
func (s *Scene) Event(m session.Message) {
	switch x := m.Body.(type) {
	case session.Station:
		s.info = &x
	case *session.Station:
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

// A tracer collects the trace of the leg being flown, one entry a degree of turn.
type tracer struct {
	points    []coach.Trace
	direction string
	level     *coach.Trace // the frame before the turn: a turn is known as one a few degrees in
}

// The frame before a turn begins its trace when the turn is no farther, and no longer ago.
const (
	knownBy  = 10.0 // ° of turn
	levelFor = 2.0  // s
)

// maxTrace bounds a trace: two full turns.
const maxTrace = 720

func (t *tracer) reset() { *t = tracer{} }

// add takes a frame. A trace begins anew where the turn does.
func (t *tracer) add(f *coach.Frame) {
	if f.State != "turn" && f.State != "leg" {
		level := traced(f) // the frame is the coach's, and may be used again
		*t = tracer{level: &level}
		return
	}
	if l := t.level; l != nil && f.Turn > 0 && f.Turn <= knownBy && f.Time-l.Time <= levelFor {
		t.level, t.direction = nil, f.Direction
		t.points = append(t.points, entered(l, f))
	}
	if n := len(t.points); f.Direction != t.direction || n > 0 && f.Turn < t.points[n-1].Turn-15 {
		*t = tracer{direction: f.Direction}
	}
	n := len(t.points)
	if n > 0 && math.Floor(f.Turn) <= math.Floor(t.points[n-1].Turn) || n >= maxTrace {
		return
	}
	t.points = append(t.points, traced(f))
}

// entered returns how it was level, as the begin of the trace of the turn now flown.
func entered(level *coach.Trace, now *coach.Frame) coach.Trace {
	p := *level
	p.Turn, p.Height = 0, nil
	if now.Direction == "left" { // in a turn bank is toward its side
		p.Bank = -p.Bank
	}
	if now.Climb != nil {
		p.Height = new(float64)
	}
	if p.Along != nil {
		p.Along, p.Across = new(float64), new(float64)
	}
	return p
}

func traced(f *coach.Frame) coach.Trace {
	p := coach.Trace{Turn: f.Turn, Time: f.Time, Bank: f.Values["bank"], Pitch: f.Values["pitch"]}
	if v, ok := f.Values["airspeed"]; ok {
		p.Airspeed = &v
	}
	if f.Climb != nil {
		climb := *f.Climb
		p.Height = &climb
	}
	if f.Ground != nil {
		along, across := f.Ground.Along, f.Ground.Across
		p.Along, p.Across = &along, &across
	}
	return p
}

// withoutTraces copies a series without what only pictures need: a State has the trace of
// the last leg, and a long session would make it big.
func withoutTraces(s *coach.Series) *coach.Series {
	lean := *s
	lean.Legs = make([]coach.Leg, len(s.Legs))
	copy(lean.Legs, s.Legs)
	for i := range lean.Legs {
		lean.Legs[i].Trace = nil
	}
	return &lean
}

// tail keeps the last n, in memory of its own now and then, so that the rest can go.
func tail[T any](s []T, n int) []T {
	if len(s) <= n {
		return s
	}
	return append(make([]T, 0, n+1), s[len(s)-n:]...)
}
