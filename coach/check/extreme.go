package check

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
