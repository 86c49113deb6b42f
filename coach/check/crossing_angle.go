package check

import "math"

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
