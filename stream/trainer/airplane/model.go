package airplane

import "math"

// A Model is a flying airplane: a point mass in wind axes whose attitude lags behind the controls. Lengths are in ft,
// angles in rad.
type Model struct {
	Airplane *Airplane
	Time     float64    // s since the beginning
	Altitude float64    // ft MSL
	Speed    float64    // ft/s, true airspeed
	Climb    float64    // flight path above the horizon, through the air
	Euler    [3]float64 // heading, pitch, bank
	Stalled  bool

	wind  [2]float64 // ft/s toward north and east
	lat   float64
	lon   float64
	chi   float64    // heading of the flight path, through the air
	mu    float64    // bank about the flight path
	roll  float64    // rad/s about the flight path
	rates [3]float64 // roll, pitch, yaw rate in body axes
	alpha float64    // angle of attack above zero lift
	beta  float64    // sideslip, wind from the right positive
	pedal float64    // -1 to 1, right positive

	throttle float64
	entry    float64    // ft/s, true airspeed at the entry airspeed where the flight starts
	cruise   float64    // thrust over weight that level flight needs there
	set      float64    // rad, angle of attack above zero lift at which the nose is on the flight path
	density  float64    // ratio to sea level, at Altitude
	over     [2]float64 // ft north and east over the ground since the beginning
	lags     lags
}

// lags are the shares of the way to its target that each quantity goes in a step of dt seconds. They are kept because
// the steps of a flight are all the same.
type lags struct{ dt, throttle, attack, roll, feet, slip float64 }

func newLags(dt float64) lags {
	share := func(lag float64) float64 { return 1 - math.Exp(-dt/lag) }
	return lags{dt, share(throttleLag), share(attackLag), share(rollLag), share(feetLag), share(slipLag)}
}

// Controls are what the pilot does to the airplane.
type Controls struct {
	Load     float64 // g, by the elevator
	Roll     float64 // rad/s, by the ailerons
	Throttle float64 // 0 to 1
	Feet     float64 // 1: rudder used as needed, 0: feet on the floor
	Slip     float64 // rad of sideslip that a careless pilot does not correct
}

// NosePitch is the pitch in level flight at the entry airspeed, rad.
const NosePitch = 1 * rad

const (
	stallAngle  = 16 * rad // above zero lift, as on recorded flights of two model classes
	attackLag   = 0.3      // s; lags are common practice, no source
	throttleLag = 0.4
	rollLag     = 0.22
	slipLag     = 0.45
	feetLag     = 0.5
	pedalSlip   = 20 * rad // sideslip by full rudder at the entry airspeed
	adverse     = 2 * rad  // sideslip by the largest roll rate, at the entry airspeed
)

// NewModel puts an airplane in level flight at its entry airspeed: latitude, longitude and heading in °, altitude in ft
// MSL, and the wind as the motion of the air toward north and east in ft/s.
func NewModel(a *Airplane, lat, lon, heading, altitude float64, wind [2]float64) *Model {
	p := &Model{Airplane: a, wind: wind, lat: lat * rad, lon: lon * rad, Altitude: altitude, chi: heading * rad,
		throttle: a.Throttle}
	p.Speed = trueOf(a.Entry, altitude) * Knot
	p.density = sigma(altitude)
	p.entry, p.cruise = p.Speed, p.Drag(p.Speed, 1)
	p.set = stallAngle*sq(a.Stall/p.EquivalentAirspeed()) - NosePitch
	p.Settle(a.Entry)
	return p
}

// Settle puts the airplane in straight and level flight at an airspeed in kt calibrated.
func (p *Model) Settle(cas float64) {
	p.Speed = trueOf(cas, p.Altitude) * Knot
	p.Climb, p.mu, p.roll, p.beta, p.pedal, p.Stalled = 0, 0, 0, 0, 0, false
	p.alpha = stallAngle * sq(p.Airplane.Stall/p.EquivalentAirspeed())
	p.throttle = p.Needed(cas)
	p.measure(0)
}

// Needed is the throttle that level flight at an airspeed in kt calibrated needs.
func (p *Model) Needed(cas float64) float64 {
	v := trueOf(cas, p.Altitude) * Knot
	return p.Airplane.Throttle * p.Drag(v, 1) / p.cruise / raise(p.entry/v, p.Airplane.Fall)
}

func sq(x float64) float64 { return x * x }

// EquivalentAirspeed returns the equivalent airspeed in kt.
func (p *Model) EquivalentAirspeed() float64 { return p.Speed / Knot * math.Sqrt(p.density) }

// lift is the load factor the angle of attack gives.
func (p *Model) lift(v, alpha float64) float64 {
	n := alpha / stallAngle * p.density * sq(v/Knot/p.Airplane.Stall)
	if p.Stalled {
		n *= 0.72 // the share of lift left past the stall; common practice, no source
	}
	return n
}

// Drag is drag over weight at a true airspeed and load factor, by a parabolic polar: D/W = (u² + n²/u²)/(2E).
func (p *Model) Drag(v, n float64) float64 {
	u2 := p.density * sq(v/Knot/p.Airplane.Glide)
	return (u2 + n*n/u2) / (2 * p.Airplane.LiftToDrag)
}

// thrust over weight. Power is what the throttle sets; a propeller's efficiency falls with
// speed, so thrust grows more slowly than the 1/V of constant thrust power (common practice, no
// source; 1/√V and less meet the energy balance of recorded flights).
func (p *Model) thrust(v float64) float64 {
	return p.cruise * p.throttle / p.Airplane.Throttle * raise(p.entry/v, p.Airplane.Fall)
}

// motion is what the equations of motion change. Density is held over a step, in which altitude
// changes by a few feet.
type motion struct{ v, h, gamma, chi float64 }

