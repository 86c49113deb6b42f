package trainer

import "math"

// plant is the flying airplane: a point mass in wind axes with the attitude lags of a person's
// hands on the controls. Lengths in ft, angles in rad.
type plant struct {
	spec  *Airplane
	wind  [2]float64 // ft/s toward north and east
	t     float64    // s
	lat   float64
	lon   float64
	h     float64 // ft MSL
	v     float64 // ft/s, true airspeed
	gamma float64 // flight path above the horizon, through the air
	chi   float64 // heading of the flight path, through the air
	mu    float64 // bank about the flight path
	roll  float64 // rad/s about the flight path
	alpha float64 // angle of attack above zero lift
	beta  float64 // sideslip, wind from the right positive
	pedal float64 // -1 to 1, right positive

	throttle float64
	entry    float64 // ft/s, true airspeed at the entry airspeed where the flight starts
	cruise   float64 // thrust over weight that level flight needs there
	set      float64 // rad, angle of attack above zero lift at which the nose is on the flight path
	stalled  bool
	density  float64 // ratio to sea level, at h

	euler [3]float64 // heading, pitch, bank
	rates [3]float64 // roll, pitch, yaw rate in body axes
}

// controls is what the pilot asks for.
type controls struct {
	load     float64 // g, by the elevator
	roll     float64 // rad/s, by the ailerons
	throttle float64
	feet     float64 // 1: rudder used as needed, 0: feet on the floor
	slip     float64 // rad of sideslip a person leaves, by carelessness
}

const (
	stallAngle = 16 * rad // above zero lift, as on recorded flights of two model classes
	attackLag  = 0.3      // s; lags are common practice, no source
	rollLag    = 0.22
	slipLag    = 0.45
	feetLag    = 0.5
	nosePitch  = 1 * rad  // pitch in level flight at the entry airspeed
	pedalSlip  = 20 * rad // sideslip by full rudder at the entry airspeed
	adverse    = 2 * rad  // sideslip by the largest roll rate, at the entry airspeed
)

// sigma is the density ratio of the standard atmosphere (U.S. Standard Atmosphere 1976).
func sigma(h float64) float64 { return math.Pow(theta(h), 4.25588) }

func theta(h float64) float64 { return 1 - 6.87559e-6*math.Max(-6000, math.Min(h, 36089)) }

// The calibrated airspeed of compressible flow in the standard atmosphere, and back; kt.
func calibrated(tas, h float64) float64 {
	th := theta(h)
	m2 := tas * tas / (661.4786 * 661.4786 * th)
	q := (math.Pow(1+0.2*m2, 3.5) - 1) * math.Pow(th, 5.25588)
	return 661.4786 * math.Sqrt(5*(math.Pow(1+q, 1/3.5)-1))
}

func trueOf(cas, h float64) float64 {
	th := theta(h)
	m := cas / 661.4786
	q := (math.Pow(1+0.2*m*m, 3.5) - 1) / math.Pow(th, 5.25588)
	return 661.4786 * math.Sqrt(5*th*(math.Pow(1+q, 1/3.5)-1))
}

func newPlant(a *Airplane, lat, lon, heading, altitude float64, wind [2]float64) *plant {
	p := &plant{spec: a, wind: wind, lat: lat * rad, lon: lon * rad, h: altitude, chi: heading * rad,
		throttle: a.Throttle}
	p.v = trueOf(a.Entry, altitude) * knot
	p.density = sigma(altitude)
	p.entry, p.cruise = p.v, p.drag(p.v, 1)
	p.set = stallAngle*sq(a.Stall/p.eas()) - nosePitch
	p.settle(a.Entry)
	return p
}

// settle puts the airplane in straight and level flight at an airspeed in kt calibrated.
func (p *plant) settle(cas float64) {
	p.v = trueOf(cas, p.h) * knot
	p.gamma, p.mu, p.roll, p.beta, p.pedal, p.stalled = 0, 0, 0, 0, 0, false
	p.alpha = stallAngle * sq(p.spec.Stall/p.eas())
	p.throttle = p.needed(cas)
	p.measure(0)
}

// needed is the throttle that level flight at an airspeed in kt calibrated needs.
func (p *plant) needed(cas float64) float64 {
	v := trueOf(cas, p.h) * knot
	return p.spec.Throttle * p.drag(v, 1) / p.cruise / math.Pow(p.entry/v, p.spec.Fall)
}

func sq(x float64) float64 { return x * x }

// eas is the equivalent airspeed in kt.
func (p *plant) eas() float64 { return p.v / knot * math.Sqrt(p.density) }

// lift is the load factor the angle of attack gives.
func (p *plant) lift(v, alpha float64) float64 {
	n := alpha / stallAngle * p.density * sq(v/knot/p.spec.Stall)
	if p.stalled {
		n *= 0.72 // what is left past the stall; common practice, no source
	}
	return n
}

// drag over weight, parabolic polar: D/W = (u² + n²/u²)/(2E).
func (p *plant) drag(v, n float64) float64 {
	u2 := p.density * sq(v/knot/p.spec.Glide)
	return (u2 + n*n/u2) / (2 * p.spec.LiftToDrag)
}

// thrust over weight. Power is what the throttle sets; a propeller's efficiency falls with
// speed, so thrust grows more slowly than the 1/V of constant thrust power (common practice, no
// source; 1/√V and less meet the energy balance of recorded flights).
func (p *plant) thrust(v float64) float64 {
	return p.cruise * p.throttle / p.spec.Throttle * math.Pow(p.entry/v, p.spec.Fall)
}

// motion is what the equations of motion change. Density is held over a step, in which altitude
// changes by a few feet.
type motion struct{ v, h, gamma, chi float64 }

