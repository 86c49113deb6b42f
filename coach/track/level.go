package track

import (
	"math"

	"halfturn/coach/aero"
	"halfturn/coach/ground"
	"halfturn/stream"
)

const degree = math.Pi / 180

// A Reference is the level flight from which a leg departs.
type Reference struct {
	OK          bool
	Joined      bool    // it is the exit of the leg before, which ran straight into this one
	Turned      float64 // ° of heading, unwrapped
	Bank, Pitch float64 // ° at which heading and height are held
	Until       float64 // stream time of the last such flight, s
	Altitude    float64 // ft
	Place       ground.Place
	Heading     float64 // °, as sent
	level       bool    // flown with the wings level
}

// Level finds the reference. The zero value has none.
type Level struct {
	flight Reference // the latest level flight
	exit   Reference // of a leg that may run straight into the next
	trim   trim
}

// What counts as steady flight, over two seconds. Common practice, no source; proved on recorded flights.
const (
	steadyOver = 2.0  // s
	steadyTilt = 12.0 // °: no steady flight beyond
	steadyRoll = 1.0  // °/s
	steadyTurn = 2.0  // °/s
)

// What of it counts as level flight: less than a gentle first roll, more than a hand that holds the wings level.
const (
	levelOff   = 4.5  // ° of bank off the one that holds the heading
	levelTurn  = 2.0  // °: the bank of a level turn as fast as the heading moves
	levelNose  = 0.5  // °/s
	levelStale = 15.0 // s without level flight after which steady flight will do,
	levelWorn  = 6.0  // if its bank is at most this, °
	levelLeft  = 45.0 // ° of turn after which steady flight will do
)

// A climb with falling airspeed, both faster than this, is not steady flight (common practice, no source; proved on
// recorded lazy eights). Level flight looks like that now and then; the reference then stays as it was.
const (
	zoomClimb = 100.0 // ft/min
	zoomSpeed = 0.12  // kt/s
)

// energy are the channels that show a zoom.
const energy = stream.Set(1<<stream.Altitude | 1<<stream.Airspeed)

// Clear forgets everything.
func (l *Level) Clear() { *l = Level{} }

// EndLeg starts the search again after a leg. Its exit is the reference until level flight comes, when the leg
// was finished.
func (l *Level) EndLeg(finished bool, turned, pitch, ended float64) {
	l.flight, l.exit = Reference{}, Reference{}
	if finished {
		l.exit = Reference{OK: true, Joined: true, level: true, Turned: turned, Pitch: pitch, Until: ended}
	}
}

// Flight returns the latest level flight.
func (l *Level) Flight() *Reference { return &l.flight }

// Reference returns what a leg would depart from: the exit of the leg before that ran into it, else level flight.
func (l *Level) Reference() *Reference {
	if l.exit.OK {
		return &l.exit
	}
	return &l.flight
}

// Renew makes the last two seconds the reference when they were steady level flight. A roll-in, however gentle, is
// not: the bank is off by then, or the heading moves. Steady flight that is not level (a wing held low, a slow turn)
// becomes the reference only when there has been none for a while.
func (l *Level) Renew(t *Tracker) {
	w, full := t.Past.Rates(t.Now - steadyOver)
	if !full || !w.steady() {
		return
	}
	turning, was := w.turningBank(), *l.Reference()
	l.trim.add(w.Bank - turning)
	bank := l.trim.bank
	if math.Abs(w.Bank-bank) >= levelOff {
		bank = w.Bank
	}
	straight := bank == l.trim.bank && math.Abs(turning) < levelTurn
	level := straight && math.Abs(w.NoseRate) < levelNose
	if was.Joined { // a leg that runs straight on would zoom
		was.level = !straight || !t.Past.Holds(energy)
	}
	if !level {
		stale := t.Now-was.Until > levelStale && math.Abs(w.Bank) < levelWorn
		if was.level && !stale && math.Abs(w.Turned-was.Turned) < levelLeft {
			return
		}
	}
	var now stream.Sample
	t.Past.Sample(0, &now)
	l.flight = Reference{
		OK:       true,
		level:    level,
		Turned:   w.Turned,
		Bank:     bank,
		Pitch:    w.Pitch - w.pathAngle(),
		Until:    t.Now,
		Altitude: now.Value(stream.Altitude),
		Place:    ground.PlaceOf(&now),
		Heading:  now.Value(stream.Heading),
	}
	l.exit = Reference{}
}

// steady reports whether it is steady flight, level or not.
func (w *Rates) steady() bool {
	zooming := w.Climb > zoomClimb && w.SpeedRate < -zoomSpeed
	return !zooming && !(math.Abs(w.Bank) >= steadyTilt) &&
		!(math.Abs(w.BankRate) >= steadyRoll) && !(math.Abs(w.TurnRate) >= steadyTurn)
}

// A trim is the bank that holds the heading: a wing is held a little low against a rudder that is not in trim.
type trim struct{ bank, n float64 }

// How quickly a trim follows, and how far, being updated ten times a second (common practice, no source).
const (
	trimFirst = 10.0
	trimOver  = 80.0
	mostTrim  = 4.0 // °
)

// add takes a bank less the one that turns as fast as the heading moves.
func (t *trim) add(bank float64) {
	t.n = min(t.n+1, trimOver)
	t.bank += (bank - t.bank) / (t.n + trimFirst)
	t.bank = max(-mostTrim, min(mostTrim, t.bank))
}

// turningBank is the bank of a level turn as fast as the heading moves, °: tan(bank) = ωV/g (Pilot's Handbook of
// Aeronautical Knowledge, aerodynamics of flight).
func (w *Rates) turningBank() float64 {
	return math.Atan(w.TurnRate*degree*w.Speed*aero.FeetPerSecond/aero.Gravity) / degree
}

// pathAngle is the angle of the flight path above the horizon, °; 0 when it is not known.
func (w *Rates) pathAngle() float64 {
	return math.Asin(max(-1, min(1, w.Climb/(w.Speed*60*aero.FeetPerSecond)))) / degree
}
