package hub

import (
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/stream"
)

// A tracer collects the trace of the leg being flown, one entry per degree of turn.
type tracer struct {
	points    []message.Flown
	direction string
	begun     int     // traces, up to this one
	level     []level // before the turn: a turn is recognized only after a few degrees
}

// A level is what a frame before a turn says about its beginning.
type level struct {
	message.Flown
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

func (t *tracer) reset() { *t = tracer{begun: t.begun} }

// add takes a frame. A trace begins again where the turn does; that of a leg that waits for its verdict is kept.
func (t *tracer) add(f *coach.Frame) {
	if f.Awaited != nil && len(t.points) > 0 {
		return
	}
	if f.State != "turn" && f.State != "leg" {
		t.points, t.direction = nil, ""
		t.keep(f)
		return
	}
	if n := len(t.points); n == 0 || f.Direction != t.direction || f.Turn < t.points[n-1].Turn-15 {
		*t = tracer{direction: f.Direction, begun: t.begun + 1, points: t.sinceEntry(f)}
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
		case past < 0: // time was set back
			t.level = nil
		case past < levelApart:
			return
		}
	}
	now := level{Flown: traced(f)} // the coach may reuse the frame
	if v, ok := f.Values["heading"]; ok {
		now.heading = &v
	}
	if v, ok := f.Values["altitude"]; ok {
		now.altitude = &v
	}
	if len(t.level) == levelKept {
		t.level = t.level[:copy(t.level, t.level[1:])] // reuses the memory: this runs ten times a second
	}
	t.level = append(t.level, now)
}

// sinceEntry returns the flight from the entry to the first frame of a turn, without that; nothing where
// the headings are not known.
func (t *tracer) sinceEntry(f *coach.Frame) []message.Flown {
	heading, ok := f.Values["heading"]
	if !ok {
		return nil
	}
	side := 1.0
	if f.Direction == "left" {
		side = -1
	}
	var back []message.Flown
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
func (l *level) entering(f *coach.Frame, turn, side float64) message.Flown {
	p := l.Flown
	p.Turn, p.Bank = turn, side*p.Bank // in a turn bank is toward its side
	p.Height, p.Along, p.Across, p.Off = nil, nil, nil, nil
	if now, ok := f.Values["altitude"]; ok && f.Climb != nil && l.altitude != nil {
		height := *l.altitude - now + *f.Climb
		p.Height = &height
	}
	return p
}

func traced(f *coach.Frame) message.Flown {
	p := message.Flown{Stall: copied(f.Stall), Deck: copied(f.Deck)}
	p.Turn, p.Time, p.Bank, p.Pitch = f.Turn, f.Time, f.Values["bank"], f.Values["pitch"]
	if v, ok := f.Values["airspeed"]; ok {
		p.Airspeed = &v
	}
	p.Height = copied(f.Climb)
	if f.Ground != nil {
		along, across := f.Ground.Along, f.Ground.Across
		p.Along, p.Across = &along, &across
	}
	if f.Around != nil {
		if p.Off = copied(f.Around.Off); p.Off == nil {
			p.Off = copied(f.Around.Above)
		}
	}
	return p
}

// copied is a value of a frame that outlasts it: the coach may reuse the frame.
func copied(v *float64) *float64 {
	if v == nil {
		return nil
	}
	return new(*v)
}
