package judge

import (
	"halfturn/coach"
	"halfturn/coach/ground"
	"halfturn/coach/leg"
	"halfturn/stream"
)

// A flight is a leg being flown, and what frames show of it.
type flight struct {
	*leg.Leg
	point     ground.Point // the reference point
	phase     int          // index in the card's phases; −1 before the first
	predicted prediction   // the latest
	pace      pace
	around    around
}

// beginLeg opens a leg to a side once the flight has committed to it: it finds the departure and replays the past from
// there.
func (j *Judge) beginLeg(side float64) {
	p, past, path := j.opt.Plan, &j.track.Past, &j.track.Ground
	ref := j.level.Reference()
	start := leg.Start{Side: side, Joined: ref.Joined}
	start.Time = past.Departure(ref, side, p.Card.Commit.Bank == 0)
	if j.series == nil || start.Time-j.ended > p.Card.Series.Gap {
		j.cleared = j.clearing.Before(start.Time)
		j.cleared.Last *= side
	}
	l := &flight{Leg: leg.New(p, past, start, &j.shared.common), phase: -1}
	l.Clear(j.cleared)
	l.Expect(p.Next(j.legNumber()))
	j.talk.Begin(told{j, l})
	var entry stream.Sample
	past.Sample(past.At(l.Start), &entry)
	at, heading := ground.PlaceOf(&entry), l.Facts.Entry.Sample.Value(stream.Heading)
	l.Fly(j.shared.course(start, p.Card.Longest(), path.Axes(at, heading, side)))
	if spot, ok := j.track.Sight.LegSpot(path, at, heading, side); ok && p.Card.Ground.About != "" {
		l.Facts.Chosen = &spot
	}
	if aside, ok := path.Aside(heading, side); ok {
		l.Wind(aside)
	}
	l.point = j.track.Sight.LegPoint(path, at, heading, side)
	j.leg = l
	j.joinSeries(l)
	if e := l.Replay(past); e.Outcome != "" {
		j.endLeg(e)
		return
	}
	j.enterPhase(l)
	j.talk.Skip()
}

// fly judges the next sample of the leg.
func (j *Judge) fly(s *stream.Sample) {
	l := j.leg
	if e := l.Step(s, j.track.Turned); e.Outcome != "" {
		j.endLeg(e)
		return
	}
	if _, over := l.Recovering(); over {
		return
	}
	if j.opt.Dismiss > 0 && l.Steps%dismissEvery == 0 && j.opt.Plan.Misfit(l.Attitudes(), false) > j.opt.Dismiss {
		j.endLeg(leg.End{Outcome: coach.BrokenOff})
		return
	}
	j.enterPhase(l)
	if !j.mute {
		j.talk.Fly()
	}
}

// endLeg closes, grades and reports the leg.
func (j *Judge) endLeg(e leg.End) {
	l := j.leg
	j.leg = nil
	if flown, ok := l.Recovering(); ok { // a stall in the recovery comes after the exit
		e.Exit, e.Level = flown.Exit, flown.Level
	}
	if j.dismissed(l, e) {
		return
	}
	j.ended, j.flown = l.Cur.Time(), l.Side
	done := l.Grade(j.legNumber(), j.talk.End(), e)
	if j.opt.Explain != nil && !e.External {
		j.opt.Explain.ExplainLeg(j.opt.Plan, done)
	}
	j.another(done, e)
	ungrade(done, e)
	if j.drill != nil {
		j.drill.Take(done)
	}
	finished, turned := e.Outcome == coach.Finished, 0.0
	if finished {
		turned = l.Origin + l.Side*e.Exit.Turn
	}
	j.level.EndLeg(finished, turned, l.Facts.Entry.Sample.Value(stream.Pitch), j.ended)
	j.clearing.Skip()
	j.emit(done)
	j.emit(&coach.Phase{
		Time:      coach.Round(j.ended, 3),
		Phase:     "after",
		Turn:      coach.Round(l.Cur.Turn, 1),
		Direction: done.Direction,
	})
	if !e.External {
		j.talk.Result(l.Cur.Turn, done)
	}
	j.addToSeries(done)
}

// dismissEvery is after how many samples it is examined whether a leg is none of the card's.
const dismissEvery = 24

// dismissed passes over a leg that is none of the card's, and reports whether it did.
func (j *Judge) dismissed(l *flight, e leg.End) bool {
	if j.opt.Dismiss == 0 {
		return false
	}
	whole := e.Outcome == coach.Finished
	if given := !whole && !j.opt.Plan.Card.Several() && l.Farthest > j.opt.Plan.Card.Turn/2; whole || given {
		if j.opt.Plan.Misfit(l.Attitudes(), whole) <= j.opt.Dismiss {
			return false
		}
	}
	finished, turned := e.Outcome == coach.Finished, 0.0
	if finished {
		turned = l.Origin + l.Side*e.Exit.Turn
	}
	j.level.EndLeg(finished, turned, l.Facts.Entry.Sample.Value(stream.Pitch), l.Cur.Time())
	j.talk.End()
	if j.series != nil && len(j.series.Legs) == 0 {
		j.series = nil
	}
	return true
}

// enterPhase reports a phase of the card when the turn enters it.
func (j *Judge) enterPhase(l *flight) {
	phases := j.opt.Plan.Card.Phases
	at := 0
	for at < len(phases)-1 && l.Cur.Turn >= phases[at].To {
		at++
	}
	if at > l.phase {
		l.phase = at
		j.emit(&coach.Phase{
			Time:      coach.Round(j.track.Now, 3),
			Phase:     phases[at].Name,
			Turn:      coach.Round(l.Cur.Turn, 1),
			Direction: coach.Direction(l.Side),
		})
	}
}
