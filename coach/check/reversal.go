package check

import "math"

// reversal gives the largest fall below what was reached before, of a quantity that should
// only rise.
type reversal struct{ binned }

func (r *reversal) Measure(*Moment) Measure {
	at, v := r.profile()
	if len(v) < 3 {
		return r.nothing()
	}
	high, worst, where := v[0], 0.0, at[0]
	for i := range v {
		high = math.Max(high, v[i])
		if high-v[i] > worst {
			worst, where = high-v[i], at[i]
		}
	}
	return value(worst, where)
}
