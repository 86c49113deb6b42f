package trainer

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"

	"halfturn/stream"
	"halfturn/stream/trainer/airplane"
)

// A Pilot flies. It is not safe for concurrent use.
type Pilot struct {
	craft  *airplane.Model
	queue  []task
	leg    *leg // nil in level flight
	random *rand.Rand
	steady bool
	drift  [3]float64 // the pilot's noise: bank, nose, slip; standard normal

	heading  float64 // rad, held in level flight
	altitude float64 // ft, held in level flight
	speed    float64 // kt, held in level flight
	base     float64 // ft, the flight's altitude, returned to after a climb
	from     float64 // s, when level flight began
	since    float64 // s, from when the wait counts
	wait     float64 // s of level flight wanted before the next leg
	settled  bool    // airspeed, altitude and heading are as wanted, and the power is set
	hold     float64 // s, until when a chandelle's last attitude is held
	left     float64 // the throttle as the leg left it, 0 when that is the power of level flight
	done     bool
}

// New prepares a flight. The error says which field is wrong and what is allowed.
func New(f Flight) (*Pilot, error) { return NewSequence(f) }

// NewSequence prepares flights that follow each other without a jump, with level flight in
// between. Airplane, start, wind, seed and noise are those of the first.
func NewSequence(flights ...Flight) (*Pilot, error) { return new(Rehearsals).NewSequence(flights...) }

// NewSequence is the function of that name with what was rehearsed before; the flights are the same without it.
func (r *Rehearsals) NewSequence(flights ...Flight) (*Pilot, error) {
	if len(flights) == 0 {
		return nil, errors.New("no flight is given; must be at least one")
	}
	var p *Pilot
	for i, f := range flights {
		f, err := f.complete()
		if err != nil {
			if len(flights) > 1 {
				err = fmt.Errorf("flight %d: %w", i+1, err)
			}
			return nil, err
		}
		if p == nil {
			p = begin(f)
		}
		for _, t := range f.tasks(p.craft.Airplane) {
			leg := task{plan: r.plan(&f, &t, p.craft), right: t.right}
			leg.plan.follows = t.plan.follows
			p.queue = append(p.queue, leg)
		}
	}
	p.speed = p.queue[0].plan.start
	p.craft.Settle(p.speed)
	return p, nil
}

func begin(f Flight) *Pilot {
	a, _ := airplane.Named(f.Airplane) // complete has checked the name
	p := &Pilot{
		craft:  airplane.NewModel(&a, f.Latitude, f.Longitude, f.Heading, f.Altitude, f.windVector()),
		random: rand.New(rand.NewPCG(f.Seed, 0x9e3779b97f4a7c15)),
		steady: f.Steady, altitude: f.Altitude, base: f.Altitude,
	}
	p.heading = p.craft.Euler[0]
	p.wait = p.between(12, 15)
	for i := range p.drift {
		p.drift[i] = p.normal()
	}
	return p
}

func (p *Pilot) between(a, b float64) float64 {
	if p.steady {
		return (a + b) / 2
	}
	return a + (b-a)*p.random.Float64()
}

func (p *Pilot) normal() float64 {
	if p.steady {
		return 0
	}
	return p.random.NormFloat64()
}

// longest is the longest step of the model in seconds; longer ones are divided.
const longest = 1.0 / 60

// Step flies on for dt seconds (0 to 1) and fills s with the state then. It returns false
// when the flight is over; s is filled then too.
func (p *Pilot) Step(dt float64, s *stream.Sample) bool {
	if dt > 0 && !p.done {
		n := math.Ceil(math.Min(dt, 1)/longest - 1e-9)
		for range int(n) {
			p.advance(math.Min(dt, 1) / n)
		}
	}
	p.craft.Fill(s)
	return !p.done
}

func (p *Pilot) advance(dt float64) {
	p.wander(dt)
	var c airplane.Controls
	if p.leg != nil {
		c = p.flyLeg(dt)
	} else {
		c = p.flyLevel(dt)
	}
	c.Slip = slipNoise * p.drift[2]
	p.craft.Step(dt, c)
}

// How far a careful person is off, as a standard deviation (common practice, no source; the
// recorded flights flown by hand have 2° in bank and 1° in pitch, from less careful hands).
const (
	bankNoise = 1.1        // °
	noseNoise = 0.3        // °
	slipNoise = 0.25 * rad // sideslip at the entry airspeed
	drifting  = 2.5        // s, how long an error lasts
)

