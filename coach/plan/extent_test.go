package plan_test

import (
	"math"
	"testing"

	"halfturn/coach/aero"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/configs"
)

// The extent of a path is that of its points: a chandelle gains height and never dives below level, a wing-over does
// the opposite, and where there is no path neither is known.
func TestExtent(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	for _, plane := range lib.Aircraft() {
		for _, card := range lib.Cards() {
			p := plan.New(card, plane)
			if p.Path == nil {
				if !math.IsNaN(p.Dive()) || !math.IsNaN(p.Climb(100, 5000)) {
					t.Errorf("%s in %s: dive %g, climb %g without a path", card.Name, plane.Name, p.Dive(),
						p.Climb(100, 5000))
				}
				continue
			}
			entry := plane.For(card.Name).Entry
			climb := p.Climb(entry, 5000)
			if low, high := climb, p.Climb(entry, 15000); card.Name == "chandelle-civil" {
				// Zoomed height is V²/2g: it grows with the square of the true airspeed.
				ratio := aero.TrueAirspeed(entry, 15000) / aero.TrueAirspeed(entry, 5000)
				if math.Abs(high/low-ratio*ratio) > 1e-6 {
					t.Errorf("%s in %s climbs %g ft at 5,000 ft and %g at 15,000", card.Name, plane.Name, low, high)
				}
			}
			for _, q := range p.Path.Points {
				if q.Pitch < p.Dive() {
					t.Errorf("%s in %s: %g° at %g° of turn is below %g°",
						card.Name, plane.Name, q.Pitch, q.Turn, p.Dive())
				}
			}
			switch card.Name {
			case "chandelle-civil", "chandelle-traditional":
				if p.Dive() < -2 || climb < 50 {
					t.Errorf("%s in %s: dive %g°, climb %g ft", card.Name, plane.Name, p.Dive(), climb)
				}
			case "wing-over", "lazy-eight":
				if p.Dive() > -2 || math.Abs(climb) > 50 {
					t.Errorf("%s in %s: dive %g°, climb %g ft", card.Name, plane.Name, p.Dive(), climb)
				}
			}
		}
	}
}
