package cause_test

import (
	"strings"
	"testing"

	"halfturn/coach/aircraft"
	"halfturn/coach/cause"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/configs"
)

func library(t *testing.T) *maneuver.Library {
	t.Helper()
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	return lib
}

// expectedOf returns what a card's errors to expect say about one cause, for an aircraft.
func expectedOf(t *testing.T, lib *maneuver.Library, card, id string, plane *aircraft.Aircraft) (say, advice string) {
	t.Helper()
	c, err := lib.Card(card)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range cause.Expect(plan.New(c, plane)) {
		if e.ID == id {
			return e.Title.String(), e.Advice.String()
		}
	}
	t.Fatalf("%s: %s is no error to expect", card, id)
	return "", ""
}

// A propeller that turns clockwise as seen from the seat asks for right rudder as the speed falls, its mirror image for
// left rudder, a jet for neither (FAA-H-8083-3C ch. 10, chandelle). Rudder goes with the aileron, not before it.
func TestRudderWords(t *testing.T) {
	lib := library(t)
	for _, c := range []struct {
		name  string
		card  string
		plane aircraft.Aircraft
		want  string // "" is neither side
	}{
		{"clockwise", "wing-over", aircraft.Aircraft{Rotation: "clockwise"}, "right"},
		{"counterclockwise", "wing-over", aircraft.Aircraft{Rotation: "counterclockwise"}, "left"},
		{"no sense known", "wing-over", aircraft.Aircraft{}, ""},
		{"jet", "wing-over", aircraft.Aircraft{Engine: "jet", Rotation: "clockwise"}, ""},
		{"level turn", "steep-turn", aircraft.Aircraft{Rotation: "clockwise"}, ""},
	} {
		_, advice := expectedOf(t, lib, c.card, "slip-or-skid", &c.plane)
		for _, side := range []string{"right", "left"} {
			if has := strings.Contains(advice, side+" rudder"); has != (side == c.want) {
				t.Errorf("%s: %q; must name %q rudder", c.name, advice, c.want)
			}
		}
		if !strings.Contains(advice, "together with the aileron") || strings.Contains(advice, "lead") {
			t.Errorf("%s: %q", c.name, advice)
		}
	}
}

// A level turn is rolled out of with a lead of half the bank (FAA-H-8083-3C p. 10-3); a maneuver whose bank comes off
// all the way from 90° has the bank of its own card left with 45° to go.
func TestLeadWords(t *testing.T) {
	lib := library(t)
	for card, want := range map[string]string{
		"steep-turn":            "when the degrees to go are half the bank",
		"steep-turn-45":         "when the degrees to go are half the bank",
		"clearing-turns":        "when the degrees to go are half the bank",
		"wing-over":             "45° of bank are left with 45° of turn to go",
		"lazy-eight":            "15° of bank are left with 45° of turn to go",
		"chandelle-traditional": "38° of bank are left with 45° of turn to go",
	} {
		if _, advice := expectedOf(t, lib, card, "rolled-out-late", nil); !strings.Contains(advice, want) {
			t.Errorf("%s: %q; must have %q", card, advice, want)
		}
	}
}

// The nose is highest early where the roll-in lags, and late in a lazy eight where it hurries: rising nose and bank
// both speed the turn up, so that 45° would come first (FAA-H-8083-3C p. 10-7). The cause and the check say the same.
func TestNosePeakWords(t *testing.T) {
	lib := library(t)
	cards := 0
	for _, card := range lib.Cards() {
		for i := range card.Checks {
			k := &card.Checks[i]
			if k.ID != "highest-nose-at" {
				continue
			}
			cards++
			early, advice := expectedOf(t, lib, card.Name, "nose-peak-early", nil)
			if early != "Roll in with the pull" || !strings.Contains(advice, "begin the roll with the pull") ||
				k.Low != early {
				t.Errorf("%s: early: %q, %q, check %q", card.Name, early, advice, k.Low)
			}
			late, _ := expectedOf(t, lib, card.Name, "nose-peak-late", nil)
			if k.High != late || card.Name == "lazy-eight" && late != "Slower roll at the start" {
				t.Errorf("%s: late: %q, check %q", card.Name, late, k.High)
			}
		}
	}
	if cards < 2 {
		t.Errorf("%d cards with a highest nose; must be 2 at least", cards)
	}
}
