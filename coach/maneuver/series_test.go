package maneuver

import (
	"os"
	"strings"
	"testing"

	"halfturn/coach/check"
)

// TestSeriesIsCounted: a card of several legs asks for all of them, whether it says so or not; its own check of them
// stands.
func TestSeriesIsCounted(t *testing.T) {
	data, err := os.ReadFile("../../configs/maneuvers/wing-over.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	kinds := func(text string) (legs, directions []check.Spec) {
		t.Helper()
		card, err := LoadCard("wing-over.toml", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		for _, k := range card.Checks {
			switch k.Kind {
			case "legs":
				legs = append(legs, k)
			case "directions":
				directions = append(directions, k)
			}
		}
		return legs, directions
	}
	legs, directions := kinds(text)
	if len(legs) != 1 || *legs[0].MetBand.Low != 2 || legs[0].Source != "P-1212 p. 33: flown as two in opposite directions; the pause common practice, no source" || len(directions) != 1 {
		t.Errorf("the shipped card: %+v, %+v", legs, directions)
	}
	from, to := strings.Index(text, "[[check]]\nid = \"opposite-directions\""), strings.Index(text, "[[check]]\nid = \"pair-heading\"")
	bare := text[:from] + text[to:]
	if legs, directions = kinds(bare); len(legs) != 1 || len(directions) != 1 || directions[0].High == "" {
		t.Errorf("a card that asks for neither: %+v, %+v", legs, directions)
	}
	if _, directions = kinds(strings.Replace(bare, "opposite = true", "opposite = false", 1)); len(directions) != 0 {
		t.Errorf("legs may go the same way: %+v", directions)
	}
	if legs, directions = kinds(strings.Replace(bare, "legs = 2", "legs = 1", 1)); len(legs)+len(directions) != 0 {
		t.Errorf("a single leg: %+v, %+v", legs, directions)
	}
	own := text + "\n[[check]]\nid = \"both\"\nlabel = \"Both\"\nkind = \"legs\"\nmet = [2, \"\"]\nnear = [1, \"\"]\nweight = 1\nhigh = \"\"\nlow = \"One more\"\nsource = \"mine\"\n"
	if legs, _ = kinds(own); len(legs) != 1 || legs[0].ID != "both" {
		t.Errorf("a card with its own check: %+v", legs)
	}
	_, err = LoadCard("wing-over.toml", []byte(strings.Replace(text, "id = \"bank-at-90\"", "id = \"legs\"", 1)))
	if err == nil || !strings.Contains(err.Error(), "of kind legs") {
		t.Errorf("another check by that name: %v", err)
	}
}
