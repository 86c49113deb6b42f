package aero

import (
	"cmp"
	"math"

	"halfturn/stream/phrase"
)

// An Airplane is what the reference path needs to know of one. Zero means unknown.
type Airplane struct {
	Stall      float64 // kt CAS, clean, 1 g; unknown: no stall margin, angle of attack left out
	Entry      float64 // kt CAS, entry airspeed
	Apex       float64 // kt CAS, lowest airspeed of the maneuver
	LiftToDrag float64 // best lift-to-drag ratio; unknown: DefaultLiftToDrag
	MinDrag    float64 // kt CAS of least drag; unknown: MinDragOverStall × Stall
	LoadLimit  float64 // g, highest load factor allowed; unknown: not judged
	Engine     Engine  // how thrust goes with speed
}

// What stands in for numbers an airplane's card does not give.
const (
	// DefaultLiftToDrag is a trainer's best lift-to-drag ratio: light singles 9 to 11, trainers
	// 10 to 12 (from memory); a worked example after Lowry gives 10.62.
	DefaultLiftToDrag = 11.0
	// MinDragOverStall is the speed of least drag over the clean stall speed (common practice,
	// no source: best glide is flown at 1.3 to 1.5 times the stall speed).
	MinDragOverStall = 1.4
	// minDragOverEntry stands in when the stall speed is unknown as well (common practice, no source).
	minDragOverEntry = 0.6
	// stallAngle is the angle of attack of the stall above that of zero lift, in degrees. Recorded
	// flights of two classes of airplane give 16.0 and 16.2 between cruise and the stall.
	stallAngle = 16.0
	// settle is how long, in seconds, the angle of attack takes to follow the load factor.
	settle = 1.0
)

// An Engine says how thrust goes with speed when its setting is left alone.
type Engine uint8

// The kinds of engine.
const (
	Propeller     Engine = iota
	Jet                  // thrust stays constant
	UnknownEngine        // between the two
)

func (e Engine) lapse() float64 {
	switch e {
	case Jet:
		return 0
	case UnknownEngine:
		return 0.125
	}
	return 0.25
}

// An Entry is the state a leg starts from, in straight and level flight.
type Entry struct {
	Airspeed float64 // kt CAS
	Altitude float64 // ft MSL
	Power    float64 // thrust over that of level flight at entry; 0 is as much
	Added    float64 // thrust added in step with the nose, over that of level flight at entry
}

// A Point is the reference path at one turn angle.
type Point struct {
	Turn         float64 // °
	Time         float64 // s since the start of the leg
	Bank         float64 // ° toward the turn
	Pitch        float64 // ° above the pitch of level flight at entry
	Climb        float64 // ° of the flight path above the horizon
	Airspeed     float64 // kt CAS
	TrueAirspeed float64 // kt
	Height       float64 // ft since entry
	LoadFactor   float64 // g
	Radius       float64 // ft of the turn over the ground without wind; +Inf with wings level
	StallMargin  float64 // kt CAS above the stall speed at this load factor; Airspeed if that is unknown
	Along        float64 // ft over the ground from the entry, along its heading, without wind
	Across       float64 // ft, toward the side of the turn
}

// A Path is the flight the numbers predict: one point for every whole degree of turn.
type Path struct {
	Nose     float64 // ° of the highest nose above level trim
	Duration float64 // s from entry to where a leg ends: wings within LevelBank of level in the roll-out
	Points   []Point // Points[i] is at i° of turn; the last is the full turn
}

// LevelBank is the bank within which the wings count as level where a leg ends, °.
const LevelBank = 5.0

// finish fills in the duration.
func (p *Path) finish() {
	i := len(p.Points) - 1
	for i > 0 && p.Points[i-1].Bank <= LevelBank {
		i--
	}
	p.Duration = p.Points[i].Time
	if a, b := p.Points[max(0, i-1)], p.Points[i]; a.Bank > b.Bank {
		// At a steady rate of roll bank and time are in proportion.
		p.Duration = a.Time + (b.Time-a.Time)*(a.Bank-LevelBank)/(a.Bank-b.Bank)
	}
}

