package brief

import (
	"testing"

	"halfturn/coach/aircraft"
)

// Where an aim is shown, so is the band in which the check of the card meets it. The bands are those of the check
// standard: the commercial steep turn within 5° and 10 kt (FAA-S-ACS-7 CA.V.A.S5), others as the cards have them.
func TestBands(t *testing.T) {
	for _, c := range []struct {
		card string
		by   *aircraft.Aircraft
		want map[string]string
	}{
		{"wing-over", example(), map[string]string{
			"entry": "120 kt (110 to 130 kt)",
			"apex":  "70 kt (59 to 81 kt)",
			"bank":  "75° (60 to 89°)",
			"stall": "50 kt",
			"deck":  "1,500 ft",
		}},
		{"steep-turn", example(), map[string]string{"bank": "50° (45 to 55°)", "entry": "120 kt (110 to 130 kt)"}},
		{"chandelle-civil", example(), map[string]string{"bank": "30° (25 to 35°)"}},
		// What is no element of the published test counts for nothing on it.
		{"lazy-eight", example(), map[string]string{"apex": "70 kt", "bank": "30° (25.0 to 35.5°)"}},
		{"wing-over", nil, map[string]string{"entry": "not given", "bank": "75° (60 to 89°)"}},
	} {
		sheet := briefOf(t, c.card, c.by)
		for i := range sheet.Numbers {
			n := &sheet.Numbers[i]
			if want, ok := c.want[n.ID]; ok && n.String() != want {
				t.Errorf("%s, %s: %s; must be %s", c.card, n.ID, n, want)
			}
			delete(c.want, n.ID)
		}
		if len(c.want) > 0 {
			t.Errorf("%s: not on the sheet: %v", c.card, c.want)
		}
	}
}

// Shares of the reference path are bands in its own seconds, feet and degrees, about the number they belong to.
func TestBandsOfThePath(t *testing.T) {
	seen := map[string]bool{}
	for _, card := range []string{"wing-over", "lazy-eight", "chandelle-civil", "chandelle-traditional"} {
		sheet := briefOf(t, card, example())
		for _, n := range sheet.Numbers {
			low, high := n.Met[0], n.Met[1]
			if low == nil && high == nil {
				continue
			}
			seen[n.ID] = true
			if low != nil && *low > *n.Value || high != nil && *high < *n.Value {
				t.Errorf("%s: %s lies outside its band", card, &n)
			}
		}
	}
	for _, id := range []string{"nose", "duration", "load", "stall-margin", "slowest"} {
		if !seen[id] {
			t.Errorf("%s has no band on any card", id)
		}
	}
}
