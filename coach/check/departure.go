package check

import "math"

// departure gives the largest distance from the entry value, with its sign; in a span that
// starts later, from the value at its start.
type departure struct {
	span
	entry *Moment
	base  float64
	based bool
	found Measure
}

func (d *departure) Step(m *Moment) {
	v, _, ok := d.read(m)
	if !ok {
		return
	}
	if !d.based {
		d.base, d.based = v, true
		if then, had := d.get(d.entry); had && d.from == 0 {
			d.base = then
		}
	}
	if !d.found.OK || math.Abs(v-d.base) > math.Abs(d.found.Value) {
		d.found = value(v-d.base, m.Turn)
	}
}

func (d *departure) Measure(*Moment) Measure {
	if !d.found.OK {
		return d.nothing()
	}
	return d.found
}
