package check

import (
	"math"

	"halfturn/coach/maneuver"
)

// valueAt gives a quantity at an exact turn angle, or at the exit. The first passing counts.
type valueAt struct {
	get     get
	name    string
	facts   *Facts
	seen    bool
	turn    float64 // NaN: at the exit
	passing Passing
}

func newValueAt(spec *maneuver.Check, f *Facts) *valueAt {
	v := &valueAt{get: getter(spec.Channel, f), name: spec.Channel, facts: f, turn: math.NaN()}
	if spec.Turn != nil {
		v.turn = *spec.Turn
		v.passing.Await(v.turn)
	}
	return v
}

func (v *valueAt) Step(m *Moment) {
	if !v.seen {
		_, v.seen = v.get(m)
	}
	if !math.IsNaN(v.turn) {
		v.passing.Step(m)
	}
}

func (v *valueAt) Measure(exit *Moment) Measure {
	m, ok := v.passing.At()
	switch {
	case math.IsNaN(v.turn) && exit == nil:
		return none("there was no exit")
	case math.IsNaN(v.turn):
		m = *exit
	case !ok:
		return none("the turn did not reach %g°", v.turn)
	}
	x, ok := v.get(&m)
	if !ok {
		return absent(v.name, v.facts, v.seen)
	}
	return value(x, m.Turn)
}
