// Package follow follows a station: by one judge where a maneuver was chosen (Single), or by one judge per card, all
// over one tracker, to find the maneuver from the flight (Auto).
//
// # Which maneuver it is
//
// A leg counts for the card whose profile of bank and nose, and whose amount of turn, it fits best, provided the
// second best fits clearly worse; otherwise it counts for none. A leg that is unclear by itself may be settled by the
// leg before or after it, when both together are clear. Any of the maneuvers may begin while the set-up is being
// watched. Until the maneuver is clear, a frame is "unclear" and names nothing to fly next, and the panel draws no
// corridor, since it might belong to another maneuver.
package follow
