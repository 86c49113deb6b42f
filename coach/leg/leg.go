package leg

import (
	"iter"
	"math"

	"halfturn/coach/check"
	"halfturn/coach/ground"
	"halfturn/coach/kinds"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
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
	course   *Course
	drawn    int       // entries of the trace of the course so far
	above    []float32 // ft above the pivotal altitude, by entry of the trace; of a leg about a pylon
	ending   ending
	next     plan.Choice // what the order of the card asks for
	steepest float64     // ° of bank so far
	held     float64     // ° of turn where the bank was last held
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
}

// New begins a leg on a course of its own, without a way over the ground. common is what the judges of the station
// share; it may be nil.
func New(p *plan.Plan, past *track.Ring, at Start, common *check.Common) *Leg {
	l := &Leg{plan: p, course: NewCourse(at, p.Card.Longest(), ground.Axes{})}
	l.Side, l.Start = at.Side, at.Time
	l.prev, l.Cur = &l.moments[0], &l.moments[1]
	l.Facts, l.Origin = facts(p, past, at)
	l.Facts.Common = common
	l.measures.begin(p.Card, &l.Facts)
	l.passage.begin(p.Card.Checkpoints)
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
	airspeed, altitude := w.Sample.Value(stream.Airspeed), w.Sample.Value(stream.Altitude)
	f.Duration, f.Climb = p.Duration(airspeed, altitude), p.Climb(airspeed, altitude)
	if !at.Joined {
		setUpFacts(&f, p.Card, past, at.Time)
	}
	return f, w.Turned
}

// setUpFacts adds what the card asks about the set-up: the means of the last second and a half, over three seconds for
// what wanders.
func setUpFacts(f *check.Facts, card *maneuver.Card, past *track.Ring, start float64) {
	short, _ := past.Over(start-1.5, start)
	long, _ := past.Over(start-3, start)
	f.Setup[check.TurnRate] = long.TurnRate
	if _, ok := long.Sample.Get(stream.Airspeed); ok {
		f.Setup[check.SpeedSpread] = long.HighSpeed - long.LowSpeed
	}
	for i := range card.Checks {
		spec := &card.Checks[i]
		c, ok := stream.ChannelNamed(spec.Channel)
		if !ok || kinds.Of(spec).Looks != check.BeforeTurn {
			continue
		}
		if x, ok := short.Sample.Get(c); ok {
			f.Setup[spec.Channel] = x
		}
	}
	if b, ok := f.Setup["bank"]; ok {
		f.Setup["bank"] = b * f.Side
	}
}

// Clear adds what was flown to clear the area before the series, as far as it is known; its last turn is positive
// toward the first leg. A leg that ran on from another has no set-up.
func (l *Leg) Clear(c track.Cleared) {
	if setup := l.Facts.Setup; c.Known && len(setup) > 0 {
		setup[check.Clearing], setup[check.ClearingBank], setup[check.ClearingSide] = c.Turned, c.Bank, c.Last
	}
}

// Wind adds how much of the wind comes from the side of the turn, kt; negative from the other. A leg that ran on from
// another has no set-up.
func (l *Leg) Wind(aside float64) {
	if setup := l.Facts.Setup; len(setup) > 0 {
		setup[check.IntoWind] = aside
	}
}

// Expect says what the order of the card asks for in this leg.
func (l *Leg) Expect(next plan.Choice) { l.next = next }

// Expected returns the turn that the order of the card asks for, ° of bank and of turn, as long as what is flown can be
// that; the zero value where it cannot, or there is no order.
func (l *Leg) Expected() plan.Choice {
	rolledIn := l.Cur.Turn > l.next.Bank/2+rollInOver
	if l.steepest > l.next.Bank+likeExpected || rolledIn && l.steepest < l.next.Bank-likeExpected ||
		l.Cur.Turn > l.next.Turn {
		return plan.Choice{}
	}
	return l.next
}

// How far the bank may be off one that is expected, and how much turn more than half the bank it takes to be set, °
// (common practice, no source).
const (
	likeExpected = 9.0
	rollInOver   = 10.0
)

// Fly puts the leg on a course that it may share with others. It comes before the first sample.
func (l *Leg) Fly(c *Course) { l.course = c }

// Replay flies the leg from its beginning through the past, and returns its end if it has come already.
func (l *Leg) Replay(past *track.Ring) End {
	l.ending.replaying = true
	defer func() { l.ending.replaying = false }()
	var s stream.Sample
	for i := past.Since(l.Start) - 1; i >= 0; i-- {
		past.Sample(i, &s)
		if e := l.Step(&s, past.Turned(i)); e.Outcome != "" {
			return e
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
	l.course.drawing.add(l.Cur, &l.Facts)
	l.drawn = l.course.drawing.upTo(l.drawn, l.Cur)
	if l.plan.Card.Ground.About == maneuver.Pylon {
		l.noteAbove()
	}
	l.Farthest = max(l.Farthest, l.Cur.Turn)
	bank := l.Cur.Sample.Value(stream.Bank)
	l.steepest = max(l.steepest, bank)
	if bank >= heldShare*l.steepest {
		l.held = l.Cur.Turn
	}
	return l.ending.seek(&l.Position, l.plan.Card)
}

// Recovering returns the end of a leg that is over but for the recovery after its exit; ok is false before that.
func (l *Leg) Recovering() (e End, ok bool) { return l.ending.finished(), l.ending.recovering }

// Exiting reports whether the wings have come level at the end of the turn.
func (l *Leg) Exiting() bool { return l.ending.exiting }

// Next returns the index of the checkpoint to come.
func (l *Leg) Next() int { return l.passage.next }

// Axes returns those of the trace over the ground.
func (l *Leg) Axes() ground.Axes { return l.course.drawing.axes }

// Attitudes yields the attitudes of the trace so far.
func (l *Leg) Attitudes() iter.Seq[plan.Attitude] {
	return l.course.drawing.entries[:l.drawn].Attitudes()
}
