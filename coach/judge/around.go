package judge

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/aero"
	"halfturn/coach/ground"
	"halfturn/coach/maneuver"
	"halfturn/stream"
)

// An around remembers what a leg is flown about as the flight so far has it: to find it takes the whole way.
type around struct {
	next float64 // ° of turn from which it is looked for again
	spot ground.Spot
	ok   bool
	hold [][2]float64
}

// How often it is looked for, and for which turn angles the bank is worked out that holds the radius, °.
const (
	aroundEvery = 5.0
	holdEvery   = 30.0
	holdFor     = 360.0
)

// UsualRadius returns how far off the wing the point of a turn is meant to be, ft: the radius of the reference path in
// the middle of the turn; 0 where that is not known.
func (j *Judge) UsualRadius() float64 {
	path := j.opt.Plan.Reference()
	if j.opt.Plan.Card.Ground.About == "" || path == nil {
		return 0
	}
	return path.At(j.opt.Plan.Card.Turn / 2).Radius
}

// wingDown is the bank from where on a wing is down, ° (common practice, no source).
const wingDown = 3.0

// About returns a choice of a point with the wing that is meant: the one that is down; while none is, the one on the
// side of the leg that is flown or comes next, and the left one, where the pilot sits, before the first.
func (j *Judge) About(w coach.AboutChoice) coach.AboutChoice {
	if w.Where != coach.AboutWing || w.Clear {
		return w
	}
	right := false
	switch bank := j.track.Last.Value(stream.Bank); {
	case math.Abs(bank) >= wingDown:
		right = bank > 0
	case j.leg != nil:
		right = j.leg.Side > 0
	case j.flown != 0:
		right = (j.flown > 0) != j.opt.Plan.Card.Series.Opposite
	}
	w.Where = "left"
	if right {
		w.Where = "right"
	}
	return w
}

// Chose says which point was chosen, as of About.
func (j *Judge) Chose(w coach.AboutChoice) {
	if w.Clear {
		w.Where = ""
	}
	j.talk.Chose(w.Where, j.opt.Plan.Card.Ground.About == maneuver.Pylon)
}

// Rechoose takes what was chosen to fly about into the leg that is being flown.
func (j *Judge) Rechoose(clear bool) {
	if j.leg == nil || j.opt.Plan.Card.Ground.About == "" {
		return
	}
	j.leg.Facts.Chosen = nil
	if spot, ok := j.track.Sight.Spots().Newest(); ok && !clear {
		j.leg.Facts.Chosen = &spot
	}
	j.leg.around = around{}
}

// frameAround returns how the leg stands to what it is flown about; nil where it is flown about nothing.
func (j *Judge) frameAround(l *flight) *coach.Around {
	what := j.opt.Plan.Card.Ground.About
	if what == "" {
		return nil
	}
	s := &l.Cur.Sample
	f := newAround(what, s)
	f.Chosen = l.Facts.Chosen != nil
	a := j.findAround(l)
	if !a.ok {
		return f
	}
	stand, ok := ground.StandOf(ground.Fixed{Lat: a.spot.Lat, Lon: a.spot.Lon}, &j.track.Ground, s, l.Side)
	if !ok {
		return f
	}
	f.Bearing, f.Distance = new(coach.Round(stand.Bearing, 1)), new(coach.Round(stand.Distance, 0))
	if a.spot.Within > 0 {
		f.Within = new(coach.Round(a.spot.Within, 0))
	}
	switch {
	case what == maneuver.Pylon && !math.IsNaN(stand.Ahead):
		f.Ahead = new(coach.Round(stand.Ahead, 1))
	case what == maneuver.Center && a.spot.Radius > 0:
		f.Radius = new(coach.Round(a.spot.Radius, 0))
		f.Off = new(coach.Round(100*(stand.Distance/a.spot.Radius-1), 1))
		if now, ok := j.holding(l, a.spot.Radius, l.Cur.Turn); ok {
			f.Hold = &coach.Hold{Now: coach.Round(now, 1), Ahead: a.hold}
		}
	}
	return f
}

// aroundNext returns what is known before a leg of what it will be flown about; nil where it is flown about nothing.
func (j *Judge) aroundNext(s *stream.Sample) *coach.Around {
	what := j.opt.Plan.Card.Ground.About
	if what == "" {
		return nil
	}
	f := newAround(what, s)
	_, f.Chosen = j.track.Sight.Spots().Newest()
	return f
}

// newAround returns what the sample alone has: the pivotal altitude, and how far the flight is above it.
func newAround(what string, s *stream.Sample) *coach.Around {
	f := &coach.Around{What: what}
	if what != maneuver.Pylon {
		return f
	}
	speed, ok := s.Get(stream.GroundSpeed)
	if !ok {
		return f
	}
	pivotal := aero.PivotalAltitude(speed)
	f.Pivotal = new(coach.Round(pivotal, 0))
	if height, ok := s.Get(stream.Height); ok {
		f.Above = new(coach.Round(height-pivotal, 0))
	}
	return f
}

// findAround finds what the leg is flown about as the flight so far has it, now and then.
func (j *Judge) findAround(l *flight) *around {
	a := &l.around
	if l.Cur.Turn < a.next {
		return a
	}
	a.next = l.Cur.Turn + aroundEvery
	a.spot, a.ok = l.SpotSoFar()
	a.hold = nil
	if !a.ok || j.opt.Plan.Card.Ground.About != maneuver.Center {
		return a
	}
	for turn := l.Cur.Turn; turn <= l.Cur.Turn+holdFor; turn += holdEvery {
		bank, ok := j.holding(l, a.spot.Radius, turn)
		if !ok {
			a.hold = nil
			break
		}
		a.hold = append(a.hold, [2]float64{coach.Round(turn, 0), coach.Round(bank, 1)})
	}
	return a
}

// holding returns the bank that holds a radius (ft) over the ground at a turn angle of the leg, °: at the true airspeed
// of now, changed as on the reference path from here to there, in the wind. ok is false where one of them is not known.
func (j *Judge) holding(l *flight, radius, turn float64) (bank float64, ok bool) {
	tas, ok := ground.TrueAirspeed(&l.Cur.Sample)
	if !ok {
		return 0, false
	}
	if path := j.opt.Plan.Reference(); path != nil {
		tas *= path.At(turn).TrueAirspeed / path.At(l.Cur.Turn).TrueAirspeed
	}
	return j.track.Ground.BankAround(j.track.Heading+l.Side*(turn-l.Cur.Turn), tas, radius, l.Side)
}

// pivotalAt predicts the altitude (ft above sea level) at which a pylon stays on the wing at a turn angle: by the
// ground speed of now, or where the wind is known by that which the nose will have there. The ground is taken to be as
// high as it is here.
func (j *Judge) pivotalAt(l *flight, turn float64) (ft float64, ok bool) {
	s := &l.Cur.Sample
	speed, ok := s.Get(stream.GroundSpeed)
	height, has := s.Get(stream.Height)
	altitude, had := s.Get(stream.Altitude)
	if !ok || !has || !had {
		return 0, false
	}
	if tas, ok := ground.TrueAirspeed(s); ok {
		if kt, ok := j.track.Ground.SpeedOver(j.track.Heading+l.Side*(turn-l.Cur.Turn), tas); ok {
			speed = kt
		}
	}
	return altitude - height + aero.PivotalAltitude(speed), true
}
