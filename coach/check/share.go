package check

import "math"

// share gives the share of time (0 to 1) in which the quantity stays within a distance of 0;
// its place is the turn angle of the worst moment.
type share struct {
	span
	within, good, time float64
	worst, at          float64
}

func (a *share) Step(m *Moment) {
	v, dt, ok := a.read(m)
	if !ok {
		return
	}
	a.time += dt
	if math.Abs(v) <= a.within {
		a.good += dt
	}
	if math.Abs(v) > a.worst {
		a.worst, a.at = math.Abs(v), m.Turn
	}
}

func (a *share) Measure(*Moment) Measure {
	if a.time == 0 {
		return a.nothing()
	}
	return value(a.good/a.time, a.at)
}
