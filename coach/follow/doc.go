// Package follow follows a station: with one judge when a maneuver was chosen (Single), or with one judge per card over
// one tracker, to find the maneuver from the flight (Auto).
//
// # Which maneuver it is
//
// A leg counts for the card whose profile of bank and nose, and whose amount of turn, it fits best, provided the
// second best fits clearly worse; otherwise it counts for none. A card that saw less than half of what a better one saw
// to its end is no second best. A leg that is unclear by itself may be settled by the leg before or after it, when both
// together are clear. Any of the maneuvers may begin while the set-up is being watched. Until the maneuver is clear, a
// frame is "unclear" and names nothing to fly next, and the panel draws no corridor, since it might belong to another
// maneuver.
//
// A maneuver of several turns (a turn pattern) is told by the turns together: three that follow each other, each of
// which fits one of those of the card, and not all alike. One alone is an ordinary turn, of which nothing is said; two
// to both sides may be clearing turns. A turn about a point on the ground is told by the descent without power
// (a spiral) or by the height near the pivotal altitude (eights on pylons) besides.
//
// Only one judge speaks during a leg: that of the maneuver, once it is clear which one is flown. The others are mute,
// so that no correction counts, and no cue is taken for sent, that the pilot did not hear.
package follow
