// Package follow follows a station: by one judge where a maneuver was chosen (Single), or by a judge for every card,
// all over one tracker, which find out from the flight which maneuver it is (Auto).
package follow
