package web

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/maneuver"
	"halfturn/coach/talk"
	"halfturn/configs"
	"halfturn/configs/guide"
	"halfturn/stream"
	"halfturn/stream/wire"
)

// texts are the texts that stand in shipped files and tables and are shown as they are, by what they are. The pages
// look each up whole, by its English; their tests hold the translation against this list.
type texts map[string]map[string]bool

func (x texts) add(of string, all ...string) {
	if x[of] == nil {
		x[of] = map[string]bool{}
	}
	for _, text := range all {
		if text != "" {
			x[of][text] = true
		}
	}
}

// TestTexts holds the shipped texts against testdata/texts.json; go test -update writes it.
func TestTexts(t *testing.T) {
	x := texts{}
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	for _, card := range lib.Cards() {
		x.card(card)
	}
	for _, s := range lib.Standards() {
		x.add("standards", s.Name, s.Title, s.Summary)
	}
	for _, a := range lib.Aircraft() {
		x.add("aircraft", a.Title, a.Power)
		for _, s := range a.Speeds {
			x.add("aircraft", s.Power)
		}
	}
	x.add("maneuvers", coach.AutoTitle)
	x.add("said", talk.Words()...)
	x.add("cautions", coach.Cautions[:]...)
	x.stream()
	x.guides(t)
	out := map[string][]string{}
	for of, set := range x {
		out[of] = slices.Sorted(maps.Keys(set))
	}
	golden(t, "testdata/texts.json", indent(t, out)+"\n",
		"the shipped texts have changed; run go test -update, then the pages' tests, which ask for the German")
}

// card adds the texts of a maneuver card.
func (x texts) card(card *maneuver.Card) {
	x.add("maneuvers", card.Title, card.Summary)
	x.add("errors", card.Errors...)
	for _, p := range card.Phases {
		x.add("phases", p.Name)
	}
	for i := range card.Checkpoints {
		x.add("checkpoints", card.Checkpoints[i].Words)
	}
	for _, q := range card.AllCues {
		x.add("said", q.Say)
	}
	for i := range card.Checks {
		x.add("checks", card.Checks[i].Label)
		x.add("said", card.Checks[i].High, card.Checks[i].Low)
	}
	for i := range card.Watches {
		x.add("said", card.Watches[i].High, card.Watches[i].Low)
	}
}

// stream adds how channels, what is worked out from them, and formats are named.
func (x texts) stream() {
	for c := range stream.NumChannels {
		x.add("channels", c.Info().Title)
	}
	for _, name := range check.QuantityNames() {
		q, _ := check.QuantityNamed(name)
		x.add("channels", name, q.Lacking)
	}
	for _, f := range wire.Formats() {
		x.add("formats", f.Names...)
	}
}

// guides adds how simulators are set up.
func (x texts) guides(t *testing.T) {
	t.Helper()
	guides, err := guide.All()
	if err != nil {
		t.Fatal(err)
	}
	for i := range guides {
		g := &guides[i]
		x.add("guides", append([]string{g.Title, g.Port, g.Quality, g.Notes}, g.Steps...)...)
	}
}

// A text is looked up whole, so that a place in one must be written as package phrase writes it.
func TestTextsHaveFewPlaces(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	x := texts{}
	for _, card := range lib.Cards() {
		x.card(card)
	}
	x.add("said", talk.Words()...)
	for of, set := range x {
		for text := range set {
			left := strings.NewReplacer("{bank}", "", "{speed}", "", "{heading}", "").Replace(text)
			if strings.ContainsAny(left, "{}#%") || of != "said" && left != text {
				t.Errorf("%s: %q has a place that nothing fills", of, text)
			}
		}
	}
}
