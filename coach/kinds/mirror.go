package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

const mirrorSays = "height at the end of a span less that at its start, over the greatest height gained"

var mirrorKind = &check.Kind{
	Name:   "mirror",
	Says:   mirrorSays,
	Needs:  []string{"from", "to"},
	Allows: []string{},
	Valid:  straight,
	Where:  as(mirrorSays),
	Unit:   in("ratio"),
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &mirror{
			get:   check.Read(check.Climb, f),
			facts: f,
			from:  f.Passing(*s.From),
			to:    f.Passing(*s.To),
		}
	},
	Bands:  check.Tolerances,
	Looks:  check.OnAverage,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// mirror compares the descending half of a turn with the climbing one: how much lower it is at a turn angle than at
// the mirrored one, over the height gained at the top. 0 is symmetrical, −1 as deep below as the top was above.
type mirror struct {
	get      check.Reader
	facts    *check.Facts
	from, to *check.Passing
	seen     bool
	most     float64 // ft
}

// leastClimb is the height gained over which heights are compared at least, ft: less is what a person's hands lose and
// gain in any turn (common practice, no source).
const leastClimb = 400

func (h *mirror) Step(m *check.Moment) {
	h.from.Step(m)
	h.to.Step(m)
	if v, ok := h.get(m); ok {
		h.seen, h.most = true, math.Max(h.most, v)
	}
}

func (h *mirror) Measure(*check.Moment) check.Measure {
	up, reached := h.from.At()
	down, over := h.to.At()
	switch {
	case !reached:
		return check.None(phrase.NotReached.Of(phrase.Number("turn", h.from.Turn(), -1, "°")))
	case !over:
		return check.None(phrase.NotReached.Of(phrase.Number("turn", h.to.Turn(), -1, "°")))
	}
	before, ok := h.get(&up)
	after, also := h.get(&down)
	if !ok || !also {
		return check.Absent("altitude", h.facts, h.seen)
	}
	return check.Found((after-before)/math.Max(leastClimb, h.most), math.NaN())
}
