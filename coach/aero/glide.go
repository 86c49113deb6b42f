package aero

import (
	"cmp"
	"math"

	"halfturn/stream/phrase"
)

// Glide predicts a descending turn without power at a held airspeed, as in a steep spiral: the flight path goes down by
// sin(γ) = drag over weight, at the load factor cos(γ)/cos(bank); the turn rate is g·tan(bank)/V, the radius
// V²·cos(γ)/(g·tan(bank)). Source: any flight-performance text; the level turn is that of the Pilot's Handbook of
// Aeronautical Knowledge. The true airspeed falls with the height.
func Glide(p Program, a Airplane, e Entry) (*Path, error) {
	c, err := p.compile()
	if err != nil {
		return nil, err
	}
	for _, k := range p.Knots {
		if k.Bank > 75 {
			return nil, noPath(phrase.PathNoLevel.Of(phrase.Number("bank", k.Bank, -1, "°"),
				phrase.Number("most", 75, -1, "°")))
		}
	}
	best := cmp.Or(a.MinDrag, MinDragOverStall*a.Stall, minDragOverEntry*a.Entry)
	ratio := cmp.Or(a.LiftToDrag, DefaultLiftToDrag)
	path := &Path{}
	now, height := 0.0, 0.0
	for deg := 0.0; ; {
		part := c.part(deg * rad)
		b := c.at(part, c.param(part, deg*rad)).bank / rad
		tas := TrueAirspeed(e.Airspeed, e.Altitude+height)
		u := tas * math.Sqrt(Sigma(e.Altitude+height)) / best
		n, gamma := descent(u, b, ratio)
		path.Points = append(path.Points, Point{Turn: deg, Time: now, Bank: b, Airspeed: e.Airspeed, TrueAirspeed: tas,
			Climb: -gamma / rad, Pitch: -gamma/rad + attack(a.Stall, e.Airspeed, n), Height: height, LoadFactor: n,
			Radius: TurnRadius(tas, b) * math.Cos(gamma), StallMargin: e.Airspeed - StallSpeed(a.Stall, n)})
		if deg >= p.Turn {
			break
		}
		next := math.Min(math.Floor(deg)+1, p.Turn)
		dt := c.levelTime(deg*rad, next*rad, tas*FeetPerSecond)
		now += dt
		height -= tas * FeetPerSecond * math.Sin(gamma) * dt
		deg = next
	}
	path.finish()
	path.overGround()
	return path, within(path, a)
}

// descent returns the load factor of a gliding turn and the angle of its path below the horizon, rad: u is the
// equivalent airspeed over that of least drag, bank in °.
func descent(u, bank, ratio float64) (n, gamma float64) {
	for range 8 { // each round leaves a tenth of the error
		n = math.Cos(gamma) / math.Cos(bank*rad)
		gamma = math.Asin(math.Min(1, Drag(u, n, ratio)))
	}
	return n, gamma
}

// attack returns how far the angle of attack at a load factor is above that of level flight at the same airspeed, °; 0
// where the stall speed is not known.
func attack(stall, airspeed, n float64) float64 {
	return stallAngle * (stall / airspeed) * (stall / airspeed) * (n - 1)
}

// BankToHold returns the bank (°) with which a turn keeps its radius (ft) over the ground, and the drift (°) that is
// allowed for: the airplane moves along the circle at its ground speed, and what turns it is the part of the
// acceleration GS²/R that is across its way through the air. Straight up and down the wind that is
// tan(bank) = GS²/(g·R). tas and the wind are in kt; the wind blows along the track and across it, positive from
// behind and away from the center.
func BankToHold(radius, tas, behind, outward float64) (bank, drift float64) {
	drift = math.Asin(math.Max(-1, math.Min(1, outward/tas)))
	ground := (tas*math.Cos(drift) + behind) * FeetPerSecond
	return math.Atan(ground*ground/radius*math.Cos(drift)/Gravity) / rad, drift / rad
}

// PivotalAltitude returns the height above a pylon (ft) at which a point on the ground keeps its place on the wing, at
// a ground speed (kt): V²/g. Source: FAA-H-8083-3C p. 7-15, which writes it GS²/11.3.
func PivotalAltitude(groundSpeed float64) float64 {
	v := groundSpeed * FeetPerSecond
	return v * v / Gravity
}
