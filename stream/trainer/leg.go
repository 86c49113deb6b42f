package trainer

import (
	"math"

	"halfturn/stream/trainer/airplane"
)

// leg is a plan being flown. It looks at heading, attitude, altitude and airspeed only, as a
// pilot does.
type leg struct {
	flown float64 // s since it began
	plan
	sign    float64    // +1 right, -1 left
	entry   float64    // ft MSL
	set     float64    // throttle, left alone
	th      float64    // ° turned toward the side
	heading float64    // rad, the last heading seen
	rate    float64    // °/s of turn
	noise   [2]float64 // ° of bank and nose a person is off
	away    bool       // given up, or rolled out: level flight from here
	reached float64    // s, when the wings came level; 0 before
	about   *spot      // the point on the ground, nil for none
	keeps   float64    // kt, the airspeed held without power
}

func newLeg(p plan, right bool, at *airplane.Model) *leg {
	l := &leg{plan: p, sign: 1, entry: at.Altitude, set: p.setting(at), heading: at.Euler[0]}
	if !right {
		l.sign = -1
	}
	if l.round > 0 {
		l.about = abeam(at, l.sign, l.round, l.early)
	}
	if l.glide {
		l.set, l.keeps = 0, at.EquivalentAirspeed()+l.fast
	}
	return l
}

// setting is the throttle set before the entry.
func (p *plan) setting(at *airplane.Model) float64 {
	return p.share * at.Needed(p.start)
}

const (
	gentle    = 0.06 // rad, the most a nose error adds to the pull
	pitchGain = 1.6  // 1/s, how firmly the nose is put right
	bankGain  = 2.2
	bankLead  = 0.55 // s by which a pilot anticipates roll, about the lag of the controls
	noseLead  = 0.1
)

// fly returns the controls that follow the plan.
func (l *leg) fly(p *airplane.Model, dt float64) airplane.Controls {
	turned := l.sign * math.Remainder(p.Euler[0]-l.heading, 2*math.Pi) / rad
	l.heading = p.Euler[0]
	l.th += turned
	if dt > 0 {
		l.rate += (turned/dt - l.rate) * (1 - math.Exp(-dt/0.15))
	}
	bank := l.sign * p.Euler[2] / rad
	want := l.bankToward(p) + l.noise[0]*math.Min(1, math.Max(0.25, math.Abs(bank)/30))
	if l.th > l.out && l.th+l.rate*bankLead < l.exit-2 {
		want = math.Max(want, math.Min(6, l.bank(l.out)/3)) // the turn is kept going to its end
	}
	// In a slip a small bank no longer turns the airplane: a pilot gives up the turn there.
	stuck := l.th > l.exit-15 && math.Abs(bank) < 10 && l.rate < 0.35*gravity*math.Tan(bank*rad)/p.Speed/rad
	if l.th > l.exit-1.2 && math.Abs(bank) < 7 || stuck || l.abandon > 0 && l.th > l.abandon || l.away {
		l.away = true
		want = 0
	}
	most := p.Airplane.RollRate
	if l.th < 45 && !l.brisk && l.about == nil {
		most = math.Min(most, 6.5) // the start is slow and even
	}
	roll := clamp(bankGain*(want-bank), most) * rad * l.sign
	if l.away && l.reached == 0 && math.Abs(bank) < 4 {
		l.reached = p.Time
	}
	c := airplane.Controls{Load: l.load(p, bank*rad), Roll: roll, Throttle: l.set, Feet: l.feet}
	if l.level && !l.pylon { // power is added for the drag, as usual in a steep turn
		c.Throttle *= p.Drag(p.Speed, 1/math.Max(0.4, math.Cos(bank*rad))) / p.Drag(p.Speed, 1)
	}
	if l.power != 0 && l.th > 30 && l.reached == 0 {
		c.Throttle += l.power
	}
	if l.jerks > 0 && l.reached == 0 { // the hands move in steps, twice a second and at odds with each other
		c.Roll += l.jerks * 9 * rad * math.Copysign(1, math.Sin(2*math.Pi*1.1*l.flown))
		c.Load += l.jerks * 0.3 * math.Copysign(1, math.Sin(2*math.Pi*0.9*l.flown))
	}
	return c
}

// bankToward is the bank that is wanted now: of the plan, or for the point on the ground where there is one.
func (l *leg) bankToward(p *airplane.Model) float64 {
	th := l.th + l.rate*bankLead
	planned := l.bankAt(th)
	if l.about == nil {
		return planned
	}
	want := l.roundBank(p)
	if l.pylon {
		want = l.pylonBank(p)
	}
	return want * planned / 45 // as much as the plan has of its own
}

// load is the load factor that takes the nose where the plan wants it.
func (l *leg) load(p *airplane.Model, bank float64) float64 {
	hold := l.hold(p, bank)
	if l.glide {
		return l.most(p, l.glideLoad(p, bank))
	}
	if l.level || l.away && (l.back || l.abandon > 0) {
		return l.most(p, hold)
	}
	th := l.th + l.rate*noseLead
	nose := l.noseAt(th)
	slope := clamp(l.noseAt(th+0.5)-l.noseAt(th-0.5), 1)
	off := (nose+l.noise[1])*rad - (p.Euler[1] - airplane.NosePitch)
	sin, cos := math.Sincos(bank)
	den := math.Max(0.25, cos-slope*sin/math.Cos(p.Climb))
	n := (math.Cos(p.Climb) + p.Speed/gravity*pitchGain*clamp(off, gentle)) / den
	if l.back { // the pull-out goes over into holding the altitude
		w := smoothstep((l.th - (l.exit - 45)) / 35)
		n += w * (hold - n)
	}
	return l.most(p, math.Max(0.1, n))
}

// most keeps a pull a few knots off the stall and within what a person pulls in training.
func (l *leg) most(p *airplane.Model, n float64) float64 {
	return math.Min(n, math.Min(3.6, sq(p.EquivalentAirspeed()/(p.Airplane.Stall+2))))
}

// hold is the load factor that brings the airplane to the altitude and keeps it there.
func (l *leg) hold(p *airplane.Model, bank float64) float64 {
	target := l.entry - l.low
	switch {
	case l.pylon && !l.fixed:
		target = l.pivotal(p)
	case !l.back && !l.level:
		target = p.Altitude
	}
	return altitudeHold(p, target, bank, 3500)
}

// altitudeHold closes on an altitude (ft) with at most a vertical speed (ft/min).
func altitudeHold(p *airplane.Model, target, bank, most float64) float64 {
	climb := clamp((target-p.Altitude)/4.5, most/60)
	want := math.Asin(clamp(climb/p.Speed, 0.5))
	n := (math.Cos(p.Climb) + p.Speed/gravity*0.9*(want-p.Climb)) / math.Max(0.3, math.Cos(bank))
	return math.Max(0.2, math.Min(n, 3.2))
}
