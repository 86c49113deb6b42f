// Package track keeps the recent past of one station and answers what the maneuvers have in common: how the flight
// moved over the last seconds, what level flight it left, where it departed from it, and whether clearing turns were
// flown. It knows nothing of a card.
//
// A Tracker is shared by all judges of a station. Level and Clearing are small and belong to one judge each, since
// both are paused while that judge sees a leg.
package track
