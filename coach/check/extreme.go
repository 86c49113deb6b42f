package check

import "math"

// extreme gives the highest (sign 1) or lowest (−1) value in a span.
type extreme struct {
	span
	sign  float64
	found Measure
}

func (e *extreme) Step(m *Moment) {
	v, _, ok := e.read(m)
	if ok && (!e.found.OK || e.sign*v > e.sign*e.found.Value) {
		e.found = value(v, m.Turn)
	}
}

func (e *extreme) Measure(*Moment) Measure {
	if !e.found.OK {
		return e.nothing()
	}
	return e.found
}

// extremeAngle gives the turn angle of the highest or lowest value in a span: the middle of
// the stretch around it that comes within a tolerance of it, so that neither turbulence nor a
// flat top decides by chance.
type extremeAngle struct {
	binned
	sign, within float64
}

func (e *extremeAngle) Measure(*Moment) Measure {
	at, v := e.profile()
	if len(v) < 3 {
		return e.nothing()
	}
	peak := top(v, e.sign)
	first, last := peak, peak
	for first > 0 && e.sign*(v[peak]-v[first-1]) <= e.within {
		first--
	}
	for last < len(v)-1 && e.sign*(v[peak]-v[last+1]) <= e.within {
		last++
	}
	middle := (at[first] + at[last]) / 2
	return value(middle, middle)
}

// crossingAngle gives the turn angle at which a quantity crosses a value: the mean of the
// first and the last such crossing in the span, which are one in smooth air.
type crossingAngle struct {
	binned
	cross   float64
	falling bool
}

func (c *crossingAngle) Measure(*Moment) Measure {
	at, v := c.profile()
	if len(v) < 2 {
		return c.nothing()
	}
	first, last := math.NaN(), math.NaN()
	for i := 1; i < len(v); i++ {
		a, b := v[i-1]-c.cross, v[i]-c.cross
		if c.falling {
			a, b = -a, -b
		}
		if a < 0 && b >= 0 {
			x := at[i-1] - a/(b-a)*(at[i]-at[i-1])
			if math.IsNaN(first) {
				first = x
			}
			last = x
		}
	}
	if math.IsNaN(first) {
		return none("%s did not pass %g in the span", c.name, c.cross)
	}
	return value((first+last)/2, (first+last)/2)
}
