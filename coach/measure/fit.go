package measure

import (
	"math"

	"halfturn/coach/aircraft"
)

// How close the numbers of an aircraft must come to what was flown (common practice, no source).
const (
	entryWithin = 10.0 // kt: the tolerance of an entry speed
	stallWithin = 0.07 // of the stall speed
)

// A Flown is what a flight tells of its aircraft. Entry is the airspeed at which a maneuver was begun, Stall the
// measured stall speed, 0 where none was flown, and Lowest the lowest airspeed over √load factor, all in kt.
type Flown struct{ Entry, Stall, Lowest float64 }

// Flown returns what the flight so far tells, for a maneuver begun at an airspeed (kt).
func (m *Measurer) Flown(entry float64) Flown {
	f := Flown{Entry: entry, Lowest: m.lowest}
	if stall, _, why := m.Stall(); why == "" {
		f.Stall = stall
	}
	return f
}

// Fits returns the aircraft whose numbers for a maneuver come closest to what was flown; nil when none comes close, or
// two come equally close. An aircraft of a stall speed above the slowest flight is another one.
func Fits(all []*aircraft.Aircraft, maneuver string, f Flown) *aircraft.Aircraft {
	var best *aircraft.Aircraft
	least, next := math.Inf(1), math.Inf(1)
	for _, a := range all {
		numbers := a.For(maneuver)
		off, ok := f.misfit(&numbers)
		switch {
		case !ok:
		case off < least:
			best, least, next = a, off, least
		case off < next:
			next = off
		}
	}
	if next-least < 0.1 {
		return nil
	}
	return best
}

// misfit is how far the numbers of an aircraft are from what was flown: 1 is a tolerance.
func (f Flown) misfit(a *aircraft.Aircraft) (off float64, ok bool) {
	if a.Entry == 0 || a.Stall > f.Lowest*(1+stallWithin) {
		return 0, false
	}
	off = math.Abs(a.Entry-f.Entry) / entryWithin
	if off > 1 {
		return off, false
	}
	if f.Stall > 0 && a.Stall > 0 {
		stall := math.Abs(a.Stall-f.Stall) / (f.Stall * stallWithin)
		return math.Hypot(off, stall), stall <= 1
	}
	return off, true
}
