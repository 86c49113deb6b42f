// Package track keeps the recent past of one station and answers what the maneuvers have in common: how the flight
// moved over the last seconds, which level flight it left, where it departed from it, and whether clearing turns were
// flown. It is independent of the card.
//
// A Tracker is shared by all judges of a station. Level and Clearing are small and belong to one judge each, since
// both are paused while that judge sees a leg.
//
// # The reference
//
// The reference is level flight, averaged over two seconds: the bank is within 4.5° of the bank at which the heading
// stands (the bank less that of a level turn at the observed turn rate, so that an airplane with one wing low still
// counts as level), the heading moves no faster than 2° of bank would turn it, the nose moves slower than 0.5°/s, and
// there is no zoom. Level pitch is the pitch less the flight path angle. Steady flight that is not level counts only
// after 15 s or 45° of turn, or when there is no other reference.
//
// # The departure
//
// When a judge finds a leg, it looks back through the ring for the moment when the bank (or the nose,
// where the maneuver raises it first) was last within 3° of level, and traces that back to where it had been steady,
// or along its slope. Where the heading had already changed by 1°, the leg begins where the heading began to move.
// Bank left over from the turn before does not belong to the leg. A brisk roll that stops and is held with the nose
// level before a pull is part of the set-up; a gentle first roll belongs to the leg.
package track
