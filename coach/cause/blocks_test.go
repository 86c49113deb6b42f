package cause_test

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/configs"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/airplane"
)

// blocks are the building blocks, and what each flaw of the built-in pilot should be found as there; common practice,
// no source: the flaw is the cause.
var blocks = map[string]map[string]string{
	"wing-over-to-45": {
		"shallow": "underbanked", "nose-high": "nose-too-high", "feet-off": "slip-or-skid",
	},
	"wing-over-to-90": {
		"overbanked": "overbanked", "shallow": "underbanked", "nose-high": "nose-too-high", "feet-off": "slip-or-skid",
		"power-changed": "power-added",
	},
	"level-roll": {
		"overbanked": "overbanked", "shallow": "underbanked", "early-rollout": "rolled-out-early",
		"late-rollout": "rolled-out-late", "feet-off": "slip-or-skid", "sinks": "height-lost",
	},
	"roll-out-from-90": {
		"overbanked": "bank-grows", "shallow": "underbanked", "early-rollout": "rolled-out-early",
		"late-rollout": "rolled-out-late", "late-start": "roll-out-begun-late", "sinks": "height-lost",
	},
}

// Every building block is flown well in every airplane to both sides, within standard, and a flaw is named first or
// second.
func TestBlocks(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	for _, card := range lib.Cards() {
		if card.Block == "" {
			continue
		}
		flaws, ok := blocks[card.Name]
		if !ok {
			t.Errorf("%s is not in the table", card.Name)
		}
		if _, err := lib.Card(card.Block); err != nil {
			t.Errorf("%s is a block of %q: %v", card.Name, card.Block, err)
		}
		for _, plane := range airplane.Names() {
			for seed := range uint64(5) {
				list := fly(t, lib, trainer.Flight{Maneuver: card.Name, Airplane: plane, Seed: seed})
				if len(list) != 1 || len(list[0].Legs) != 2 || list[0].Verdict != coach.Met {
					t.Errorf("%s in %s, seed %d: %s", card.Name, plane, seed, off(list))
				}
			}
		}
		for flaw, want := range flaws {
			list := fly(t, lib, trainer.Flight{Maneuver: card.Name, Airplane: airplane.Names()[0], Flaw: flaw,
				Strength:  "clear",
				Direction: "right", Seed: 3})
			if len(list) != 1 || len(list[0].Legs) != 1 {
				t.Errorf("%s %s: %s", card.Name, flaw, off(list))
				continue
			}
			var named []string
			for _, c := range list[0].Legs[0].Causes {
				named = append(named, c.ID)
			}
			if at := slices.Index(named, want); at < 0 || at > 1 || list[0].Legs[0].Verdict == coach.Met {
				t.Errorf("%s %s: causes %v; must begin with %s; %s", card.Name, flaw, named, want, off(list))
			}
		}
	}
}

// What was chosen says whether a turn that stops early is a block or a whole that was given up: a block that is flown
// with the whole chosen is given up, and auto never finds a block. A whole that is flown with the block chosen is
// named.
func TestBlockOrGivenUp(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	for _, card := range lib.Distinct() {
		if card.Block != "" {
			t.Errorf("auto finds the block %s", card.Name)
		}
	}
	const plane = "light-single"
	block := trainer.Flight{Maneuver: "wing-over-to-45", Airplane: plane, Direction: "right", Seed: 1}
	whole := trainer.Flight{Maneuver: "wing-over", Airplane: plane, Direction: "right", Seed: 1}
	fly(t, lib, block)
	fly(t, lib, whole)
	list := flyBy(t, plans[[2]string{"wing-over", plane}], block)
	if len(list) != 1 || list[0].Legs[0].Outcome != coach.BrokenOff || list[0].Legs[0].Verdict != coach.Missed {
		t.Errorf("a block with the whole chosen: %s", off(list))
	}
	list = flyWith(t, judge.Options{Plan: plans[[2]string{"wing-over-to-45", plane}], Others: lib.Distinct()}, whole)
	if len(list) != 1 || list[0].Legs[0].Another == nil || list[0].Legs[0].Another.Maneuver != "wing-over" {
		t.Errorf("a whole with the block chosen: %s", off(list))
	}
}

// off writes what is not met in series.
func off(list []coach.Series) string {
	var all []string
	for i := range list {
		all = append(all, list[i].Maneuver+" "+list[i].Verdict)
		for k := range list[i].Legs {
			l := &list[i].Legs[k]
			all = append(all, l.Direction+" "+l.Outcome+" "+l.Reason.String()+" "+l.Headline.String())
			for n := range l.Checks {
				if c := &l.Checks[n]; c.Verdict != coach.Met && c.Weight > 0 && c.Value != nil {
					all = append(all, c.ID+" "+c.Verdict+" "+strconv.FormatFloat(*c.Value, 'f', 2, 64))
				}
			}
		}
	}
	return strings.Join(all, "; ")
}
