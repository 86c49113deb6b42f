package judge

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/ground"
	"halfturn/coach/track"
	"halfturn/stream"
)

// A leg is a course reversal being flown.
type leg struct {
	position
	facts    check.Facts
	measures measures
	passage  passage
	drawing  drawing
	point    ground.Point // the reference point
	ending   ending
	talk     talk
	phase    int // of the card; −1 before the first

	predicted prediction // the last one
}

// A position is where a leg is in its turn.
type position struct {
	side     float64 // 1 right, −1 left
	origin   float64 // unwrapped heading of the entry, °
	start    float64 // stream time, s
	prev     *check.Moment
	cur      *check.Moment
	farthest float64 // ° of turn
	steps    int     // moments so far
	moments  [2]check.Moment
}

// move takes the next sample with its unwrapped heading.
func (p *position) move(s *stream.Sample, turned float64) {
	p.prev, p.cur = p.cur, p.prev
	p.cur.Set(s, (turned-p.origin)*p.side, p.side)
	if p.steps == 0 {
		*p.prev = *p.cur
	}
	p.steps++
}

// beginLeg opens a leg to a side that the flight has committed itself to: it finds where the leg departed, and flies
// it from there through the past.
func (j *Judge) beginLeg(side float64) {
	card, past := j.opt.Plan.Card, &j.track.Past
	ref := j.level.Reference()
	start := past.Departure(ref, side, card.Commit.Bank == 0)
	l := &leg{phase: -1}
	l.side, l.start = side, start
	l.prev, l.cur = &l.moments[0], &l.moments[1]
	l.facts, l.origin = j.facts(start, side, ref.Joined)
	l.measures.begin(card, &l.facts)
	l.talk.begin(card)

	at, heading := ground.PlaceOf(&past.At(start).Sample), l.facts.Entry.Sample.Value(stream.Heading)
	path := &j.track.Ground
	l.drawing.begin(card.Turn, path.Axes(at, heading, side))
	l.point = j.track.Sight.LegPoint(path, at, heading, side)
	l.passage.begin(card.Checkpoints)
	l.ending.levelSince = math.NaN()
	j.leg = l
	j.joinSeries(l)

	l.ending.replaying = true
	for i := past.Len() - 1; i >= 0 && j.leg == l; i-- {
		if e := past.Back(i); e.Time() >= start {
			j.advance(&e.Sample, e.Turned)
		}
	}
	l.ending.replaying = false
	if j.leg == l {
		j.enterPhase(l)
		l.talk.skip(card, l.cur.Turn)
	}
}

// facts gathers what was known at the entry of a leg, and the unwrapped heading there. A leg that ran on from the one
// before had no set-up.
func (j *Judge) facts(start, side float64, joined bool) (f check.Facts, origin float64) {
	p, past := j.opt.Plan, &j.track.Past
	f = check.Facts{
		Aircraft: p.Aircraft,
		Known:    p.Known,
		Side:     side,
		Nose:     p.Nose,
		Setup:    map[string]float64{},
		Arcs:     j.arcs,
	}
	w, _ := past.Over(start-2, start)
	if w.N == 0 {
		w, _ = past.Over(start-0.2, start+0.2)
	}
	f.Entry.Set(&w.Sample, 0, side)
	f.Entry.Sample.Put(stream.Time, start)
	f.Duration = p.Duration(w.Sample.Value(stream.Airspeed), w.Sample.Value(stream.Altitude))
	if !joined {
		setUpFacts(&f, past, start)
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

// fly takes the next sample of the leg.
func (j *Judge) fly(s *stream.Sample) {
	l := j.leg
	j.advance(s, j.track.Turned)
	if j.leg != l {
		return
	}
	j.enterPhase(l)
	j.say(l)
}

// advance moves the leg on, and ends it when it has ended.
func (j *Judge) advance(s *stream.Sample, turned float64) {
	l := j.leg
	l.move(s, turned)
	l.measures.step(l.prev, l.cur)
	l.passage.step(l.cur)
	l.drawing.add(l.cur, &l.facts)
	l.farthest = math.Max(l.farthest, l.cur.Turn)
	if e := l.ending.seek(&l.position, j.opt.Plan.Card); e.outcome != "" {
		j.endLeg(e.outcome, e.reason, e.exit)
	}
}

// endLeg closes the leg, grades it and reports it.
func (j *Judge) endLeg(outcome, reason string, exit *check.Moment) {
	l := j.leg
	j.leg = nil
	j.ended = l.cur.Time()
	done := j.gradeLeg(l, outcome, reason, exit)
	finished, turned := outcome == coach.Finished, 0.0
	if finished {
		turned = l.origin + l.side*exit.Turn
	}
	j.level.EndLeg(finished, turned, l.facts.Entry.Sample.Value(stream.Pitch), j.ended)
	j.clearing.Skip()
	j.emit(done)
	j.emit(&coach.Phase{
		Time:      coach.Round(j.ended, 3),
		Phase:     "after",
		Turn:      coach.Round(l.cur.Turn, 1),
		Direction: done.Direction,
	})
	j.sayResult(l, done)
	j.addToSeries(done)
}

// enterPhase reports the phase of the card that the turn has entered.
func (j *Judge) enterPhase(l *leg) {
	phases := j.opt.Plan.Card.Phases
	at := 0
	for at < len(phases)-1 && l.cur.Turn >= phases[at].To {
		at++
	}
	if at > l.phase {
		l.phase = at
		j.emit(&coach.Phase{
			Time:      coach.Round(j.track.Now, 3),
			Phase:     phases[at].Name,
			Turn:      coach.Round(l.cur.Turn, 1),
			Direction: coach.Direction(l.side),
		})
	}
}
