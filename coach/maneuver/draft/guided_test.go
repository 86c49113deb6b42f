package draft

import (
	"strings"
	"testing"

	"halfturn/coach/aircraft"
	"halfturn/coach/measure"
	"halfturn/coach/plan"
)

// What was measured makes a card, with the rest from the class most like it, and every shipped maneuver has its path.
func TestGuided(t *testing.T) {
	lib := library(t)
	for _, c := range []struct {
		r    measure.Results
		like string
		have []string
	}{
		{measure.Results{Stall: 46, StallBy: measure.ByWarning, Entry: 98}, "light-single",
			[]string{"stall = 46", "entry = 98", "apex = 64", "At the stall warning"}},
		{measure.Results{Stall: 61, StallBy: measure.ByStall, Entry: 128}, "radial-trainer",
			[]string{"stall = 61", "apex = 83", "At the stall, for 1 g"}},
		{measure.Results{Stall: 80, StallBy: measure.ByLowest, Entry: 210}, "turboprop-trainer",
			[]string{"stall = 80", "The slowest that was flown"}},
		{measure.Results{Entry: 215}, "turboprop-trainer", []string{"# stall: not measured"}},
	} {
		like := Nearest(lib.Aircraft(), c.r)
		if like == nil || like.Name != c.like {
			t.Fatalf("%+v is most like %v; must be %s", c.r, like, c.like)
		}
		text := Guided(c.r, "mine", "My own", like)
		for _, want := range c.have {
			if !strings.Contains(text, want) {
				t.Errorf("no %q in:\n%s", want, text)
			}
		}
		more, err := lib.With("aircraft", "aircraft/mine.toml", []byte(text))
		if err != nil {
			t.Fatalf("%v in:\n%s", err, text)
		}
		if n := len(more.Aircraft()); n != len(lib.Aircraft())+1 || c.r.Stall == 0 {
			continue
		}
		mine, err := more.AircraftNamed("mine")
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range []string{"wing-over", "lazy-eight"} {
			card, err := more.Card(name)
			if err != nil {
				t.Fatal(err)
			}
			if p := plan.New(card, mine); p.Path == nil {
				t.Errorf("%s in %+v has no path: %s", name, c.r, p.Problem)
			}
		}
	}
}

// Without a card that gives its speeds there is none like it, and the card has what was measured.
func TestGuidedAlone(t *testing.T) {
	r := measure.Results{Stall: 50, StallBy: measure.ByStall, Entry: 100}
	if like := Nearest([]*aircraft.Aircraft{{Name: "blank"}}, r); like != nil || Nearest(nil, r) != nil {
		t.Errorf("like %v", like)
	}
	text := Guided(r, "mine", "My own", nil)
	if _, err := aircraft.Load("mine.toml", []byte(text)); err != nil || strings.Contains(text, "glide") {
		t.Errorf("%v in:\n%s", err, text)
	}
}
