package ground

import "math"

// A Departure is how far a turn was from what it was to keep, and where.
type Departure struct {
	Value float64
	Turn  float64 // ° of turn; NaN without a place
}

// Uneven returns the largest departure of the distance from a point over its mean between two turn angles (°): positive
// is farther away.
func (w *Way) Uneven(about Spot, from, to float64) Departure {
	most := Departure{Turn: math.NaN()}
	spots := w.within(from, to)
	for i := range spots {
		if off := about.away(&spots[i])/about.Radius - 1; math.Abs(off) > math.Abs(most.Value) {
			most = Departure{off, float64(spots[i].turn)}
		}
	}
	return most
}

// Ahead returns how far a pylon was ahead of the wing line in the plane of the wings, °, negative behind: the mean over
// some turn angles (°), and the mean of how far it was off to either side. side is that of the turn, 1 right, −1 left.
func (w *Way) Ahead(pylon Spot, side, from, to float64) (mean, off Departure) {
	spots := w.within(from, to)
	worst := 0.0
	mean.Turn, off.Turn = math.NaN(), math.NaN()
	for i := range spots {
		p := &spots[i]
		angle := p.ahead(pylon, side)
		mean.Value += angle / float64(len(spots))
		off.Value += math.Abs(angle) / float64(len(spots))
		if math.Abs(angle) > worst {
			worst, mean.Turn, off.Turn = math.Abs(angle), float64(p.turn), float64(p.turn)
		}
	}
	return mean, off
}

// ahead returns how far a pylon is ahead of the wing line in the plane of the wings, °.
func (p *spot) ahead(pylon Spot, side float64) float64 {
	nose, wing, _ := p.axes(side)
	to := [3]float64{pylon.north - float64(p.north), pylon.east - float64(p.east), float64(p.height)}
	dot := func(a [3]float64) float64 { return a[0]*to[0] + a[1]*to[1] + a[2]*to[2] }
	return math.Atan2(dot(nose), dot(wing)) / degree
}
