package plan_test

import (
	"math"
	"testing"

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
				if !math.IsNaN(p.Dive()) || !math.IsNaN(p.Climb()) {
					t.Errorf("%s in %s: dive %g, climb %g without a path", card.Name, plane.Name, p.Dive(), p.Climb())
				}
				continue
			}
			for _, q := range p.Path.Points {
				if q.Pitch < p.Dive() {
					t.Errorf("%s in %s: %g° at %g° of turn is below %g°",
						card.Name, plane.Name, q.Pitch, q.Turn, p.Dive())
				}
			}
			switch card.Name {
			case "chandelle-civil", "chandelle-traditional":
				if p.Dive() < -2 || p.Climb() < 50 {
					t.Errorf("%s in %s: dive %g°, climb %g ft", card.Name, plane.Name, p.Dive(), p.Climb())
				}
			case "wing-over", "lazy-eight":
				if p.Dive() > -2 || math.Abs(p.Climb()) > 50 {
					t.Errorf("%s in %s: dive %g°, climb %g ft", card.Name, plane.Name, p.Dive(), p.Climb())
				}
			}
		}
	}
}