func (p *plant) accelerate(m motion) motion {
	n := p.lift(m.v, p.alpha)
	sg, cg := math.Sincos(m.gamma)
	sm, cm := math.Sincos(p.mu)
	side := p.sideLoad(m.v)
	return motion{
		v:     gravity * (p.thrust(m.v) - p.drag(m.v, n) - sg),
		h:     m.v * sg,
		gamma: gravity / m.v * (n*cm - side*sm - cg),
		chi:   gravity / (m.v * cg) * (n*sm + side*cm),
	}
}

// sideLoad is the lateral load factor of sideslip, in g to the right.
func (p *plant) sideLoad(v float64) float64 {
	return -p.spec.SideForce * p.beta / rad * p.density * sq(v/knot/p.spec.Entry)
}

// step advances the airplane by dt seconds with the controls held: lags in closed form, motion
// by the midpoint rule.
func (p *plant) step(dt float64, c controls) {
	p.throttle += (c.throttle - p.throttle) * (1 - math.Exp(-dt/0.4))
	p.attack(dt, c.load)
	p.roll += (c.roll - p.roll) * (1 - math.Exp(-dt/rollLag))
	p.mu += p.roll * dt
	p.slide(dt, c)

	m := motion{p.v, p.h, p.gamma, p.chi}
	a := p.accelerate(m)
	b := p.accelerate(motion{m.v + a.v*dt/2, m.h + a.h*dt/2, m.gamma + a.gamma*dt/2, m.chi + a.chi*dt/2})
	ground := (p.v + a.v*dt/2) * math.Cos(p.gamma+a.gamma*dt/2)
	course := p.chi + a.chi*dt/2
	p.lat += (ground*math.Cos(course) + p.wind[0]) / (earth + p.h) * dt
	p.lon += (ground*math.Sin(course) + p.wind[1]) / ((earth + p.h) * math.Cos(p.lat)) * dt
	p.lat = math.Max(-89*rad, math.Min(89*rad, p.lat))
	p.v = math.Max(15*knot, p.v+b.v*dt)
	p.h += b.h * dt
	p.gamma = math.Max(-85*rad, math.Min(85*rad, p.gamma+b.gamma*dt))
	p.chi = math.Remainder(p.chi+b.chi*dt, 2*math.Pi)
	p.mu = math.Remainder(p.mu, 2*math.Pi)
	p.t += dt
	p.density = sigma(p.h)
	p.measure(dt)
}

// attack moves the angle of attack toward what the load factor asked for needs. Past the
// stalling angle lift drops and the nose falls until the angle is well below it; no spin.
func (p *plant) attack(dt, load float64) {
	need := load * stallAngle * sq(p.spec.Stall/p.eas())
	if p.stalled {
		need = math.Min(need, 0.5*stallAngle)
	}
	need = math.Max(-0.3*stallAngle, math.Min(need, 1.1*stallAngle))
	p.alpha += (need - p.alpha) * (1 - math.Exp(-dt/attackLag))
	switch {
	case p.alpha > stallAngle:
		p.stalled = true
	case p.alpha < 0.8*stallAngle:
		p.stalled = false
	}
}

// slide moves sideslip toward the balance of adverse yaw, torque effect and rudder. Torque yaws
// the nose left (clockwise propeller seen from the seat), more as airspeed falls.
func (p *plant) slide(dt float64, c controls) {
	slow := sq(p.spec.Entry / p.eas())
	yaw := p.spec.Torque*rad*(slow-1) + adverse*p.roll/(p.spec.RollRate*rad)*math.Sqrt(slow)
	want := c.feet * (yaw - c.slip) / pedalSlip
	p.pedal += (math.Max(-1, math.Min(1, want)) - p.pedal) * (1 - math.Exp(-dt/feetLag))
	p.beta += (yaw - p.pedal*pedalSlip - p.beta) * (1 - math.Exp(-dt/slipLag))
}

// measure works out the attitude from flight path, bank, angle of attack and sideslip, and the
// body rates from its change.
func (p *plant) measure(dt float64) {
	sg, cg := math.Sincos(p.gamma)
	sc, cc := math.Sincos(p.chi)
	sm, cm := math.Sincos(p.mu)
	// The wind axes in north, east, down: forward, right and down.
	f := [3]float64{cg * cc, cg * sc, -sg}
	r := [3]float64{sm*sg*cc - cm*sc, sm*sg*sc + cm*cc, sm * cg}
	d := [3]float64{cm*sg*cc + sm*sc, cm*sg*sc - sm*cc, cm * cg}
	sa, ca := math.Sincos(p.alpha - p.set)
	sb, cb := math.Sincos(p.beta)
	var x, z [3]float64 // the body's forward and down axes
	var y [3]float64
	for i := range 3 {
		level := cb*f[i] - sb*r[i] // the nose swings left of the flight path: wind from the right
		y[i] = sb*f[i] + cb*r[i]
		x[i] = ca*level - sa*d[i]
		z[i] = sa*level + ca*d[i]
	}
	was := p.euler
	p.euler = [3]float64{math.Atan2(x[1], x[0]), math.Asin(math.Max(-1, math.Min(1, -x[2]))), math.Atan2(y[2], z[2])}
	if dt <= 0 {
		return
	}
	dpsi := math.Remainder(p.euler[0]-was[0], 2*math.Pi) / dt
	dtheta := (p.euler[1] - was[1]) / dt
	dphi := math.Remainder(p.euler[2]-was[2], 2*math.Pi) / dt
	st, ct := math.Sincos(p.euler[1])
	sp, cp := math.Sincos(p.euler[2])
	p.rates = [3]float64{dphi - dpsi*st, dtheta*cp + dpsi*ct*sp, -dtheta*sp + dpsi*ct*cp}
}
