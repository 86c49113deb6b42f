package trainer

import (
	"testing"

	"halfturn/stream"
	"halfturn/stream/trainer/airplane"
)

// TestEveryFlightEnds: no flaw keeps the pilot flying for ever.
func TestEveryFlightEnds(t *testing.T) {
	for _, m := range []string{"wing-over", "chandelle-civil", "chandelle-traditional"} {
		for _, flaw := range FlawsOf(m) {
			for _, airplane := range airplane.Names() {
				p, err := New(Flight{Maneuver: m, Direction: "right", Flaw: flaw, Airplane: airplane})
				if err != nil {
					t.Fatal(err)
				}
				var s stream.Sample
				flown := 0
				for p.Step(0.1, &s) {
					if flown++; flown > 10*900 {
						t.Errorf("%s with %s in the %s goes on after a quarter of an hour", m, flaw, airplane)
						break
					}
				}
			}
		}
	}
}
