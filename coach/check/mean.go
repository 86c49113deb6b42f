package check

import "math"

// mean gives the mean over time in a span.
type mean struct {
	span
	sum, time float64
}

func (a *mean) Step(m *Moment) {
	if v, dt, ok := a.read(m); ok {
		a.sum += v * dt
		a.time += dt
	}
}

func (a *mean) Measure(*Moment) Measure {
	if a.time == 0 {
		return a.nothing()
	}
	return value(a.sum/a.time, math.NaN())
}
