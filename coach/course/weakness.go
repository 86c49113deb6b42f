package course

import "halfturn/coach"

// Weakness finds what a course can be built against: the cause that stands first in most of the latest legs, of those
// that a check of a leg shows; of equals the latest. ok is false when there is none.
func (l *Library) Weakness(c *Course, legs []Flown) (id, maneuver string, ok bool) {
	type found struct{ id, maneuver string }
	times, most := map[found]int{}, 0
	left := latest
	for i := len(legs) - 1; i >= 0 && left > 0; i-- {
		leg := legs[i].Leg
		if leg.Verdict == coach.NotMeasured {
			continue
		}
		left--
		if len(leg.Causes) > 0 && !leg.Causes[0].Minor {
			times[found{leg.Causes[0].ID, legs[i].Maneuver}]++
		}
	}
	for i := len(legs) - 1; i >= 0; i-- { // the latest first
		if len(legs[i].Leg.Causes) == 0 {
			continue
		}
		f := found{legs[i].Leg.Causes[0].ID, legs[i].Maneuver}
		if n := times[f]; n > most {
			if _, err := l.Against(c, f.id, f.maneuver); err == nil {
				id, maneuver, most = f.id, f.maneuver, n
			}
		}
	}
	return id, maneuver, most > 0
}
