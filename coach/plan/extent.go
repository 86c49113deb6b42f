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

// Climb returns the height that the reference path gains from entry to exit, ft; NaN when there is no path.
func (p *Plan) Climb() float64 {
	if p.Path == nil {
		return math.NaN()
	}
	return p.Path.At(p.Card.Turn).Height
}
