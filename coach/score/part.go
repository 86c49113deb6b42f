package score

import (
	"slices"

	"halfturn/coach"
)

// Part leaves of a leg some of its checks, and judges it by those alone. A leg that was given up still shows a part
// whose checks were all measured. ok is false for another maneuver. The leg itself is not changed.
func Part(leg *coach.Leg, ids []string, noCard bool) (part *coach.Leg, ok bool) {
	if leg.Another != nil {
		return nil, false
	}
	l, whole := *leg, true
	l.Checks, l.Overruled = nil, nil
	for i := range leg.Checks {
		if k := &leg.Checks[i]; slices.Contains(ids, k.ID) {
			l.Checks = append(l.Checks, *k)
			whole = whole && k.Verdict != coach.NotMeasured
		}
	}
	if l.Outcome == coach.BrokenOff && whole && len(l.Checks) > 0 {
		l.Outcome = coach.Finished // what was given up came after the part
	}
	external := l.Verdict == coach.NotMeasured && l.Outcome != coach.Finished
	Leg(&l, Ended{External: external, NoCard: noCard})
	return &l, true
}
