package trainer

import (
	"math"

	"halfturn/stream/trainer/airplane"
)

// A spot is a point on the ground, ft north and east of where the flight began.
type spot struct{ north, east float64 }

// rollsFor is how long the roll-in takes, s: the turn begins that long before the point is abeam.
const rollsFor = 2.2

// abeam is the point at a distance (ft) that comes abeam on a side (+1 right) when the roll-in is over.
// It comes later by as much as the roll-in is early, s.
func abeam(p *airplane.Model, sign, distance, early float64) *spot {
	north, east := p.Over()
	vn, ve := p.GroundVelocity()
	sin, cos := math.Sincos(p.Euler[0] + sign*math.Pi/2)
	return &spot{north + (rollsFor+early)*vn + distance*cos, east + (rollsFor+early)*ve + distance*sin}
}

// bearings returns the distance to a point (ft), how fast that grows (ft/s), and the ground speed (ft/s).
func (s *spot) bearings(p *airplane.Model) (distance, growing, speed float64) {
	north, east := p.Over()
	n, e := north-s.north, east-s.east
	vn, ve := p.GroundVelocity()
	distance = math.Max(50, math.Hypot(n, e))
	return distance, (n*vn + e*ve) / distance, math.Hypot(vn, ve)
}

// How a pilot puts a distance right: ° of bank for each ft, and for each ft/s.
const (
	distanceGain = 0.04
	drawingGain  = 0.4
)

// roundBank is the bank that flies one distance from a point: what the ground speed of now asks for, and more where the
// distance is too large or grows.
func (l *leg) roundBank(p *airplane.Model) float64 {
	distance, growing, speed := l.about.bearings(p)
	bank := math.Atan(speed*speed/distance/gravity)/rad + distanceGain*(distance-l.round) + drawingGain*growing
	if l.blind { // the wind is not seen
		bank = math.Atan(sq(p.Speed)/l.round/gravity) / rad
	}
	return math.Max(5, math.Min(bank, 66))
}

// pylonBank is the bank at which the wing points at a pylon on the ground.
func (l *leg) pylonBank(p *airplane.Model) float64 {
	distance, _, _ := l.about.bearings(p)
	return math.Min(60, math.Atan2(p.Height(), distance)/rad)
}

// How a pilot puts a pylon right that has left the wing: ft of height for each °, and at most (descend when it is
// ahead, climb when it is behind: FAA-H-8083-3C p. 7-17).
const (
	sightGain = 14
	sightMost = 160
)

// pivotal is the altitude at which a pylon stays on the wing, ft MSL: ground speed squared over g above it
// (FAA-H-8083-3C p. 7-15), and a little off that to bring it back.
func (l *leg) pivotal(p *airplane.Model) float64 {
	_, _, speed := l.about.bearings(p)
	if l.over != 0 { // the pylon is not watched
		return airplane.Terrain + speed*speed/gravity + l.over
	}
	north, east := p.Over()
	n, e := l.about.north-north, l.about.east-east
	sin, cos := math.Sincos(p.Euler[0])
	ahead := math.Atan2(n*cos+e*sin, l.sign*(e*cos-n*sin)) / rad
	return airplane.Terrain + speed*speed/gravity - clamp(sightGain*ahead, sightMost)
}

// glideLoad is the load factor that keeps an airspeed (kt) without power: down the path on which drag is balanced, and
// a little flatter the faster it is.
func (l *leg) glideLoad(p *airplane.Model, bank float64) float64 {
	n := 1 / math.Max(0.4, math.Cos(bank))
	down := math.Asin(math.Min(0.7, p.Drag(p.Speed, n)))
	want := -down + 0.012*(p.EquivalentAirspeed()-l.keeps)
	return math.Max(0.3, (math.Cos(p.Climb)+p.Speed/gravity*0.7*(want-p.Climb))*n)
}

// Radius of a spiral and distance of a pylon, ft, by the bank that they ask for without wind, °.
func radiusFor(a *airplane.Airplane, maneuver string, bank float64) float64 {
	return sq(a.EntryFor(maneuver)*1.08*knot) / gravity / math.Tan(bank*rad)
}

func steepSpiral(a *airplane.Airplane) plan {
	return plan{turn: 1080, exit: 1080, out: 1058, feet: 1, share: 1, known: true, glide: true,
		round: radiusFor(a, "steep-spiral", 42),
		bank:  func(float64) float64 { return 45 }, nose: func(float64) float64 { return 0 }}
}

func eightOnPylons(a *airplane.Airplane) plan {
	return plan{turn: 240, exit: 240, out: 225, level: true, feet: 1, share: 1, known: true, pylon: true,
		round: radiusFor(a, "eights-on-pylons", 33),
		bank:  func(float64) float64 { return 45 }, nose: func(float64) float64 { return 0 }}
}
