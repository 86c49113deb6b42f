package trainer

import (
	"testing"

	"halfturn/stream/trainer/airplane"
)

// TestRehearsals: what was found out before changes no flight: of one maneuver and flaw it is not taken for another, in
// another airplane, at another height, or in another wind.
func TestRehearsals(t *testing.T) {
	var shared Rehearsals
	for range 2 { // found out, and known
		for _, name := range airplane.Names() {
			for _, f := range []Flight{
				{Maneuver: "lazy-eight"}, {Maneuver: "lazy-eight", Flaw: "shallow"},
				{Maneuver: "lazy-eight", Flaw: "shallow", Strength: "mild"}, {Maneuver: "wing-over", Altitude: 9000},
				{Maneuver: "wing-over"}, {Maneuver: "wing-over", WindSpeed: 20},
			} {
				f.Airplane = name
				alone, err := New(f)
				if err != nil {
					t.Fatal(err)
				}
				p, err := shared.NewSequence(f)
				if err != nil {
					t.Fatal(err)
				}
				for i := range alone.queue {
					want, got := &alone.queue[i].plan, &p.queue[i].plan
					if want.share != got.share || want.top != got.top || want.dive != got.dive {
						t.Errorf("%+v, leg %d: power %g, nose %g and %g; must be %g, %g and %g",
							f, i+1, got.share, got.top, got.dive, want.share, want.top, want.dive)
					}
				}
			}
		}
	}
}
