package check

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
