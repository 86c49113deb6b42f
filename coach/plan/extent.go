package plan

import "math"

// Dive returns the lowest nose of the reference path, ° from the pitch of level flight; NaN when there is no path.
func (p *Plan) Dive() float64 {
	if p.Path == nil {
		return math.NaN()
	}
	lowest := 0.0
	for i := range p.Path.Points {
		lowest = min(lowest, p.Path.Points[i].Pitch)
	}
	return lowest
}

// Climb returns the height, ft, that the reference path gains to its exit from the airspeed (kt) and altitude (ft) of
// an entry; NaN when there is no path. It grows with the square of the true airspeed, as From does.
func (p *Plan) Climb(airspeed, altitude float64) float64 {
	if p.Path == nil {
		return math.NaN()
	}
	return p.From(airspeed, altitude).At(p.Card.Turn).Height
}
