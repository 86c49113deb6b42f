package web

import (
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/coach/session"
	"halfturn/stream"
)

// A memory is what of a station's messages a State needs, beside the station itself.
type memory struct {
	plan     *session.Plan
	trace    tracer
	last     *coach.Leg
	other    *coach.Leg // the latest to the other side before last
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
		if m.last != nil && m.last.Direction != x.Direction {
			m.other = m.last
		}
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
		m.last, m.other = nil, nil
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
	level     []level // before the turn: a turn is known as one a few degrees in
}

// level is what a frame before a turn tells of its begin.
type level struct {
	coach.Trace
	heading, altitude *float64 // °, ft
}

// The frames kept before a turn. The pages keep the same (static/pure/entry.js); testdata/rules/entry.json holds both
// to one rule.
const (
	levelKept  = 40
	levelApart = 0.1 // s
)

// maxTrace bounds a trace: two full turns.
const maxTrace = 720

func (t *tracer) reset() { *t = tracer{} }

// add takes a frame. A trace begins again where the turn does.
func (t *tracer) add(f *coach.Frame) {
	if f.State != "turn" && f.State != "leg" {
		t.points, t.direction = nil, ""
		t.keep(f)
		return
	}
	if n := len(t.points); n == 0 || f.Direction != t.direction || f.Turn < t.points[n-1].Turn-15 {
		*t = tracer{direction: f.Direction, points: t.sinceEntry(f)}
	}
	n := len(t.points)
	if n > 0 && math.Floor(f.Turn) <= math.Floor(t.points[n-1].Turn) || n >= maxTrace {
		return
	}
	t.points = append(t.points, traced(f))
}

// keep keeps a frame before a turn.
func (t *tracer) keep(f *coach.Frame) {
	if n := len(t.level); n > 0 {
		switch past := f.Time - t.level[n-1].Time; {
		case past < 0: // another time
			t.level = nil
		case past < levelApart:
			return
		}
	}
	now := level{Trace: traced(f)} // the frame is the coach's, and may be used again
	if v, ok := f.Values["heading"]; ok {
		now.heading = &v
	}
	if v, ok := f.Values["altitude"]; ok {
		now.altitude = &v
	}
	if len(t.level) == levelKept {
		t.level = t.level[:copy(t.level, t.level[1:])] // in the same memory: this happens ten times a second
	}
	t.level = append(t.level, now)
}

// sinceEntry returns the flight from the entry to the first frame of a turn, without that; nothing where
// the headings are not known.
func (t *tracer) sinceEntry(f *coach.Frame) []coach.Trace {
	heading, ok := f.Values["heading"]
	if !ok {
		return nil
	}
	side := 1.0
	if f.Direction == "left" {
		side = -1
	}
	var back []coach.Trace
	for i, turn, after := len(t.level)-1, f.Turn, f.Time; i >= 0 && turn > 0; i-- {
		l := &t.level[i]
		if l.heading == nil {
			break
		}
		there := f.Turn - side*stream.Wrap180(heading-*l.heading)
		if there >= turn || after-l.Time > 1 || l.Time >= after { // turned back, or a hole
			break
		}
		turn, after = there, l.Time
		back = append(back, l.entering(f, math.Max(0, there), side))
	}
	slices.Reverse(back)
	return back
}

// entering is a level frame as a point of the turn that f is the first frame of.
func (l *level) entering(f *coach.Frame, turn, side float64) coach.Trace {
	p := l.Trace
	p.Turn, p.Bank = turn, side*p.Bank // in a turn bank is toward its side
	p.Height, p.Along, p.Across = nil, nil, nil
	if now, ok := f.Values["altitude"]; ok && f.Climb != nil && l.altitude != nil {
		height := *l.altitude - now + *f.Climb
		p.Height = &height
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
