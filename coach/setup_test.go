package coach_test

import (
	"regexp"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/maneuver"
	"halfturn/configs"
)

// Pages convert what a gate wants number by number, so each has to bring its unit.
func TestGateWantsCarryUnits(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	numbers := regexp.MustCompile(`\d[\d.,]*\d|\d`)
	for _, card := range lib.Cards() {
		for _, a := range append(lib.Aircraft(), nil) {
			for _, g := range coach.NewPlan(card, a).Gates() {
				if g.Unit == "balls" { // within 0.25 of a ball
					continue
				}
				for _, at := range numbers.FindAllStringIndex(g.Want, -1) {
					if rest := strings.TrimPrefix(g.Want[at[1]:], " "); !strings.HasPrefix(rest, g.Unit) {
						t.Errorf("%s, %s: %q has a number without %q", card.Name, g.ID, g.Want, g.Unit)
					}
				}
			}
		}
	}
}
