package judge

import (
	"cmp"
	"math"

	"halfturn/coach/aero"
	"halfturn/coach/ground"
	"halfturn/coach/maneuver"
	"halfturn/coach/track"
	"halfturn/stream"
)

// A prediction is the time to a turn angle, remembered for one step of the leg.
type prediction struct {
	step int // of the leg
	turn float64
	s    float64
	ok   bool
}

// until predicts the time to a turn angle, s; ok is false when it cannot be predicted. The full turn stands for the
// exit, where the wings come level.
func (j *Judge) until(l *flight, turn float64) (s float64, ok bool) {
	p := &l.predicted
	if p.step != l.Steps || p.turn != turn {
		*p = prediction{step: l.Steps, turn: turn}
		p.s, p.ok = j.predict(l, turn)
	}
	return p.s, p.ok
}

func (j *Judge) predict(l *flight, turn float64) (s float64, ok bool) {
	switch full := j.exitOf(l); {
	case turn >= full:
		return j.untilExit(l, turn)
	case turn >= full-maneuver.ExitLead:
		return j.untilRolledOut(l, turn)
	}
	return j.untilTurn(l, turn)
}

// exitOf returns the turn angle at which a leg is to end, °.
func (j *Judge) exitOf(l *flight) float64 {
	if j.opt.Plan.Card.Several() {
		return cmp.Or(l.Expected().Turn, j.opt.Plan.Card.Turn)
	}
	return j.opt.Plan.Card.Turn
}

// untilRolledOut predicts when a turn angle of the roll-out comes for a pilot who rolls steadily to level wings at the
// full turn: the bank, and with it the turn rate, is in proportion to the time left, so the turn left is in proportion
// to its square.
func (j *Judge) untilRolledOut(l *flight, turn float64) (s float64, ok bool) {
	w, _ := j.track.Past.Rates(j.track.Now - rateOver)
	rate := w.TurnRate * l.Side
	full := j.exitOf(l)
	left := full - l.Cur.Turn + rate*rateOver/2 // where the rate was measured
	if rate <= 0.5 || left <= 0 {
		return 0, false
	}
	whole := 2 * left / rate
	return max(0, whole*(1-math.Sqrt((full-turn)/left))-rateOver/2), true
}

// aroundSteps is in how many parts the turn to go is taken where the pace follows the ground speed.
const aroundSteps = 6

// untilAround predicts the time to a turn angle of a turn at one distance from a point on the ground: the airplane
// goes round as fast as it goes over the ground, so the turn rate of now grows and falls with the ground
// speed. ok is false where the wind is not known.
func (j *Judge) untilAround(l *flight, turn, rate float64) (s float64, ok bool) {
	tas, ok := ground.TrueAirspeed(&l.Cur.Sample)
	if !ok {
		return 0, false
	}
	at := func(turn float64) (kt float64) {
		kt, ok = j.track.Ground.SpeedOver(j.track.Heading+l.Side*(turn-l.Cur.Turn), tas)
		return kt
	}
	now := at(l.Cur.Turn - rate*rateOver/2) // where the rate was measured
	step := (turn - l.Cur.Turn) / aroundSteps
	for i := 0; ok && i < aroundSteps; i++ {
		s += step / rate * now / at(l.Cur.Turn+(float64(i)+0.5)*step)
	}
	return s, ok
}

// untilTurn takes the middle of two predictions: from the turn rate and its change, and from the time that the
// reference path takes over the same angles, at the pace of now. The first sees what this pilot does, the second what
// comes later; it may correct the first by a third.
func (j *Judge) untilTurn(l *flight, turn float64) (s float64, ok bool) {
	now := j.paceOf(l)
	left := turn - l.Cur.Turn
	if now.rate <= 0.5 {
		return 0, false
	}
	if j.opt.Plan.Card.Ground.About == maneuver.Center {
		if s, ok = j.untilAround(l, turn, now.rate); ok {
			return max(0, s), true
		}
	}
	s = left / now.rate
	if now.growth != 0 {
		s = accelerated(left, now.rate, now.growth)
	}
	if now.seconds > 0 {
		_, there := j.opt.Plan.Path.TimeAt(turn)
		far := (there - now.at) * now.turned / now.seconds / now.rate
		s = far + max(-0.3*far, min(0.3*far, (s-far)/2))
	}
	return max(0, s), true
}