// At returns the path at a turn angle in degrees, interpolated between whole degrees and held
// beyond the ends.
func (p *Path) At(turn float64) Point {
	n := len(p.Points) - 1
	turn = max(0, min(turn, p.Points[n].Turn))
	i := min(int(turn), n-1)
	a, b := &p.Points[i], &p.Points[i+1]
	f := (turn - a.Turn) / (b.Turn - a.Turn)
	mix := func(x, y float64) float64 {
		if f == 0 { // keeps an infinite radius from turning into NaN
			return x
		}
		return x + f*(y-x)
	}
	return Point{turn, mix(a.Time, b.Time), mix(a.Bank, b.Bank), mix(a.Pitch, b.Pitch), mix(a.Climb, b.Climb),
		mix(a.Airspeed, b.Airspeed), mix(a.TrueAirspeed, b.TrueAirspeed), mix(a.Height, b.Height),
		mix(a.LoadFactor, b.LoadFactor), mix(a.Radius, b.Radius), mix(a.StallMargin, b.StallMargin),
		mix(a.Along, b.Along), mix(a.Across, b.Across)}
}

// TimeAt returns the time at a turn angle, s, as At does, and the turn angle within the path that it belongs to.
func (p *Path) TimeAt(turn float64) (at, time float64) {
	n := len(p.Points) - 1
	turn = max(0, min(turn, p.Points[n].Turn))
	i := min(int(turn), n-1)
	a, b := &p.Points[i], &p.Points[i+1]
	f := (turn - a.Turn) / (b.Turn - a.Turn)
	return turn, a.Time + f*(b.Time-a.Time)
}

// least returns the point with the smallest value of f.
func (p *Path) least(f func(*Point) float64) *Point {
	best := &p.Points[0]
	for i := range p.Points {
		if f(&p.Points[i]) < f(best) {
			best = &p.Points[i]
		}
	}
	return best
}

// Slowest returns the point of lowest airspeed.
func (p *Path) Slowest() Point { return *p.least(func(q *Point) float64 { return q.Airspeed }) }

// Lowest returns the point of least height.
func (p *Path) Lowest() Point { return *p.least(func(q *Point) float64 { return q.Height }) }

// Heaviest returns the point of highest load factor.
func (p *Path) Heaviest() Point { return *p.least(func(q *Point) float64 { return -q.LoadFactor }) }

// NearestStall returns the point of least margin above the stall.
func (p *Path) NearestStall() Point {
	return *p.least(func(q *Point) float64 { return q.StallMargin })
}

// Fly predicts the flight of a program with its highest nose at an angle (° above level trim)
// from an entry.
//
// The airplane is a point mass in coordinated flight: dV/dt = g((T−D)/W − sin γ), turn rate
// g·n·sin(bank)/(V cos γ), γ rate g(n cos(bank) − cos γ)/V; the load factor n is the one that makes
// the nose follow the program. The power is set before the entry and left alone: thrust grows as 1/V^¼ (a jet's stays
// constant); drag is the parabolic polar of Drag; the atmosphere is standard. The flight path lies under the nose by
// the angle of attack, which follows n/V², and level flight at entry has the nose on the flight path.
//
// It fails, saying where, when the program is malformed, a number is out of range, the lift
// cannot turn the flight path as the program asks, or the airplane runs out of airspeed.
func Fly(p Program, a Airplane, e Entry, nose float64) (*Path, error) {
	c, err := p.compile()
	if err != nil {
		return nil, err
	}
	m, err := newModel(c, a, e, nose)
	if err != nil {
		return nil, err
	}
	return m.fly(p.Turn)
}

// FlyWithin is Fly, and fails where the airplane would stall or pass its load limit, too.
func FlyWithin(p Program, a Airplane, e Entry, nose float64) (*Path, error) {
	path, err := Fly(p, a, e, nose)
	if err != nil {
		return nil, err
	}
	return path, within(path, a)
}

// model is one flight being integrated.
type model struct {
	c       *curve
	stall   float64 // kt EAS
	minDrag float64 // kt EAS
	ld      float64
	nose    float64 // rad
	thrust0 float64 // thrust over weight at entry
	added   float64 // thrust over weight that comes with the nose
	lapse   float64 // power of the airspeed with which thrust falls
	trim    float64 // rad, angle of attack above zero lift in level flight at entry
	alt     float64 // ft MSL at entry
	entry   float64 // ft/s, true airspeed at entry
}

// state is what is integrated, in ft and s.
type state struct{ v, h, t, sag float64 } // sag: flight path below the nose beyond level trim, rad

