package leg

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/ground"
	"halfturn/coach/plan"
	"halfturn/coach/spectral"
	"halfturn/coach/track"
	"halfturn/stream"
)

// A Leg is a leg that is being flown; a [coach.Leg] is the record of one.
type Leg struct {
	Position
	Facts    check.Facts
	plan     *plan.Plan
	measures measures
	passage  passage
	drawing  drawing
	ending   ending
}

// A Position is where a leg is in its turn.
type Position struct {
	Side     float64 // 1 right, −1 left
	Origin   float64 // unwrapped heading of the entry, °
	Start    float64 // stream time, s
	prev     *check.Moment
	Cur      *check.Moment // the moment of now
	Farthest float64       // ° of turn
	Steps    int           // moments so far
	moments  [2]check.Moment
}

// move takes the next sample with its unwrapped heading.
func (p *Position) move(s *stream.Sample, turned float64) {
	p.prev, p.Cur = p.Cur, p.prev
	p.Cur.Set(s, (turned-p.Origin)*p.Side, p.Side)
	if p.Steps == 0 {
		*p.prev = *p.Cur
	}
	p.Steps++
}

// A Start says where a leg began.
type Start struct {
	Time   float64 // stream time, s
	Side   float64 // 1 right, −1 left
	Joined bool    // it ran on from the leg before, and had no set-up

	// Cleared is what was flown to clear the area before the series, its last turn positive toward the first leg.
	Cleared track.Cleared
}

// New begins a leg. arcs is what the judges of the station share; it may be nil.
func New(p *plan.Plan, past *track.Ring, at Start, arcs *spectral.Memory) *Leg {
	l := &Leg{plan: p}
	l.Side, l.Start = at.Side, at.Time
	l.prev, l.Cur = &l.moments[0], &l.moments[1]
	l.Facts, l.Origin = facts(p, past, at)
	l.Facts.Arcs = arcs
	l.measures.begin(p.Card, &l.Facts)
	l.passage.begin(p.Card.Checkpoints)
	l.drawing.begin(p.Card.Turn)
	l.ending.levelSince = math.NaN()
	return l
}

// facts gathers what was known at the entry of a leg, and the unwrapped heading there.
func facts(p *plan.Plan, past *track.Ring, at Start) (f check.Facts, origin float64) {
	f = check.Facts{
		Aircraft: p.Aircraft,
		Known:    p.Known,
		Side:     at.Side,
		Nose:     p.Nose,
		Dive:     p.Dive(),
		Setup:    map[string]float64{},
	}
	w, _ := past.Over(at.Time-2, at.Time)
	if w.N == 0 {
		w, _ = past.Over(at.Time-0.2, at.Time+0.2)
	}
	f.Entry.Set(&w.Sample, 0, at.Side)
	f.Entry.Sample.Put(stream.Time, at.Time)
	f.Duration = p.Duration(w.Sample.Value(stream.Airspeed), w.Sample.Value(stream.Altitude))
	f.Climb = p.Climb()
	if !at.Joined {
		setUpFacts(&f, past, at.Time)
		clearingFacts(&f, &at.Cleared)
	}
	return f, w.Turned
}

// setUpFacts adds the set-up: the means of the last second and a half, over three seconds for what wanders.
func setUpFacts(f *check.Facts, past *track.Ring, start float64) {
	short, _ := past.Over(start-1.5, start)
	for ch := range stream.NumChannels {
		if x, ok := short.Sample.Get(ch); ok {
			f.Setup[ch.String()] = x
		}
	}
	if b, ok := f.Setup["bank"]; ok {
		f.Setup["bank"] = b * f.Side
	}
	long, _ := past.Over(start-3, start)
	if _, ok := long.Sample.Get(stream.Airspeed); ok {
		f.Setup["speed-spread"] = long.HighSpeed - long.LowSpeed
	}
	f.Setup["turn-rate"] = long.TurnRate
}

// clearingFacts adds the clearing turns, as far as they are known.
func clearingFacts(f *check.Facts, c *track.Cleared) {
	if !c.Known {
		return
	}
	f.Setup[check.Clearing], f.Setup[check.ClearingBank], f.Setup[check.ClearingSide] = c.Turned, c.Bank, c.Last
}

// DrawFrom sets the axes of the trace over the ground.
func (l *Leg) DrawFrom(axes ground.Axes) { l.drawing.axes = axes }

// Replay flies the leg from its beginning through the past, and returns its end if it has come already.
func (l *Leg) Replay(past *track.Ring) End {
	l.ending.replaying = true
	defer func() { l.ending.replaying = false }()
	for i := past.Len() - 1; i >= 0; i-- {
		if p := past.Back(i); p.Time() >= l.Start {
			if e := l.Step(&p.Sample, p.Turned); e.Outcome != "" {
				return e
			}
		}
	}
	return End{}
}

// Step takes the next sample with its unwrapped heading (°), and returns the end of the leg if it has come.
func (l *Leg) Step(s *stream.Sample, turned float64) End {
	l.move(s, turned)
	l.Cur.Out = l.ending.out(l.Cur.Time())
	if l.ending.recovering {
		l.measures.recover(l.Cur)
		return l.ending.seek(&l.Position, l.plan.Card)
	}
	l.measures.step(l.prev, l.Cur)
	l.passage.step(l.Cur)
	l.drawing.add(l.Cur, &l.Facts)
	l.Farthest = math.Max(l.Farthest, l.Cur.Turn)
	return l.ending.seek(&l.Position, l.plan.Card)
}

// Recovering returns the end of a leg that is over but for the recovery after its exit; ok is false before that.
func (l *Leg) Recovering() (e End, ok bool) { return l.ending.finished(), l.ending.recovering }

// Exiting reports whether the wings have come level at the end of the turn.
func (l *Leg) Exiting() bool { return l.ending.exiting }

// Next returns the index of the checkpoint to come.
func (l *Leg) Next() int { return l.passage.next }

// Axes returns those of the trace over the ground.
func (l *Leg) Axes() ground.Axes { return l.drawing.axes }

// Trace returns the trace so far.
func (l *Leg) Trace() []coach.Trace { return l.drawing.trace }
