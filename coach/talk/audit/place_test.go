package audit

import (
	"fmt"
	"math"

	"halfturn/coach"
	"halfturn/coach/maneuver"
)

// How far from its place a cue may end, s before it, since nobody can hurry a phrase once begun, and after it, since a
// pilot may speed up. It is on its place, whatever the time, within a degree or two, as a checkpoint is flown to.
// One who rocks the wings turns in jerks, and is given more: at a bank of 15° that swings by 8°, the turn rate halves
// and doubles within the words. So is the exit: how the last degrees are flown, briskly or with a long shallow taper,
// nobody foretells.
const (
	earliest      = 1.5
	latest        = 1.0
	near          = 2.0
	nearExit      = 4.0
	nearRough     = 8.0
	earliestRough = 2.5
)

// tolerance returns how early the cue of a turn angle may end, s, and how near its place it is on it, °.
func (f *flight) tolerance(to float64) (early, within float64) {
	switch {
	case f.rough:
		return earliestRough, nearRough
	case to >= f.plan.Card.Turn-maneuver.ExitLead:
		return earliest, nearExit
	}
	return earliest, near
}

// misplaced returns what is wrong with where a cue was heard.
func (f *flight) misplaced(l *coach.Leg, h *heard) (wrong []string) {
	before := 0.0
	for _, c := range f.plan.Card.Checkpoints {
		if c.Turn < *h.To {
			before = c.Turn
		}
	}
	at := turn(l, h.begun)
	if at < 0 {
		return nil // it is of the leg before, whose wings came level as it was begun
	}
	if at < before-1 {
		wrong = append(wrong, fmt.Sprintf("begun at %.0f°, before %g° was passed", at, before))
	}
	if h.cut {
		return wrong
	}
	for i := 1; i < len(l.Trace); i++ {
		if a, b := &l.Trace[i-1], &l.Trace[i]; a.Turn <= *h.To && b.Turn > *h.To {
			off, away := h.ended-b.Time, math.Abs(turn(l, h.ended)-*h.To)
			if early, near := f.tolerance(*h.To); (off < -early || off > latest) && away > near {
				wrong = append(wrong, fmt.Sprintf("%.1f s off its place", off))
			}
			break
		}
	}
	return wrong
}
