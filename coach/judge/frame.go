package judge

import (
	"cmp"
	"math"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/ground"
	"halfturn/stream"
)

// shown lists the channels of a frame.
var shown = [...]stream.Channel{
	stream.Heading, stream.Pitch, stream.Bank, stream.Airspeed, stream.Altitude, stream.Height,
	stream.VerticalSpeed, stream.Ball, stream.NormalLoad, stream.Throttle, stream.RPM,
}

// shownAfter is how long after a leg frames are in the state "after", s.
const shownAfter = 4.0

// Frame returns the current state. It changes nothing.
func (j *Judge) Frame() *coach.Frame {
	t := j.track
	s, now := &t.Last, t.Pose()
	f := &coach.Frame{
		Time:   coach.Round(t.Now, 3),
		State:  "set-up",
		Phase:  "set-up",
		Values: make(map[string]float64, len(shown)),
		Cues:   []coach.NextCue{},
		Ready:  j.setup.ready,
		Line:   t.Sight.ShowLine(t.Heading),
	}
	var m check.Moment
	axes, side := ground.Axes{}, 1.0
	switch l := j.leg; {
	case l != nil && recovering(l):
		j.frameRecovery(f, l)
		m, axes = *l.Cur, l.Axes()
	case l != nil:
		j.frameLeg(f, l, &now)
		m, axes = *l.Cur, l.Axes()
	case !math.IsNaN(j.ended) && t.Now-j.ended < shownAfter:
		f.State, f.Phase = "after", "after"
	default:
		if turn := j.frameTurn(f); turn != 0 {
			ref := j.level.Flight()
			side, axes = turn, t.Ground.Axes(ref.Place, ref.Heading, turn)
		}
	}
	if j.leg == nil {
		m.Set(s, 0, side)
		f.Gates = j.gateList()
		f.Around = j.aroundNext(s)
		t.Sight.Show(f, &t.Ground, &now)
	}
	if t.Begun {
		f.Ground = t.Ground.Show(s, &axes)
	}
	for _, ch := range shown {
		if v, ok := m.Sample.Get(ch); ok {
			f.Values[ch.String()] = coach.Round(v, 2)
		}
	}
	if v, ok := check.StallMarginAt(s, j.opt.Plan.Aircraft.Stall); ok {
		f.Stall = new(coach.Round(v, 1))
	}
	if v := j.aboveDeck(s); !math.IsNaN(v) {
		f.Deck = new(coach.Round(v, 0))
	}
	return f
}

// recovering reports whether a leg has passed its exit and only the recovery is still watched.
func recovering(l *flight) bool { _, ok := l.Recovering(); return ok }

// frameRecovery adds what there is to show of a leg that waits for its verdict.
func (j *Judge) frameRecovery(f *coach.Frame, l *flight) {
	f.State, f.Phase = "after", "after"
	f.Direction, f.Turn, f.Climb = coach.Direction(l.Side), coach.Round(l.Cur.Turn, 2), l.climb()
	f.Awaited = &coach.Awaited{Leg: j.legNumber(), Start: coach.Round(l.Start, 3)}
}

// climb returns the height since the entry, ft; nil when it is not known.
func (l *flight) climb() *float64 {
	altitude, ok := l.Cur.Sample.Get(stream.Altitude)
	if !ok {
		return nil
	}
	return new(coach.Round(altitude-l.Facts.Entry.Sample.Value(stream.Altitude), 1))
}

// frameLeg adds the leg being flown.
func (j *Judge) frameLeg(f *coach.Frame, l *flight, now *ground.Pose) {
	p, turn := j.opt.Plan, l.Cur.Turn
	f.State, f.Direction, f.Turn = "leg", coach.Direction(l.Side), coach.Round(turn, 2)
	f.Gates = []coach.Gate{}
	if l.phase >= 0 {
		f.Phase = p.Card.Phases[l.phase].Name
	}
	f.Climb = l.climb()
	// At the entry the point stood off the wing on the side of the turn, 90° from the nose.
	f.Point, f.PointBy = new(coach.Round(stream.Wrap180(l.Side*(90-turn)), 1)), "heading"
	l.point.Show(f, &j.track.Ground, now)
	f.Around = j.frameAround(l)
	f.Next = j.frameNext(l)
	for _, to := range j.talk.Sent() {
		if left, ok := j.until(l, to); ok {
			f.Cues = append(f.Cues, coach.NextCue{To: to, Seconds: coach.Round(max(0, left), 2)})
		}
	}
}

// frameNext returns the checkpoint to come; nil while it is not known which turn is flown.
func (j *Judge) frameNext(l *flight) *coach.Next {
	p, exit := j.opt.Plan, 0.0
	if p.Card.Several() {
		if exit = l.Expected().Turn; exit == 0 {
			return nil
		}
	}
	next := p.Card.Checkpoints[l.Next()]
	show := &coach.Next{
		Turn:  next.Turn,
		Label: p.Label(next.Turn),
		Words: next.Words,
		Want:  p.Want(next.Turn),
		Point: l.Side * next.Point,
	}
	left, ok := j.until(l, cmp.Or(exit, next.Turn))
	if exit > 0 {
		show.Turn = exit
	}
	if ok {
		show.Seconds = new(coach.Round(max(0, left), 2))
	}
	return show
}

// frameTurn adds a turn that has not committed, and returns its side; 0 for none.
func (j *Judge) frameTurn(f *coach.Frame) (side float64) {
	ref := j.level.Flight()
	if !ref.OK {
		return 0
	}
	turned := j.track.Turned - ref.Turned
	if math.Abs(turned) < 3 {
		return 0
	}
	f.State, f.Turn, f.Direction = "turn", coach.Round(math.Abs(turned), 2), coach.Direction(turned)
	if now, ok := j.track.Last.Get(stream.Altitude); ok {
		f.Climb = new(coach.Round(now-ref.Altitude, 1))
	}
	return math.Copysign(1, turned)
}
