package aero

import "math"

// LoadFactor returns the load factor (g) of a level coordinated turn at a bank in degrees:
// 1/cos(bank). It is +Inf at 90° and beyond, where no level turn exists.
// Source: Pilot's Handbook of Aeronautical Knowledge, aerodynamics of flight.
func LoadFactor(bank float64) float64 {
	c := math.Cos(bank * rad)
	if c <= 1e-12 {
		return math.Inf(1)
	}
	return 1 / c
}

// StallSpeed returns the stall speed at a load factor, in the unit of the stall speed at 1 g:
// stall × √n. At zero or negative load factor the wing carries nothing and it is 0.
// Source: Pilot's Handbook of Aeronautical Knowledge, load factors and stalling speeds.
func StallSpeed(stall, loadFactor float64) float64 {
	return stall * math.Sqrt(max(0, loadFactor))
}

// TurnRadius returns the radius (ft) of a level coordinated turn from true airspeed (kt) and
// bank (°): V²/(g tan(bank)). The handbook writes it V²/(11.26 tan(bank)).
// Source: Pilot's Handbook of Aeronautical Knowledge, aerodynamics of flight.
func TurnRadius(tas, bank float64) float64 {
	v := tas * FeetPerSecond
	return v * v / (Gravity * math.Tan(bank*rad))
}

// Drag returns drag over weight of an airplane with a parabolic polar:
// (u² + n²/u²)/(2E), where u is equivalent airspeed over the speed of least drag at 1 g, n the
// load factor and E the best lift-to-drag ratio.
// Source: any flight-performance text; it follows from CD = CD0 + K·CL².
func Drag(u, loadFactor, liftToDrag float64) float64 {
	return (u*u + loadFactor*loadFactor/(u*u)) / (2 * liftToDrag)
}
