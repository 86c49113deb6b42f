package check

import (
	"math"

	"halfturn/coach/maneuver"
)

// valueAt gives a quantity at an exact turn angle, interpolated between the moments on both
// sides of it, or at the exit. The first crossing counts.
type valueAt struct {
	get   get
	name  string
	turn  float64 // NaN: at the exit
	prev  Moment
	has   bool
	found Measure
}

func newValueAt(spec *maneuver.Check, f *Facts) *valueAt {
	v := &valueAt{get: getter(spec.Channel, f), name: spec.Channel, turn: math.NaN()}
	if spec.Turn != nil {
		v.turn = *spec.Turn
	}
	v.found = none("the turn did not reach %g°", v.turn)
	return v
}

// nearby is how far before its turn angle moments begin to be kept, °: more than any airplane
// turns between two samples of a stream that can be graded.
const nearby = 30

func (v *valueAt) Step(m *Moment) {
	if v.found.OK || math.IsNaN(v.turn) || m.Turn < v.turn-nearby {
		return
	}
	if v.has && v.prev.Turn < v.turn && m.Turn >= v.turn {
		v.prev.Lerp(&v.prev, m, (v.turn-v.prev.Turn)/(m.Turn-v.prev.Turn)) // not needed any more
		if x, ok := v.get(&v.prev); ok {
			v.found = value(x, v.turn)
		} else {
			v.found.Reason = "the stream has no " + v.name
		}
	}
	v.prev, v.has = *m, true
}

func (v *valueAt) Measure(exit *Moment) Measure {
	if !math.IsNaN(v.turn) {
		return v.found
	}
	if exit == nil {
		return none("there was no exit")
	}
	x, ok := v.get(exit)
	if !ok {
		return none("the stream has no %s", v.name)
	}
	return value(x, exit.Turn)
}
