package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

const upDownSays = "depth below the value of the entry over height above it"

var upDownKind = &check.Kind{
	Name:   "up-down",
	Says:   upDownSays,
	Needs:  []string{"channel", "from", "to"},
	Allows: []string{"smooth"},
	Valid:  straight,
	Where:  as(upDownSays),
	Unit:   in("ratio"),
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return newUpDown(s, f)
	},
	Bands:  check.Ratios,
	Looks:  check.Throughout,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// upDown compares the lower half of a loop with the upper one: how far a quantity goes below its value at the entry
// over how far it goes above it. 1 is symmetrical; less is a lower half that is too flat.
type upDown struct {
	span
	entry     float64
	known     bool
	high, low float64
}

// leastHeight is the height of the upper half under which there is nothing to compare with, in units of the quantity
// (common practice, no source).
const leastHeight = 1

func newUpDown(s *check.Spec, f *check.Facts) *upDown {
	u := &upDown{span: newSpan(s, f), high: math.Inf(-1), low: math.Inf(1)}
	u.entry, u.known = u.get(&f.Entry)
	return u
}

func (u *upDown) Step(m *check.Moment) {
	if v, _, ok := u.read(m); ok {
		u.high, u.low = math.Max(u.high, v), math.Min(u.low, v)
	}
}

func (u *upDown) Measure(*check.Moment) check.Measure {
	if !u.known || u.low > u.high {
		return u.nothing()
	}
	if u.high-u.entry < leastHeight {
		return check.None(phrase.HardlyMoved.Of(phrase.Part("what", phrase.Plain(u.name))))
	}
	return check.Found(math.Max(0, u.entry-u.low)/(u.high-u.entry), math.NaN())
}
