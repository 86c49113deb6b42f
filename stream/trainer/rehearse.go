package trainer

import (
	"math"

	"halfturn/stream/trainer/airplane"
)

// Rehearsals hold what was found out by flying before: pilots made from the same ones rehearse each leg once. They are
// made before any of them flies. The zero value holds nothing. They are not safe for concurrent use.
type Rehearsals struct {
	plans  map[rehearsed]plan
	shares map[rehearsed]float64 // of the power of a leg without a flaw, that ends with the energy it began with
}

// rehearsed names what is flown alike in every flight.
type rehearsed struct {
	airplane, maneuver, flaw, strength string
	leg                                int
	at                                 airplane.Model // without its Airplane, which airplane names
}

// plan is how the airplane at a place flies a task of a flight.
func (r *Rehearsals) plan(f *Flight, t *task, at *airplane.Model) plan {
	key := rehearsed{at.Airplane.Name, f.Maneuver, t.flaw.name, f.Strength, t.number, *at}
	key.at.Airplane = nil
	known, ok := r.plans[key]
	if ok {
		return known
	}
	if r.plans == nil {
		r.plans, r.shares = map[rehearsed]plan{}, map[rehearsed]float64{}
	}
	craft := *at
	craft.Settle(t.plan.start)
	if t.plan.even { // a flaw is flown with the power of a flight without it
		sound := key
		sound.flaw, sound.strength = "", ""
		share, ok := r.shares[sound]
		if !ok {
			share = t.plan.evened(&craft).share
			r.shares[sound] = share
		}
		t.plan.share = share
	}
	r.plans[key] = t.rehearse(&craft)
	return r.plans[key]
}

// rehearse finds the highest nose that brings the airspeed down to the apex, and the lowest nose
// that leaves the right height for the pull-out: what a pilot knows from earlier flights.
// It flies copies of the airplane without noise, always to the right and with feet on. The plan
// comes back with the task's flaw in it.
func (t *task) rehearse(craft *airplane.Model) plan {
	sound, bent := t.plan, t.plan
	if t.flaw.change != nil {
		t.flaw.change(&bent, t.scale)
	}
	switch {
	case bent.known:
	case t.flaw.after:
		bent.top = sound.highest(craft)
	default:
		bent.top = bent.highest(craft)
	}
	bent.top += bent.raise
	if bent.rise > 0 {
		bent.top *= bent.rise
	}
	bent.dive = bent.lowest(craft)
	if bent.dip > 0 {
		bent.dive *= bent.dip
	}
	return bent
}

// evened is the plan with the power with which the leg ends with the energy it began with. Top and dive depend on
// the power, so they are found together.
func (p plan) evened(at *airplane.Model) plan {
	for range 2 {
		p.top = p.highest(at)
		p.dive = p.lowest(at)
		q := p.plain()
		p.share = bisect(0.6, 1.1, 8, func(share float64) bool {
			q.share = share
			return tryOut(q, at).energy < 0
		})
	}
	return p
}

// plain is the plan without noise and without the parts that a rehearsal does not fly.
func (p plan) plain() plan {
	p.abandon, p.power, p.jerks, p.feet = 0, 0, 0, 1
	return p
}

func (p plan) highest(at *airplane.Model) float64 {
	p = p.plain()
	return bisect(2, 60, 11, func(top float64) bool {
		p.top, p.dive = top, math.Max(8, top)
		return tryOutAbove(p.apex, p, at).slowest > p.apex
	})
}

func (p plan) lowest(at *airplane.Model) float64 {
	if !p.back {
		return p.top
	}
	p = p.plain()
	return bisect(1, 60, 9, func(dive float64) bool {
		p.dive = dive
		o := tryOut(p, at)
		return o.left > p.give*o.gained
	})
}

// bisect finds where more turns false.
func bisect(lo, hi float64, steps int, more func(float64) bool) float64 {
	for range steps {
		mid := (lo + hi) / 2
		if more(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

// outcome is the result of a rehearsal.
type outcome struct {
	slowest float64 // kt calibrated
	gained  float64 // ft, at the highest point
	left    float64 // ft above entry where the pull-out begins, 30° before the exit
	energy  float64 // ft of energy height gained: h + v²/2g
}

func tryOut(p plan, at *airplane.Model) outcome { return tryOutAbove(0, p, at) }

// tryOutAbove ends the rehearsal when the airspeed falls to a limit, in kt: the rest cannot change the answer then.
func tryOutAbove(limit float64, p plan, at *airplane.Model) outcome {
	craft := *at
	l := newLeg(p, true, &craft)
	o := outcome{slowest: math.Inf(1)}
	const dt = 1.0 / 20
	for craft.Time < at.Time+150 && l.reached == 0 {
		craft.Step(dt, l.fly(&craft, dt))
		o.slowest = math.Min(o.slowest, craft.EquivalentAirspeed())
		o.gained = math.Max(o.gained, craft.Altitude-l.entry)
		if l.th < l.exit-30 {
			o.left = craft.Altitude - l.entry
		}
		if craft.Stalled {
			o.slowest = 0
			break
		}
		if o.slowest <= limit {
			break
		}
	}
	o.energy = craft.Altitude - at.Altitude + (sq(craft.Speed)-sq(at.Speed))/(2*gravity)
	return o
}
