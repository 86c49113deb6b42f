package kinds

import (
	"halfturn/coach/check"
	"halfturn/coach/valid"
	"halfturn/stream/phrase"
)

const steadySays = "mean bank between roll-in and roll-out"

var steadyKind = &check.Kind{
	Name:   "steady",
	Says:   steadySays,
	Needs:  []string{"channel"},
	Allows: []string{"about", "from", "to"},
	Valid:  steadyValid,
	Where:  as(steadySays),
	Unit:   ofQuantity,
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &steady{timed: newTimed(wholeTurn(s), f)}
	},
	Bands:  check.Tolerances,
	Looks:  check.OnAverage,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// steady measures the mean over time of a bank that is set and held, without knowing how far the turn goes: from where
// it first comes near its steepest to where it last was. A turn that is over as soon as the bank is set has none.
type steady struct{ timed }

const (
	nearSteepest = 0.8 // of the steepest bank: the bank is set
	leastSteady  = 3.0 // s of it (common practice, no source)
)

func (s *steady) Measure(*check.Moment) check.Measure {
	at, v, t := s.course()
	if len(v) < 3 {
		return s.nothing()
	}
	peak := top(v, 1)
	first, last := peak, peak
	for i := range v {
		if v[i] >= nearSteepest*v[peak] {
			first, last = min(first, i), max(last, i)
		}
	}
	if t[last]-t[first] < leastSteady {
		return check.None(phrase.TooShort.Of())
	}
	sum := 0.0
	for i := first; i < last; i++ {
		sum += (v[i] + v[i+1]) / 2 * (t[i+1] - t[i])
	}
	return check.Found(sum/(t[last]-t[first]), (at[first]+at[last])/2)
}

// steadyValid checks that it is the bank that is to be steady.
func steadyValid(v *valid.Validator, key string, s *check.Spec) { oneOf("bank")(v, key, s) }

// longestHeld is how far the turn may go in which a bank is set and held, °.
const longestHeld = 240

// wholeTurn gives a check without a span all of a turn whose length is not known before it is over.
func wholeTurn(spec *check.Spec) *check.Spec {
	c := *spec
	if c.From == nil {
		c.From, c.To = new(0.0), new(float64(longestHeld))
	}
	return &c
}