// A pace is how fast a leg turns at one step, and how fast the reference path turns there. The predictions for several
// turn angles share it.
type pace struct {
	step            int
	rate            float64 // °/s
	growth          float64 // of the rate, as a share of itself per second
	at              float64 // time of the reference path at the turn angle of the leg, s; 0 without a path
	turned, seconds float64 // ° that the path turns around where the rate was measured, and the time it takes
}

// paceOf returns the pace at the current step.
func (j *Judge) paceOf(l *flight) *pace {
	p := &l.pace
	if p.step == l.Steps {
		return p
	}
	w, _ := j.track.Past.Rates(j.track.Now - rateOver)
	*p = pace{step: l.Steps, rate: w.TurnRate * l.Side}
	if path := j.opt.Plan.Path; p.rate > 0.5 {
		if j.opt.Plan.Card.Ground.About == "" { // about a point the bank goes back and forth
			p.growth = l.rateGrowth(w)
		}
		if path == nil {
			return p
		}
		back := l.Cur.Turn - p.rate*rateOver/2 // where the rate was measured
		from, began := path.TimeAt(back - 2)
		to, ended := path.TimeAt(back + 2)
		p.turned, p.seconds = to-from, ended-began
		_, p.at = path.TimeAt(l.Cur.Turn)
	}
	return p
}

// rateOver is the stretch over which turn and roll rate are measured, s.
const rateOver = 0.5

// rateGrowth is how fast the turn rate grows, as a share of itself per second. In a turn of load factor n the turn
// rate is g·n·sin(bank)/V: it grows with the bank and the pull, and falls with the speed.
func (l *flight) rateGrowth(w *track.Rates) float64 {
	const rad = math.Pi / 180
	sin, cos := math.Sincos(max(l.Cur.Sample.Value(stream.Bank), 8) * rad)
	growth := w.BankRate * l.Side * rad * cos / sin
	if v, ok := l.Cur.Sample.Get(stream.Airspeed); ok && v > 0 {
		growth -= w.SpeedRate / v
	}
	if n, ok := l.Cur.Sample.Get(stream.NormalLoad); ok && n > 0.5 {
		growth += w.LoadRate / n
	}
	return growth
}

// accelerated is the time to turn by an angle when the rate keeps growing as it does. The rate was measured over
// rateOver, so it is that of half as long ago.
func accelerated(left, rate, growth float64) float64 {
	now := rate * max(0.2, 1+growth*rateOver/2)
	if d := now*now + 2*rate*growth*left; d > 0.1*now*now {
		return 2 * left / (now + math.Sqrt(d))
	}
	return 2 * left / (1.3 * now) // it would stop turning before
}

// untilExit predicts when the wings come level: the mean of the time in which the bank comes off at the rate of now,
// and of the time in which a steady roll-out uses up the turn that is left. Pilots fly the last degrees differently, so
// it is rough until the wings are nearly level.
func (j *Judge) untilExit(l *flight, turn float64) (s float64, ok bool) {
	w, _ := j.track.Past.Rates(j.track.Now - rateOver)
	off, rate := -w.BankRate*l.Side, w.TurnRate*l.Side
	if l.Exiting() || rate < 0.3 || l.Cur.Turn < turn-maneuver.ExitMargin {
		return 0, false
	}
	rolled, turned := l.exits(turn, off, rate)
	if off < 0.5 {
		return turned, true
	}
	return (rolled + turned) / 2, true
}

// exits returns the two predictions of untilExit, s.
func (l *flight) exits(turn, off, rate float64) (rolled, turned float64) {
	bank := l.Cur.Sample.Value(stream.Bank)
	rolled = max(0, bank-aero.LevelBank) / off
	return rolled, max(0, 2*(turn-l.Cur.Turn)/rate*(1-aero.LevelBank/max(bank, aero.LevelBank)))
}
