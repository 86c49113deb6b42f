package check

// rise gives how far a quantity climbs above its value at the start of the span.
type rise struct{ binned }

func (r *rise) Measure(*Moment) Measure {
	at, v := r.profile()
	if len(v) < 3 {
		return r.nothing()
	}
	i := top(v, 1)
	return value(v[i]-v[0], at[i])
}
