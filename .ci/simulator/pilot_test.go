//go:build simulator

package simulator

import (
	"errors"
	"fmt"
	"math"
	"net"
	"time"

	"halfturn/stream"
)

// A pilot flies the simulator closed-loop: it reads the truth and moves the controls. Its
// gains were found by trial in the running simulator.
type pilot struct {
	truth *truth
	hands net.Conn
	now   moment
	last  float64 // s, time of the step before
	until float64 // s, when patience ends
	side  float64 // 1 to the right, -1 to the left
	turn  float64 // °, turned toward the side since it was set to 0
	err   error   // the first thing that went wrong; nothing is flown after it

	throttle, climbing, nose      float64 // the throttle, the climb's integral, the nose last asked for
	elevator, aileron, rudderHeld float64 // the integrals
}

const (
	silence   = 60 * time.Second // without a moment of truth
	patience  = 420.0            // s of simulator time for the whole flight
	trimWheel = -0.03
)

// newPilot waits for the first moment and takes the controls.
func newPilot(s *truth, port int) (*pilot, error) {
	conn, err := net.Dial("udp4", fmt.Sprintf("127.0.0.1:%d", port))
	if err != nil {
		return nil, err
	}
	p := &pilot{truth: s, hands: conn, side: 1, throttle: 0.8}
	p.look(4 * time.Minute)
	p.last, p.until = p.now.time-1.0/60, p.now.time+patience
	return p, p.err
}

// look takes the newest moment.
func (p *pilot) look(wait time.Duration) {
	timer := time.NewTimer(wait)
	defer timer.Stop()
	select {
	case m, ok := <-p.truth.newest:
		if !ok {
			p.err = errors.New("the truth ended")
			return
		}
		p.now = m
	case <-timer.C:
		p.err = fmt.Errorf("the simulator sent nothing for %v", wait)
	}
}

// An aim is what one step is after.
type aim struct {
	nose, bank float64 // °
	climb      float64 // ft/min, instead of the nose when level is set
	level      bool
	throttle   float64 // 0 to 1
}

// step waits for the next moment and moves the controls once. It returns false when the
// flight is over for a reason that p.err tells.
func (p *pilot) step(a aim) bool {
	if p.err != nil {
		return false
	}
	heading := p.now.heading
	p.look(silence)
	if p.err == nil && p.now.time > p.until {
		p.err = fmt.Errorf("the flight took longer than %.0f s", patience)
	}
	if p.err != nil {
		return false
	}
	m := &p.now
	dt := clip(m.time-p.last, 0.001, 0.1)
	p.last = m.time
	p.turn += p.side * stream.Wrap180(m.heading-heading)
	if a.level {
		e := a.climb - m.climb
		p.climbing = clip(p.climbing+e*dt*0.0025, -12, 12)
		a.nose = clip(p.climbing+e*0.006, -12, 14)
	}
	p.nose = a.nose
	elevator, aileron, rudder := p.controls(a, dt)
	p.throttle += clip(a.throttle-p.throttle, -0.5*dt, 0.5*dt)
	_, p.err = fmt.Fprintf(p.hands, "%.5f,%.5f,%.5f,%.4f,0.0,%.4f\n", aileron, elevator, rudder, p.throttle, trimWheel)
	return p.err == nil
}

// controls are rates asked for by attitude, and surfaces asked for by rates; the surfaces
// move less the faster the air is. The rudder centers the ball.
func (p *pilot) controls(a aim, dt float64) (elevator, aileron, rudder float64) {
	m := &p.now
	slow := math.Sqrt(clip(square(100/math.Max(m.airspeed, 40)), 0.5, 3))
	sin, cos := math.Sincos(m.bank * math.Pi / 180)

	// The nose rises by q cos(bank) - r sin(bank).
	pitching := (clip(1.4*(a.nose-m.pitch), -14, 14) + m.r*sin) / clip(cos, 0.35, 1)
	e := pitching - m.q
	p.elevator = clip(p.elevator+e*dt*0.030, -0.6, 0.6)
	elevator = -clip((p.elevator+0.016*e)*slow, -0.9, 0.9)

	e = clip(1.8*(a.bank-m.bank), -35, 35) - m.p
	p.aileron = clip(p.aileron+e*dt*0.010, -0.4, 0.4)
	aileron = clip((p.aileron+0.010*e)*slow, -1, 1)

	p.rudderHeld = clip(p.rudderHeld-m.ball*dt*0.14, -0.5, 0.5)
	turning := 180 / math.Pi * 9.81 * sin / (math.Max(m.trueAirspeed, 40) * 0.5144)
	rudder = clip(p.rudderHeld-0.08*m.ball+0.12*aileron-0.018*(m.r-turning), -1, 1)
	return elevator, aileron, rudder
}

// toward is the bank that brings the nose to a heading.
func (p *pilot) toward(heading, most float64) float64 {
	return clip(0.8*stream.Wrap180(heading-p.now.heading), -most, most)
}

// settle flies to an altitude, a heading and an airspeed, and holds them for some seconds.
func (p *pilot) settle(altitude, heading, airspeed, seconds float64) {
	good, base := 0.0, 0.8
	p.climbing = p.now.pitch
	for good < seconds {
		m := &p.now
		e := airspeed - m.airspeed
		climb := clip(6*(altitude-m.altitude), -700, 400)
		if e > 15 && climb > 0 {
			climb = 0
		}
		before := m.time
		if !p.step(aim{level: true, climb: climb, bank: p.toward(heading, 20), throttle: clip(base+0.05*e, 0.05, 1)}) {
			return
		}
		dt := m.time - before
		base = clip(base+e*dt*0.004, 0.15, 1)
		if math.Abs(m.altitude-altitude) < 40 && math.Abs(stream.Wrap180(m.heading-heading)) < 2 &&
			math.Abs(m.bank) < 3 && math.Abs(e) < 3 {
			good += dt
		} else {
			good = 0
		}
	}
	p.throttle = clip(base, 0.05, 1)
}

// hold repeats an aim for some seconds of simulator time.
func (p *pilot) hold(seconds float64, a func() aim) {
	for end := p.now.time + seconds; p.now.time < end; {
		if !p.step(a()) {
			return
		}
	}
}

func clip(v, low, high float64) float64 { return math.Min(math.Max(v, low), high) }

func square(v float64) float64 { return v * v }
