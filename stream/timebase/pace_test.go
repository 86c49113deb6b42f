package timebase

import (
	"testing"

	"halfturn/stream"
)

// A flight at 100 kt due north, 51.444 m/s, by a simulator that runs at some pace, with positions that often.
func TestPacer(t *testing.T) {
	for _, c := range []struct {
		name        string
		unit        float64 // of the ground speed, true ones are 1
		pace        float64 // after ten seconds
		every       float64 // s between positions
		first, last float64 // s after that in which it must be found; 0: never
	}{
		{"as the clock", 1, 1, 0.05, 0, 0},
		{"a little fast", 1, 1.25, 0.05, 0, 0},
		{"twice as fast", 1, 2, 0.05, 0.5, 3},
		{"twice as fast, a position a second", 1, 2, 1, 0.5, 4},
		{"half as fast", 1, 0.5, 0.05, 2, 5},
		{"in meters a second, not knots", 0.5144, 2, 0.05, 0, 0}, // what never agreed says nothing
	} {
		t.Run(c.name, func(t *testing.T) {
			const step = 0.05
			var p pacer
			p.cut()
			north, placed, shown, found := 0.0, 0.0, 0.0, 0.0
			for now := 0.0; now < 20; now += step {
				pace := 1.0
				if now > 10 {
					pace = c.pace
				}
				north += 51.444 * step * pace
				if now-placed >= c.every-1e-9 {
					placed, shown = now, north
				}
				q := picture{has: placeSet | 1<<stream.GroundSpeed}
				q.values[atLatitude], q.values[atGroundSpeed] = 47+shown/metersPerDegree, 100*c.unit
				if p.add(&q, step) && found == 0 {
					found = now - 10
				}
			}
			if found < c.first || found > c.last {
				t.Errorf("found after %g s; must be from %g to %g", found, c.first, c.last)
			}
		})
	}
}
