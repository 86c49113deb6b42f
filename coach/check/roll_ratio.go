package check

import "math"

// rollRatio gives the mean rate of the roll-in over that of the roll-out: from where the bank leaves level, and to the
// exit, each to and from the bank within a twentieth of its steepest, and a degree. A pull with the wings level before
// the roll-in is no part of it.
type rollRatio struct {
	get           get
	in            rollIn
	steepest      float64     // whole ° that the bank has reached
	reached, held [91]float64 // when each degree of bank was first reached and last held
}

func newRollRatio(f *Facts) *rollRatio {
	return &rollRatio{get: getter("bank", f), in: newRollIn(f)}
}

func (r *rollRatio) Step(m *Moment) {
	v, ok := r.get(m)
	if !ok {
		return
	}
	r.in.step(v, m.Time())
	for r.steepest+1 <= v && r.steepest < 90 {
		r.steepest++
		r.reached[int(r.steepest)] = m.Time()
	}
	for k := int(math.Min(v, 90)); k > 0 && r.held[k] != m.Time(); k-- {
		r.held[k] = m.Time()
		if k < int(r.steepest*0.95)-2 {
			break // nothing below the steep part is ever asked for
		}
	}
}

func (r *rollRatio) Measure(exit *Moment) Measure {
	if exit == nil {
		return none("there was no exit")
	}
	if math.IsNaN(r.in.since) {
		return none("the stream has no bank")
	}
	k := int(r.steepest*0.95) - 1
	if k < 10 {
		return none("there was no roll-in and roll-out")
	}
	in, out := r.reached[k]-r.in.since, exit.Time()-r.held[k]
	if in <= 0 || out <= 0 {
		return none("there was no roll-in and roll-out")
	}
	return value(out/in, math.NaN())
}