func newModel(c *curve, a Airplane, e Entry, nose float64) (*model, error) {
	switch {
	case !(e.Airspeed >= 20 && e.Airspeed <= 600):
		return nil, noPath(phrase.PathEntrySpeed.Of(phrase.Number("airspeed", e.Airspeed, -1, "kt"),
			phrase.Number("least", 20, -1, "kt"),
			phrase.Number("most", 600, -1, "kt")))
	case !(e.Altitude >= -2000 && e.Altitude <= 36000):
		return nil, noPath(phrase.PathAltitude.Of(phrase.Number("altitude", e.Altitude, -1, "ft"),
			phrase.Number("least", -2000, -1, "ft"),
			phrase.Number("most", 36000, -1, "ft")))
	case !(math.Abs(nose) <= 75):
		return nil, noPath(phrase.PathNose.Of(phrase.Number("nose", nose, -1, "°")))
	case !(a.Stall >= 0 && a.Stall < e.Airspeed):
		return nil, noPath(phrase.PathStallSpeed.Of(phrase.Number("stall", a.Stall, -1, "kt"), phrase.Number("entry",
			e.Airspeed, -1, "kt")))
	case !(e.Power >= 0 && e.Power <= 10), !(e.Added >= -1 && e.Added <= 10):
		return nil, noPath(phrase.PathPower.Of(phrase.Number("power", e.Power, -1, ""),
			phrase.Number("added", e.Added, -1, "")))
	case !(a.LiftToDrag >= 0 && a.LiftToDrag <= 80), !(a.MinDrag >= 0 && a.MinDrag <= 600):
		return nil, noPath(phrase.PathGlide.Of(phrase.Number("ratio", a.LiftToDrag, -1, ""),
			phrase.Number("airspeed", a.MinDrag, -1, "kt"), phrase.Number("most", 600, -1, "kt")))
	}
	m := &model{c: c, stall: a.Stall, minDrag: a.MinDrag, ld: a.LiftToDrag, lapse: a.Engine.lapse(), nose: nose * rad,
		alt: e.Altitude}
	if m.ld == 0 {
		m.ld = DefaultLiftToDrag
	}
	if m.minDrag == 0 {
		m.minDrag = MinDragOverStall * a.Stall
	}
	if m.minDrag == 0 {
		m.minDrag = minDragOverEntry * e.Airspeed
	}
	v := TrueAirspeed(e.Airspeed, e.Altitude)
	eas := v * math.Sqrt(Sigma(e.Altitude))
	m.entry = v * FeetPerSecond
	level := Drag(eas/m.minDrag, 1, m.ld)
	m.thrust0, m.added = level*cmp.Or(e.Power, 1), level*e.Added
	m.trim = m.attack(eas)
	return m, nil
}

// attack returns the angle of attack above zero lift per g, in rad, at an equivalent airspeed.
func (m *model) attack(eas float64) float64 {
	return stallAngle * rad * m.stall * m.stall / (eas * eas)
}

// forces are the state's derivatives by the parameter, with what the path reports.
type forces struct {
	d           state
	gamma, load float64
	turn        float64 // rad/s
	ok          bool
}

// thrust returns thrust over weight at a true airspeed in ft/s with the power left alone.
//
// At constant shaft power it would grow as 1/V; but a propeller's efficiency falls with its speed, and the speed of one
// of fixed pitch falls with the airplane's. V^-1/4 (common practice, no source) meets the energy balance of the
// recorded flights of four propeller classes; a jet's thrust stays constant.
func (m *model) thrust(v, nose float64) float64 {
	added := m.added * math.Max(0, nose)
	return (m.thrust0 + added) * raise(m.entry/v, m.lapse)
}

func (m *model) forces(part int, s float64, x state) forces {
	at := m.c.at(part, s)
	sin, cos := math.Sincos(at.bank)
	gamma := m.nose*at.nose - x.sag
	sg, cg := math.Sincos(gamma)
	eas := x.v / FeetPerSecond * math.Sqrt(Sigma(m.alt+x.h))
	att := m.attack(eas)
	ratio := x.v / Gravity
	// The load factor that makes the nose follow the program, from the γ equation with
	// γ rate = nose rate − sag rate, both of which depend on it in turn.
	den := cos*(1+ratio*att/settle) - m.nose*at.slope*at.lead/cg
	f := forces{gamma: gamma}
	f.load = (cg + ratio*(x.sag+m.trim*cos)/settle) / den
	f.ok = den > 0.02 && cg > 0.1 && x.v > 15 && f.load > 0 && f.load < 25
	pace := Gravity * f.load * at.lead / (x.v * cg) // parameter per second
	f.turn = Gravity * f.load * sin / (x.v * cg)
	f.ok = f.ok && pace > 1e-6
	if !f.ok {
		return f
	}
	drag := Drag(eas/m.minDrag, f.load, m.ld)
	f.d = state{
		v:   Gravity * (m.thrust(x.v, at.nose) - drag - sg) / pace,
		h:   x.v * sg / pace,
		t:   1 / pace,
		sag: ((att*f.load-m.trim)*cos - x.sag) / settle / pace,
	}
	return f
}

