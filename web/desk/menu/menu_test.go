package menu

import (
	"slices"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/maneuver"
	"halfturn/configs"
)

func shipped(t *testing.T) (*Menu, *maneuver.Library) {
	t.Helper()
	library, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	return New(library, "maps"), library
}

// TestPlans: each choice gives the plans of its cards, and names them again.
func TestPlans(t *testing.T) {
	m, library := shipped(t)
	for _, c := range []maneuver.Choice{
		{Maneuver: "wing-over"},
		{Maneuver: "lazy-eight", Standard: "check"},
		{Maneuver: "wing-over", Standard: "course", Aircraft: "turboprop-trainer"},
	} {
		p, auto, err := m.Plans(c)
		if err != nil || auto != nil {
			t.Errorf("%+v: %v, %d plans to recognize it by", c, err, len(auto))
			continue
		}
		named := ChoiceOf(p, auto)
		if c.Standard == "" {
			named.Standard = "" // the library's own is named
		}
		if named != c {
			t.Errorf("%+v is named as %+v", c, named)
		}
		if again, _, _ := m.Plans(c); again != p {
			t.Errorf("%+v is planned twice", c)
		}
	}
	c := maneuver.Choice{Maneuver: coach.AutoManeuver, Standard: "check", Aircraft: "light-single"}
	p, auto, err := m.Plans(c)
	if err != nil || len(auto) != len(library.Distinct()) || p != auto[0] || ChoiceOf(p, auto) != c {
		t.Errorf("%+v: %d plans, %v", c, len(auto), err)
	}
	for i, card := range library.Distinct() {
		c.Maneuver = card.Name
		if got := auto[i].Choice(); got != c {
			t.Errorf("plan %d is %+v; must be of %s", i, got, card.Name)
		}
	}
}

// TestNotThere: a card that does not exist is named.
func TestNotThere(t *testing.T) {
	m, _ := shipped(t)
	for _, c := range []maneuver.Choice{
		{Maneuver: "none-such"},
		{Maneuver: "wing-over", Standard: "none-such"},
		{Maneuver: "wing-over", Aircraft: "none-such"},
		{Maneuver: coach.AutoManeuver, Aircraft: "none-such"},
		{},
	} {
		err := m.Check(c)
		if err == nil || c.Maneuver != "" && !strings.Contains(err.Error(), "none-such") {
			t.Errorf("%+v: %v", c, err)
		}
		if sheet, err := m.Brief(c); err == nil || sheet != nil {
			t.Errorf("%+v has a brief, %v", c, err)
		}
	}
}

// TestCards: all of the library can be chosen, and what can be chosen has a brief.
func TestCards(t *testing.T) {
	m, library := shipped(t)
	cards := m.Cards()
	if len(cards.Maneuvers) != len(library.Cards()) || len(cards.Standards) != len(library.Standards()) ||
		len(cards.Aircraft) != len(library.Aircraft()) || cards.Auto.Name != coach.AutoManeuver {
		t.Errorf("%+v", cards)
	}
	for _, title := range cards.Maneuvers {
		if sheet, err := m.Brief(maneuver.Choice{Maneuver: title.Name}); err != nil || sheet == nil {
			t.Errorf("%s has no brief: %v", title.Name, err)
		}
		if title.Title == "" {
			t.Errorf("%s has no title", title.Name)
		}
	}
	if kept := m.Kept(); len(kept) < len(cards.Maneuvers)+len(cards.Standards)+len(cards.Aircraft) {
		t.Errorf("%d cards are kept with a session", len(kept))
	}
}

// TestHash: other maps, or other cards, grade otherwise.
func TestHash(t *testing.T) {
	m, library := shipped(t)
	hashes := []string{m.Hash(), New(library, "other maps").Hash()}
	if again := New(library, "maps").Hash(); again != hashes[0] || len(again) != 64 {
		t.Errorf("the same cards have the hashes %q and %q", hashes[0], again)
	}
	if hashes[0] == hashes[1] || slices.Contains(hashes, "") {
		t.Errorf("other maps have the hash of these: %q", hashes)
	}
}
