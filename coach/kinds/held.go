package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/coach/valid"
	"halfturn/stream/phrase"
)

var heldKind = &check.Kind{
	Name:   "held",
	Says:   "bank farthest from the aim: no steeper anywhere in the leg, no shallower within the span",
	Needs:  []string{"channel", "from", "to"},
	Allows: []string{"smooth"},
	Valid:  heldValid,
	Where: func(s *check.Spec, in *phrase.Language) string {
		return over(s, in, in.Wordf("%s farthest from the aim: steepest in the leg, shallowest", quantity(s, in)))
	},
	Unit: ofQuantity,
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &held{span: newSpan(s, f), aim: *s.Aim}
	},
	Bands:  check.Tolerances,
	Looks:  check.Throughout,
	Known:  check.AtEnd,
	Doubt:  check.OneValue,
	Told:   check.WithPlace,
	Counts: check.NoCount,
}

// held measures the excursion of a bank that is to be held: its value where it is farthest from the aim. The roll-in
// and the roll-out pass through every smaller bank, so that a shallow one counts only within the span, which begins
// where the roll-in must be over and ends where the roll-out may begin. A steep one counts from the first moment to the
// last, since neither roll has to pass the aim.
type held struct {
	span
	aim   float64
	found check.Measure
	off   float64
}

func (h *held) Step(m *check.Moment) {
	v, _, ok := h.value(m)
	if !ok {
		return
	}
	inside := m.Turn >= h.from && m.Turn <= h.to
	if off := math.Abs(v - h.aim); (inside || v > h.aim) && (!h.found.OK || off > h.off) {
		h.found, h.off = check.Found(v, m.Turn), off
	}
}

func (h *held) Measure(*check.Moment) check.Measure {
	if !h.found.OK {
		return h.nothing()
	}
	return h.found
}

// heldValid checks that there is an aim, and that the quantity is one which starts and ends below it.
func heldValid(v *valid.Validator, key string, s *check.Spec) {
	oneOf("bank")(v, key, s)
	if s.Aim == nil {
		v.Fail(key+".aim", "is missing; must be the value to hold")
	}
}