func (x state) plus(d state, k float64) state {
	return state{x.v + k*d.v, x.h + k*d.h, x.t + k*d.t, x.sag + k*d.sag}
}

// advance takes one classic fourth-order Runge-Kutta step.
func (m *model) advance(part int, s, ds float64, x state) (state, bool) {
	a := m.forces(part, s, x)
	b := m.forces(part, s+ds/2, x.plus(a.d, ds/2))
	c := m.forces(part, s+ds/2, x.plus(b.d, ds/2))
	d := m.forces(part, s+ds, x.plus(c.d, ds))
	x = x.plus(a.d, ds/6).plus(b.d, ds/3).plus(c.d, ds/3).plus(d.d, ds/6)
	return x, a.ok && b.ok && c.ok && d.ok
}

// substep is the longest step in seconds (estimated), well inside the settling time.
const substep = 0.3

func (m *model) fly(full float64) (*Path, error) {
	x := state{v: m.entry}
	path := &Path{Nose: m.nose / rad, Points: make([]Point, 0, int(full)+2)}
	part := m.c.part(0)
	path.Points = append(path.Points, m.point(0, m.forces(part, m.c.param(part, 0), x), x, part))
	for deg := 0.0; deg < full; {
		next := math.Min(math.Floor(deg)+1, full)
		var ok bool
		if x, part, ok = m.toward(deg*rad, next*rad, x); !ok {
			return nil, noPath(phrase.PathCannot.Of(phrase.Number("turn", deg, 0, "°"), phrase.Number("nose",
				m.nose/rad, 1, "°"),
				phrase.Number("airspeed", x.v/FeetPerSecond, 0, "kt")))
		}
		f := m.forces(part, m.c.param(part, next*rad), x)
		path.Points = append(path.Points, m.point(next, f, x, part))
		deg = next
	}
	path.finish()
	path.overGround()
	return path, nil
}

// toward integrates from one turn angle to another, in rad, stopping at the seams between parts.
func (m *model) toward(from, to float64, x state) (state, int, bool) {
	part := m.c.part(from)
	for from < to-1e-12 {
		part = m.c.part(from)
		end := to
		if seam := m.c.in.turn; part == rollIn && seam < end {
			end = seam
		}
		if seam := m.c.turn - m.c.out.turn; part == middle && seam < end {
			end = seam
		}
		s, e := m.c.param(part, from), m.c.param(part, end)
		f := m.forces(part, s, x)
		if !f.ok {
			return x, part, false
		}
		n := math.Ceil(math.Abs(e-s) * f.d.t / substep)
		n = math.Max(1, math.Min(n, 60))
		for i := range int(n) {
			var ok bool
			if x, ok = m.advance(part, s+float64(i)*(e-s)/n, (e-s)/n, x); !ok {
				return x, part, false
			}
		}
		from = end
	}
	return x, part, true
}

func (m *model) point(deg float64, f forces, x state, part int) Point {
	at := m.c.at(part, m.c.param(part, deg*rad))
	tas := x.v / FeetPerSecond
	cas := CalibratedAirspeed(tas, m.alt+x.h)
	return Point{
		Turn: deg, Time: x.t, Bank: at.bank / rad, Pitch: m.nose * at.nose / rad, Climb: f.gamma / rad,
		Airspeed: cas, TrueAirspeed: tas, Height: x.h, LoadFactor: f.load,
		Radius:      x.v * math.Cos(f.gamma) / math.Abs(f.turn),
		StallMargin: cas - StallSpeed(m.stall, f.load),
	}
}

// A PathError says why there is no reference path.
type PathError struct{ Why phrase.Phrase }

// Error returns the English.
func (e *PathError) Error() string { return "reference path: " + e.Why.String() }

func noPath(why phrase.Phrase) error { return &PathError{why} }
