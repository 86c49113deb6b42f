package maneuver

import (
	"io/fs"
	"path"
	"strings"
	"testing"

	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/configs"
)

// The names that the design fixes for the command line.
var shipped = map[string][]string{
	"maneuvers": {"chandelle-civil", "chandelle-traditional", "wing-over"},
	"aircraft":  {"light-single", "radial-trainer", "turboprop-trainer"},
}

func shippedLibrary(t *testing.T) *Library {
	t.Helper()
	l, err := LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func TestShippedCardsLoad(t *testing.T) {
	l := shippedLibrary(t)
	for kind, names := range shipped {
		for _, name := range names {
			o, ok := l.Origin(kind, name)
			if !ok {
				t.Errorf("%s/%s is not shipped", kind, name)
			}
			if o.File != path.Join(kind, name+".toml") {
				t.Errorf("%s is in %s", name, o.File)
			}
			if got := FolderOf(o.Text); got != kind {
				t.Errorf("%s is taken for a card of %s", o.File, got)
			}
			if !strings.Contains(string(o.Text), "simulator practice only") {
				t.Errorf("%s does not say that it is for a simulator only", o.File)
			}
		}
		files, err := fs.Glob(configs.FS, kind+"/*.toml")
		if n := map[string]int{
			"maneuvers": len(l.Cards()),
			"aircraft":  len(l.Aircraft()),
		}[kind]; err != nil || n != len(files) || n < len(names) {
			t.Errorf("%d %s of %d files, %v", n, kind, len(files), err)
		}
	}
}

// Every number on a card says where it comes from.
func TestShippedSources(t *testing.T) {
	l := shippedLibrary(t)
	for _, c := range l.Cards() {
		sources := map[string]string{
			"card":           c.Source,
			"commit":         c.Commit.Source,
			"set-up":         c.Setup.Source,
			"series":         c.Series.Source,
			"hard-deck":      c.Deck.Source,
			"reference-path": c.Reference.Source,
			"corridor":       c.Corridor.Source,
		}
		if c.ExitFrom() != c.Turn-ExitMargin || len(c.Meant.Turns) > 0 {
			sources["meant"] = c.Meant.Source
		}
		for _, k := range c.Checks {
			sources[k.ID] = k.Source
		}
		for what, s := range sources {
			if len(strings.TrimSpace(s)) < 8 {
				t.Errorf("%s: source of %s is %q", c.Name, what, s)
			}
		}
	}
	for _, a := range l.Aircraft() {
		if len(a.Source) < 8 || a.Stall == 0 || a.Entry == 0 || a.Apex == 0 {
			t.Errorf("%s lacks a source or a speed: %+v", a.Name, a)
		}
	}
}

// What is heard: five words at most, with nothing in them that a voice reads wrongly.
func TestShippedPhrases(t *testing.T) {
	for _, c := range shippedLibrary(t).Cards() {
		var said []string
		for _, q := range c.AllCues {
			said = append(said, q.Say)
		}
		for _, w := range c.Watches {
			said = append(said, w.High, w.Low)
		}
		for _, k := range c.Checks {
			said = append(said, k.High, k.Low)
		}
		for _, s := range said {
			clean := !strings.ContainsAny(s, "°0123456789:;/()\n") && s == strings.TrimSpace(s)
			if len(strings.Fields(s)) > 5 || !clean {
				t.Errorf("%s: %q cannot be said", c.Name, s)
			}
		}
	}
}

// Every check can be graded and spoken: its kind exists, the aim lies in met and met in near,
// and a value on either side that can be missed has a correction.
func TestShippedChecks(t *testing.T) {
	for _, c := range shippedLibrary(t).Cards() {
		weight := 0.0
		for _, k := range c.Checks {
			kind := kinds.Of(&k)
			if kind.Name == "" {
				t.Errorf("%s: %s is of kind %q", c.Name, k.ID, k.Kind)
			}
			if k.Aim != nil && !k.MetBand.Contains(*k.Aim) || !k.MetBand.Inside(k.NearBand) {
				t.Errorf("%s: %s: aim %v, met %v, near %v", c.Name, k.ID, k.Aim, k.MetBand, k.NearBand)
			}
			if kind.OfSeries() && c.Series.Legs < 2 {
				t.Errorf("%s: %s judges a series of one leg", c.Name, k.ID)
			}
			weight += k.Weight
			// A side that can be missed; below zero nothing can be that is never negative.
			positive := k.MetBand.Low != nil && *k.MetBand.Low == 0
			if k.MetBand.High != nil && k.High == "" || k.MetBand.Low != nil && !positive && k.Low == "" {
				t.Errorf("%s: %s can be missed without a word", c.Name, k.ID)
			}
		}
		if weight == 0 {
			t.Errorf("%s: no check has a weight", c.Name)
		}
		for i := 1; i < len(c.AllCues); i++ {
			if c.AllCues[i].Turn < c.AllCues[i-1].Turn {
				t.Errorf("%s: cues out of order: %v", c.Name, c.AllCues)
			}
		}
		n := len(c.Cues) + len(c.Checkpoints)
		if c.Several() { // one exit for each turn that may be meant
			n += len(c.Meant.Turns) - 1
		}
		if len(c.AllCues) != n {
			t.Errorf("%s: %d of %d cues", c.Name, len(c.AllCues), n)
		}
	}
}

// The published numbers that the cards carry.
func TestShippedNumbers(t *testing.T) {
	l := shippedLibrary(t)
	named := func(card, id string) *check.Spec {
		c, err := l.Card(card)
		if err != nil {
			t.Fatal(err)
		}
		for i := range c.Checks {
			if c.Checks[i].ID == id {
				return &c.Checks[i]
			}
		}
		t.Fatalf("%s has no check %s", card, id)
		return nil
	}
	within := func(k *check.Spec, aim, most float64) {
		t.Helper()
		if k.Aim == nil || *k.Aim != aim || *k.MetBand.High > aim+most || *k.MetBand.Low < aim-most {
			t.Errorf("%s: aim %v, met %v; published: %g within %g", k.ID, k.Aim, k.MetBand, aim, most)
		}
	}
	// FAA-S-ACS-7, area V task C: 180° within 10°, bank about 30°, at or above 1,500 ft.
	within(named("chandelle-civil", "exit-heading"), 180, 10)
	within(named("chandelle-civil", "bank-held"), 30, 5)
	// CNATRAINST 1542.155A p. VIII-2, basic air work: 10° and 10 kt.
	within(named("wing-over", "exit-heading"), 180, 10)
	within(named("wing-over", "exit-speed"), 0, 10)
	// CNATRA P-1212 p. 33: highest pitch and about 45° of bank at about 45° of turn; two legs in
	// opposite directions.
	if k := named("wing-over", "highest-nose-at"); *k.Aim != 45 {
		t.Errorf("nose highest at %g°, published 45°", *k.Aim)
	}
	if k := named("wing-over", "bank-at-45"); *k.Aim != 45 {
		t.Errorf("bank at 45° is %g°, published 45°", *k.Aim)
	}
	wing, _ := l.Card("wing-over")
	if wing.Turn != 180 || wing.Series.Legs != 2 || !wing.Series.Opposite {
		t.Errorf("wing-over: turn %g, series %+v", wing.Turn, wing.Series)
	}
	// 14 CFR 91.303(e) and FAA-S-ACS-7: never below 1,500 ft above the surface.
	for _, c := range l.Cards() {
		if c.Name != "steep-turn" && c.Name != "clearing-turns" && c.Ground.About != Pylon && c.Deck.Height < 1500 {
			t.Errorf("%s: hard deck at %g ft", c.Name, c.Deck.Height)
		}
	}
	// Common practice, no source: the radial-engine trainer enters at 130 kt and 1950 rpm, apex 70 kt.
	a, err := l.AircraftNamed("radial-trainer")
	if err != nil || a.Entry != 130 || a.Apex != 70 || a.Power != "1950 rpm" {
		t.Errorf("radial-trainer: %+v, %v", a, err)
	}
}