// wander lets the errors drift (an Ornstein-Uhlenbeck process).
func (p *Pilot) wander(dt float64) {
	keep := math.Exp(-dt / drifting)
	for i := range p.drift {
		p.drift[i] = p.drift[i]*keep + math.Sqrt(1-keep*keep)*p.normal()
	}
}

// longestLeg is the time after which the pilot gives up a leg, s; the slowest one flown well takes 150.
const longestLeg = 240

func (p *Pilot) flyLeg(dt float64) airplane.Controls {
	l := p.leg
	l.noise = [2]float64{bankNoise * p.drift[0], noseNoise * p.drift[1]}
	c := l.fly(p.craft, dt)
	if l.flown += dt; l.flown > longestLeg { // a flaw kept the turn from being completed
		p.endLeg(l)
		return c
	}
	if l.reached == 0 {
		return c
	}
	if !l.back && !l.level && l.abandon == 0 { // a chandelle's end: the attitude is held a moment
		if p.hold == 0 {
			p.hold = p.craft.Time + 2
		}
		if p.craft.Time < p.hold {
			return c
		}
	}
	p.endLeg(l)
	return c
}

func (p *Pilot) endLeg(l *leg) {
	p.heading = p.craft.Euler[0]
	p.altitude = l.entry - l.low
	if !l.back && !l.level {
		p.altitude = p.craft.Altitude
	}
	p.leg, p.hold, p.settled, p.left = nil, 0, false, 0
	if l.even {
		p.left = l.set
	}
	p.from, p.since = p.craft.Time, p.craft.Time
	if len(p.queue) > 0 {
		p.speed = p.queue[0].plan.start
	}
	p.wait = p.between(11, 14)
	if l.follows && len(p.queue) > 0 {
		p.start()
	}
}

// start begins the next leg from where the airplane is.
func (p *Pilot) start() {
	t := p.queue[0]
	p.queue = p.queue[1:]
	p.leg = newLeg(t.plan, t.right, p.craft)
}

// When the pilot moves the throttle, s.
const (
	handOff   = 4 // not within this time after a leg
	setBefore = 3 // the power of the next leg is set this long before it
	climbsFor = 9 // an entry that is not level begins this long before the leg
)

// flyLevel flies straight and level until the next leg is due: back to the entry airspeed, and
// after a climb back to the flight's altitude. Power is left alone in the last seconds.
func (p *Pilot) flyLevel(dt float64) airplane.Controls {
	c := p.craft
	after := c.Time - p.since
	if after > 4 && len(p.queue) > 0 {
		p.altitude += clamp(p.base-p.altitude, 20*dt) // a descent of 1,200 ft/min
	}
	fast := airplane.Calibrated(c.Speed/knot, c.Altitude) - p.speed
	off := math.Remainder(p.heading-c.Euler[0], 2*math.Pi) / rad
	bank := c.Euler[2] / rad
	want := clamp(1.2*off, 15) + 0.3*p.drift[0]
	calm := math.Abs(fast) < 1.5 && math.Abs(off) < 1.5 && math.Abs(p.base-c.Altitude) < 25 &&
		math.Abs(c.Speed*math.Sin(c.Climb)) < 2.5 && math.Abs(bank) < 2
	p.settled = p.settled || calm
	power := c.Needed(p.speed)
	switch over := c.Time > p.from+handOff; {
	case !over && p.left != 0:
		power = p.left
	case over && len(p.queue) > 0 && !p.settled:
		p.since = math.Max(p.since, c.Time-p.wait+5) // five seconds more with the power set
		power = math.Max(0.05, math.Min(1, power-0.05*fast))
	case p.settled && after > p.wait-setBefore && len(p.queue) > 0:
		power = p.queue[0].plan.setting(c)
	}
	if p.settled && after > p.wait-climbsFor && len(p.queue) > 0 {
		climb := p.queue[0].plan.climbs / 60 * dt
		p.altitude, p.base = p.altitude+climb, p.base+climb
	}
	if after >= p.wait {
		if len(p.queue) == 0 {
			p.done = true
		} else if p.settled {
			p.start()
		}
	}
	return airplane.Controls{
		Load:     altitudeHold(c, p.altitude+4*p.drift[1], c.Euler[2], 1400),
		Roll:     clamp(bankGain*(want-bank), 10) * rad,
		Throttle: power, Feet: 1,
	}
}
