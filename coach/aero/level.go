package aero

import (
	"math"

	"halfturn/stream/phrase"
)

// Level predicts the flight of a program with height and airspeed held, as in a steep turn: its
// turn rate is g·tan(bank)/V, its load factor 1/cos(bank), its radius V²/(g·tan(bank)); noses are
// left at 0. Source: Pilot's Handbook of Aeronautical Knowledge, aerodynamics of flight.
//
// It fails when the program is malformed, or asks for a bank at which no level flight is.
func Level(p Program, a Airplane, e Entry) (*Path, error) {
	c, err := p.compile()
	if err != nil {
		return nil, err
	}
	for _, k := range p.Knots {
		if k.Bank > 80 {
			return nil, noPath(phrase.PathNoLevel.Of(phrase.Number("bank", k.Bank, -1, "°"),
				phrase.Number("most", 80, -1, "°")))
		}
	}
	tas := TrueAirspeed(e.Airspeed, e.Altitude)
	path := &Path{}
	now := 0.0
	for deg := 0.0; ; {
		part := c.part(deg * rad)
		b := c.at(part, c.param(part, deg*rad)).bank / rad
		n := LoadFactor(b)
		path.Points = append(path.Points, Point{Turn: deg, Time: now, Bank: b, Airspeed: e.Airspeed, TrueAirspeed: tas,
			LoadFactor: n, Radius: TurnRadius(tas, b), StallMargin: e.Airspeed - StallSpeed(a.Stall, n)})
		if deg >= p.Turn {
			break
		}
		next := math.Min(math.Floor(deg)+1, p.Turn)
		now += c.levelTime(deg*rad, next*rad, tas*FeetPerSecond)
		deg = next
	}
	path.finish()
	path.overGround()
	return path, within(path, a)
}

// levelTime returns how long a level turn at a speed (ft/s) takes from one turn angle to
// another, rad. Time per unit of the parameter is finite where the wings are level, too.
func (c *curve) levelTime(from, to, v float64) (t float64) {
	const parts = 16
	for from < to-1e-12 {
		part, end := c.part(from), to
		if seam := c.in.turn; part == rollIn && seam < end {
			end = seam
		}
		if seam := c.turn - c.out.turn; part == middle && seam < end {
			end = seam
		}
		s, e := c.param(part, from), c.param(part, end)
		for i := range parts { // by midpoints
			at := c.at(part, s+(float64(i)+0.5)*(e-s)/parts)
			t += (e - s) / parts * v * math.Cos(at.bank) / (Gravity * at.lead)
		}
		from = end
	}
	return t
}

// overGround fills in where the points are over the ground without wind: each step goes as far
// as the mean speed over the ground in its time, at the heading in its middle.
func (p *Path) overGround() {
	for i := 1; i < len(p.Points); i++ {
		a, b := &p.Points[i-1], &p.Points[i]
		v := (a.TrueAirspeed*math.Cos(a.Climb*rad) + b.TrueAirspeed*math.Cos(b.Climb*rad)) / 2 * FeetPerSecond
		sin, cos := math.Sincos((a.Turn + b.Turn) / 2 * rad)
		b.Along = a.Along + v*(b.Time-a.Time)*cos
		b.Across = a.Across + v*(b.Time-a.Time)*sin
	}
}
