package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

const rollRatioSays = "rate of the roll-in over rate of the roll-out"

var rollRatioKind = &check.Kind{
	Name:   "roll-ratio",
	Says:   rollRatioSays,
	Needs:  []string{},
	Allows: []string{},
	Valid:  anything,
	Where:  as(rollRatioSays),
	Unit:   in("ratio"),
	Leg: func(_ *check.Spec, f *check.Facts) check.Judge {
		return newRollRatio(f)
	},
	Bands:  check.Ratios,
	Looks:  check.OnAverage,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// rollRatio measures the mean rate of the roll-in over that of the roll-out: from where the bank leaves level to where
// it comes within a twentieth (and a degree) of its steepest, and from where it last stood there to the exit. A pull
// with the wings level before the roll-in is not part of it.
type rollRatio struct {
	get           check.Reader
	in            rollIn
	steepest      float64     // whole ° that the bank has reached
	reached, held [91]float64 // when each degree of bank was first reached and last held
}

func newRollRatio(f *check.Facts) *rollRatio {
	return &rollRatio{get: check.Read("bank", f), in: newRollIn(f)}
}

func (r *rollRatio) Step(m *check.Moment) {
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
			break // Measure asks for the steep part only
		}
	}
}

func (r *rollRatio) Measure(exit *check.Moment) check.Measure {
	if exit == nil {
		return check.None(phrase.NoExit.Of())
	}
	if math.IsNaN(r.in.since) {
		return check.None(phrase.Lacks.Of(phrase.Part("what", phrase.Plain("bank"))))
	}
	k := int(r.steepest*0.95) - 1
	if k < 10 {
		return check.None(phrase.NoRolls.Of())
	}
	in, out := r.reached[k]-r.in.since, exit.Time()-r.held[k]
	if in <= 0 || out <= 0 {
		return check.None(phrase.NoRolls.Of())
	}
	return check.Found(out/in, math.NaN())
}
