package check

import "math"

// rms gives the root mean square over time in a span.
type rms struct {
	span
	sum, time float64
}

func (a *rms) Step(m *Moment) {
	if v, dt, ok := a.read(m); ok {
		a.sum += v * v * dt
		a.time += dt
	}
}

func (a *rms) Measure(*Moment) Measure {
	if a.time == 0 {
		return a.nothing()
	}
	return value(math.Sqrt(a.sum/a.time), math.NaN())
}