func (p *Model) accelerate(m motion) motion {
	n := p.lift(m.v, p.alpha)
	sg, cg := math.Sincos(m.gamma)
	sm, cm := math.Sincos(p.mu)
	side := p.sideLoad(m.v)
	return motion{
		v:     Gravity * (p.thrust(m.v) - p.Drag(m.v, n) - sg),
		h:     m.v * sg,
		gamma: Gravity / m.v * (n*cm - side*sm - cg),
		chi:   Gravity / (m.v * cg) * (n*sm + side*cm),
	}
}

// sideLoad is the lateral load factor of sideslip, in g to the right.
func (p *Model) sideLoad(v float64) float64 {
	return -p.Airplane.SideForce * p.beta / rad * p.density * sq(v/Knot/p.Airplane.Entry)
}

// Step advances the airplane by dt seconds with the controls held: lags in closed form, motion
// by the midpoint rule.
func (p *Model) Step(dt float64, c Controls) {
	if p.lags.dt != dt {
		p.lags = newLags(dt)
	}
	p.throttle += (c.Throttle - p.throttle) * p.lags.throttle
	p.attack(c.Load)
	p.roll += (c.Roll - p.roll) * p.lags.roll
	p.mu += p.roll * dt
	p.slide(c)

	m := motion{p.Speed, p.Altitude, p.Climb, p.chi}
	a := p.accelerate(m)
	b := p.accelerate(motion{m.v + a.v*dt/2, m.h + a.h*dt/2, m.gamma + a.gamma*dt/2, m.chi + a.chi*dt/2})
	ground := (p.Speed + a.v*dt/2) * math.Cos(p.Climb+a.gamma*dt/2)
	course := p.chi + a.chi*dt/2
	p.over[0] += (ground*math.Cos(course) + p.wind[0]) * dt
	p.over[1] += (ground*math.Sin(course) + p.wind[1]) * dt
	p.lat += (ground*math.Cos(course) + p.wind[0]) / (earth + p.Altitude) * dt
	p.lon += (ground*math.Sin(course) + p.wind[1]) / ((earth + p.Altitude) * math.Cos(p.lat)) * dt
	p.lat = math.Max(-89*rad, math.Min(89*rad, p.lat))
	p.Speed = math.Max(15*Knot, p.Speed+b.v*dt)
	p.Altitude += b.h * dt
	p.Climb = math.Max(-85*rad, math.Min(85*rad, p.Climb+b.gamma*dt))
	p.chi = math.Remainder(p.chi+b.chi*dt, 2*math.Pi)
	p.mu = math.Remainder(p.mu, 2*math.Pi)
	p.Time += dt
	p.density = sigma(p.Altitude)
	p.measure(dt)
}

// Over returns where the airplane is over the ground, ft north and east of where the flight began.
func (p *Model) Over() (north, east float64) { return p.over[0], p.over[1] }

// GroundVelocity returns the velocity over the ground, ft/s toward north and east.
func (p *Model) GroundVelocity() (north, east float64) {
	v := p.Speed * math.Cos(p.Climb)
	return v*math.Cos(p.chi) + p.wind[0], v*math.Sin(p.chi) + p.wind[1]
}

// Height returns the height above the ground, ft.
func (p *Model) Height() float64 { return p.Altitude - Terrain }

// attack moves the angle of attack toward what the load factor asked for needs. Past the
// stalling angle lift drops and the nose falls until the angle is well below it; no spin.
func (p *Model) attack(load float64) {
	need := load * stallAngle * sq(p.Airplane.Stall/p.EquivalentAirspeed())
	if p.Stalled {
		need = math.Min(need, 0.5*stallAngle)
	}
	need = math.Max(-0.3*stallAngle, math.Min(need, 1.1*stallAngle))
	p.alpha += (need - p.alpha) * p.lags.attack
	switch {
	case p.alpha > stallAngle:
		p.Stalled = true
	case p.alpha < 0.8*stallAngle:
		p.Stalled = false
	}
}

// slide moves sideslip toward the balance of adverse yaw, torque effect and rudder. Torque yaws
// the nose left (clockwise propeller seen by the pilot), more as airspeed falls.
func (p *Model) slide(c Controls) {
	slow := sq(p.Airplane.Entry / p.EquivalentAirspeed())
	yaw := p.Airplane.Torque*rad*(slow-1) + adverse*p.roll/(p.Airplane.RollRate*rad)*math.Sqrt(slow)
	want := c.Feet * (yaw - c.Slip) / pedalSlip
	p.pedal += (math.Max(-1, math.Min(1, want)) - p.pedal) * p.lags.feet
	p.beta += (yaw - p.pedal*pedalSlip - p.beta) * p.lags.slip
}

// measure computes the attitude from flight path, bank, angle of attack and sideslip, and the
// body rates from its change.
func (p *Model) measure(dt float64) {
	sg, cg := math.Sincos(p.Climb)
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
	was := p.Euler
	p.Euler = [3]float64{math.Atan2(x[1], x[0]), math.Asin(math.Max(-1, math.Min(1, -x[2]))), math.Atan2(y[2], z[2])}
	if dt <= 0 {
		return
	}
	dpsi := math.Remainder(p.Euler[0]-was[0], 2*math.Pi) / dt
	dtheta := (p.Euler[1] - was[1]) / dt
	dphi := math.Remainder(p.Euler[2]-was[2], 2*math.Pi) / dt
	st, ct := math.Sincos(p.Euler[1])
	sp, cp := math.Sincos(p.Euler[2])
	p.rates = [3]float64{dphi - dpsi*st, dtheta*cp + dpsi*ct*sp, -dtheta*sp + dpsi*ct*cp}
}
