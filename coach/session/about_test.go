package session_test

import (
	"math"
	"testing"
)

// How far a point may be from where it was: as published for the simulation, and for flights whose flaw is that it was
// not kept on the wing, ft. Those banks do not lead back to it as well.
const (
	spotWithin  = 100.0
	looseWithin = 200.0
)

// The center of a spiral and the pylons of an eight are found on recorded flights, in wind too: truth.json has where
// the pilot program put them.
func TestSpotsAreFound(t *testing.T) {
	found := 0
	for name, w := range loadTruth(t) {
		legs := legsOf(grade(t, name, w, nil))
		for i, want := range w.Legs {
			if i >= len(legs) {
				t.Fatalf("%s: %d legs", name, len(legs))
			}
			about := legs[i].About
			if want.About == nil {
				if about != nil {
					t.Errorf("%s, leg %d: a point %+v", name, i+1, about)
				}
				continue
			}
			if about == nil || about.Chosen {
				t.Errorf("%s, leg %d: no point was found: %+v", name, i+1, about)
				continue
			}
			found++
			within := spotWithin
			if name == "ep-single-a-altitude-constant-1" {
				within = looseWithin
			}
			const foot = 364000 // ft in a degree of latitude
			north := (about.Latitude - want.About.Latitude) * foot
			east := (about.Longitude - want.About.Longitude) * foot * math.Cos(about.Latitude*math.Pi/180)
			if off := math.Hypot(north, east); off > within {
				t.Errorf("%s, leg %d: the point is %.0f ft off", name, i+1, off)
			}
		}
	}
	if found < 5 {
		t.Errorf("%d points", found)
	}
}
