package cause_test

import (
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/aircraft"
	"halfturn/coach/cause"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/configs"
	"halfturn/stream/trainer"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// A commonError is one item of a published list of common errors: the cause that names it and the flight that shows
// it, or the reason why a stream of flight data cannot show it.
type commonError struct {
	item   string // as the list numbers it
	says   string // in our words
	cause  string // our id; "" where a stream does not show it
	flight trainer.Flight
	reason string // why there is no cause, or what of the item is not shown
}

// An errorList is a published list of common errors.
type errorList struct {
	title  string
	errors []commonError
}

// Reasons why a stream does not show an error.
const (
	noEyes   = "where a person looks is not in a stream"
	noTrim   = "trim is not in a stream"
	noGround = "a point chosen on the ground is not in a stream"
	// The stall itself is in a recording of package session.
	trainerStalls = "the trainer stays just off the stall; a recorded stall is named as stalled, too"
	sameCheck     = "flown as steep turns: the check is the same"
	noCard        = "no card has this maneuver"
	noMind        = "what a person thinks is not in a stream; its result shows as "
)

func steepTurn(flaw string) trainer.Flight {
	return trainer.Flight{Maneuver: "steep-turn", Direction: "right", Flaw: flaw}
}

// turnPattern is flown from its fifth turn on: 45° of bank through 180°.
func turnPattern(flaw string) trainer.Flight {
	return trainer.Flight{Maneuver: "turn-pattern", Flaw: flaw, FlawLeg: 5, Legs: 6}
}

func civilChandelle(flaw string) trainer.Flight {
	return trainer.Flight{Maneuver: "chandelle-civil", Direction: "right", Flaw: flaw}
}

func oldChandelle(flaw string) trainer.Flight {
	return trainer.Flight{Maneuver: "chandelle-traditional", Direction: "right", Flaw: flaw}
}

func lazyEight(flaw string) trainer.Flight {
	return trainer.Flight{Maneuver: "lazy-eight", Direction: "both", Flaw: flaw}
}

func wingOver(flaw string) trainer.Flight {
	return trainer.Flight{Maneuver: "wing-over", Direction: "both", Flaw: flaw}
}

// strongly is a flight with its flaw stronger, or weaker, than usual.
func strongly(f trainer.Flight, strength string) trainer.Flight {
	f.Strength = strength
	return f
}

// uncleared is a flight with enough legs that the three minutes before the last of them show no clearing turns.
var uncleared = trainer.Flight{Maneuver: "steep-turn", Direction: "right", Legs: 6}

// halfASeries is given up on the second leg, so that the series lacks one.
var halfASeries = trainer.Flight{Maneuver: "wing-over", Direction: "both", Flaw: "abandoned", FlawLeg: 2}

// errorLists are the published lists. Some items are known from memory of the source only, as marked.
var errorLists = []errorList{
	{"Steep turn: FAA-H-8083-3C p. 10-3", []commonError{
		{"1", "area not cleared", "not-cleared", uncleared, ""},
		{"2", "pitch wrong at roll-in or roll-out", "height-lost", steepTurn("sinks"), ""},
		{"3", "height gained or lost", "height-lost", steepTurn("sinks"), ""},
		{"4", "bank wanders", "bank-falls-off", steepTurn("bank-falls"), ""},
		{"5", "controls uncoordinated", "slip-or-skid", wingOver("feet-off"),
			"in a wing-over: the trainer's airplane slips only while it rolls and slows"},
		{"6", "trim does not help", "", trainer.Flight{}, noTrim},
		{"7", "power does not help", "exit-slow", steepTurn("power-short"), ""},
		{"8", "speed not held", "exit-fast", strongly(steepTurn("power-changed"), "1.5"), ""},
		{"9", "orientation lost", "", trainer.Flight{}, noMind + "item 13"},
		{"10", "flown on instruments", "", trainer.Flight{}, noEyes},
		{"11", "no traffic scan", "", trainer.Flight{}, noEyes},
		{"12", "roll-out begun too soon", "rolled-out-early", steepTurn("early-rollout"), ""},
		{"13", "exit heading missed", "rolled-out-late", steepTurn("late-rollout"), ""},
	}},
	{"Chandelle: FAA-H-8083-3C p. 10-6", []commonError{
		{"1", "area not cleared", "not-cleared", uncleared, sameCheck},
		{"2", "first bank too flat", "underbanked", civilChandelle("shallow"), ""},
		{"3", "first bank too steep", "overbanked", civilChandelle("steep-start"), ""},
		{"4", "bank grows after it was set", "bank-grows", civilChandelle("overbanked"), ""},
		{"5", "roll-out not begun at 90°", "roll-out-begun-late", strongly(civilChandelle("late-start"), "clear"), ""},
		{"6", "nose raised in the roll-out", "nose-still-rising", civilChandelle("nose-rising"), ""},
		{"7", "wings level before 180°", "level-before-180", civilChandelle("early-rollout"), ""},
		{"8", "nose low, speed left at the end", "nose-dropped", civilChandelle("nose-sinks"), ""},
		{"9", "controls not smooth", "rough-controls", civilChandelle("rough"), ""},
		{"10", "uncoordinated", "slip-or-skid", civilChandelle("feet-off"), ""},
		{"11", "stalls", "nose-too-high", civilChandelle("nose-high"), trainerStalls},
		{"12", "a turn, no climb", "turn-not-climb", strongly(civilChandelle("no-climb"), "0.8"), ""},
		{"13", "no scan", "", trainer.Flight{}, noEyes},
		{"14", "eyes on instruments", "", trainer.Flight{}, noEyes},
	}},
	{"Chandelle: Civil Aeronautics Authority, Flight Instructor's Manual (1938-40) p. 177", []commonError{
		{"3", "too flat", "underbanked", oldChandelle("shallow"), ""},
		{"3", "pulled too fast, the speed gone", "nose-too-high", oldChandelle("nose-high"), ""},
		{"4", "bank and climb out of step", "bank-peak-late", strongly(oldChandelle("late-bank"), "clear"), ""},
		{"5", "most bank and climb not at 90°", "bank-peak-late", strongly(oldChandelle("late-bank"), "clear"), ""},
		{"6", "recovery before the maximum", "level-before-180", oldChandelle("early-rollout"), ""},
		{"7", "bank past the vertical", "overbanked", oldChandelle("overbanked"), ""},
		{"8", "recovery early, stops short", "level-before-180", oldChandelle("early-rollout"), ""},
		{"9", "speed left unused", "turn-not-climb", strongly(oldChandelle("no-climb"), "0.5"), ""},
		{"10", "stall with loss of height", "nose-too-high", oldChandelle("nose-high"), trainerStalls},
		{"11", "slip or skid", "slip-or-skid", oldChandelle("feet-off"), ""},
		{"12", "rough controls", "rough-controls", oldChandelle("rough"), ""},
	}},
	{"Lazy eight: FAA-H-8083-3C p. 10-8, from memory", []commonError{
		{"1", "area not cleared", "not-cleared", uncleared, sameCheck},
		{"2", "halves not symmetrical", "uneven-halves", lazyEight("flat-dive"), ""},
		{"3", "points poorly chosen or used", "nose-peak-late", lazyEight("late-nose"), noGround},
		{"4", "weak planning", "", trainer.Flight{}, noMind + "items 3 and 5"},
		{"5", "height off at 180°", "ends-low", lazyEight("height-lost"), ""},
		{"6", "nose drops through the horizon at the top", "nose-falls-through", lazyEight("nose-falls"), ""},
		{"7", "bank out of standard", "overbanked", lazyEight("overbanked"), ""},
		{"7", "speed out of standard", "power-added", lazyEight("power-changed"), ""},
		{"8", "rough controls", "rough-controls", strongly(lazyEight("rough"), "0.4"), ""},
		{"9", "uncoordinated", "slip-or-skid", lazyEight("feet-off"), ""},
		{"10", "stalls", "nose-too-high", lazyEight("nose-high"), trainerStalls},
		{"11", "a steep turn, no climb", "turn-not-climb", strongly(civilChandelle("no-climb"), "0.8"),
			"flown as a chandelle: a turn whose nose is not raised is no leg of a lazy eight"},
		{"12", "no scan", "", trainer.Flight{}, noEyes},
		{"13", "eyes on instruments", "", trainer.Flight{}, noEyes},
	}},
	{"Lazy eight: student notes of a jet trainer, not the publication, p. 7", []commonError{
		{"1", "pitch and bank out of step going up", "bank-peak-late", wingOver("late-bank"), ""},
		{"2", "out of step coming down: high and short of 180°", "rolled-out-early", wingOver("early-rollout"), ""},
	}},
	{"Wing-over: common practice, no source", []commonError{
		{"1", "dive too steep", "dive-too-steep", strongly(wingOver("steep-dive"), "clear"), ""},
		{"2", "entry while climbing", "entry-climbing", wingOver("climbing-entry"), ""},
		{"3", "height not regained", "height-lost", wingOver("height-lost"), ""},
		{"4", "two to the same side", "same-direction", wingOver("same-direction"), ""},
		{"5", "legs missing", "legs-missing", halfASeries, ""},
	}},
	{"Turn pattern: CNATRA P-330 par. 611", []commonError{
		{"1", "no power for speed", "exit-slow", steepTurn("power-short"), ""},
		{"2", "bank drift", "bank-falls-off", steepTurn("bank-falls"), ""},
		{"3", "height loss", "height-lost", turnPattern("sinks"), ""},
		{"4", "poor trim", "", trainer.Flight{}, noTrim},
		{"5", "no lookout", "", trainer.Flight{}, noEyes},
	}},
	{"Clearing: CNATRA P-330 par. 1005", []commonError{
		{"1", "height or speed wrong after it", "entry-climbing", wingOver("climbing-entry"), ""},
		{"2", "no look", "", trainer.Flight{}, noEyes},
	}},
}

// TestCommonErrors flies every item of the published lists that a stream can show: its cause is the first named or the
// second, on the leg or on the legs together. The table is also a golden file, to be read.
func TestCommonErrors(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	known := map[string]bool{}
	for _, m := range cause.Meanings() {
		known[m.ID] = true
	}
	var table strings.Builder
	table.WriteString("# Published common errors, and the causes that name them\n\n" +
		"Each flight is one of the built-in trainer's. Written by the test.\n")
	flown := map[trainer.Flight][]string{}
	for _, list := range slices.Concat(errorLists, groundErrors) {
		fmt.Fprintf(&table, "\n## %s\n\n", list.title)
		table.WriteString("| item | error | cause | flight | place | not shown |\n|---|---|---|---|---|---|\n")
		for _, e := range list.errors {
			if (e.cause == "") == (e.flight.Maneuver != "") || e.cause == "" && e.reason == "" {
				t.Fatalf("%s, item %s: must have a cause with its flight, or a reason", list.title, e.item)
			}
			place, flight := "–", "–"
			if e.cause != "" {
				if !known[e.cause] {
					t.Errorf("%s, item %s: there is no cause %q", list.title, e.item, e.cause)
				}
				if flown[e.flight] == nil {
					flown[e.flight] = causesOf(t, lib, e.flight)
				}
				n := slices.Index(flown[e.flight], e.cause) + 1
				if n != 1 && n != 2 {
					t.Errorf("%s, item %s (%s): %s is not the first or second of %v",
						list.title, e.item, e.says, e.cause, flown[e.flight])
				}
				flight = strings.Join(strings.Fields(e.flight.Maneuver+" "+e.flight.Flaw+" "+e.flight.Strength), " ")
				place = fmt.Sprint(n)
			}
			fmt.Fprintf(&table, "| %s | %s | %s | %s | %s | %s |\n", e.item, e.says, e.cause, flight, place, e.reason)
		}
	}
	const golden = "testdata/common_errors.md"
	if *update {
		if err := os.WriteFile(golden, []byte(table.String()), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), table.String()); d != "" {
		t.Errorf("%s (-file +now):\n%s", golden, d)
	}
}

// causesOf flies a flight and lists the causes of the leg with the flaw, or of the legs together for what only they
// show.
func causesOf(t *testing.T, lib *maneuver.Library, f trainer.Flight) (ids []string) {
	t.Helper()
	f.Airplane, f.Seed = "light-single", 5
	standard := ""
	if f.Flaw == "" {
		standard = "check" // the only one that judges whether the area was cleared
	}
	card, err := lib.Judged(f.Maneuver, standard)
	if err != nil {
		t.Fatal(err)
	}
	plane, err := lib.AircraftNamed(f.Airplane)
	if err != nil {
		t.Fatal(err)
	}
	flights := []trainer.Flight{f}
	if f.FlawLeg > 1 { // something else is flown until the series is over
		flights = append(flights, trainer.Flight{Maneuver: "steep-turn", Airplane: f.Airplane, Legs: 4})
	}
	list := flyBy(t, plan.New(card, plane), flights...)
	if len(list) == 0 || len(list[0].Legs) == 0 {
		t.Errorf("%s %s: no leg", f.Maneuver, f.Flaw)
		return []string{}
	}
	take := func(causes []coach.Cause) {
		for _, c := range causes {
			ids = append(ids, c.ID)
		}
	}
	series := &list[0]
	if f.Flaw == "" {
		series = &list[len(list)-1]
	}
	switch {
	case f.Flaw == "":
		take(series.Legs[len(series.Legs)-1].Causes)
	case f.Maneuver == "turn-pattern":
		take(series.Legs[f.FlawLeg-1].Causes)
	case f.Flaw == "same-direction" || f.FlawLeg > 1:
		take(series.Causes)
	default:
		take(series.Legs[0].Causes)
	}
	return ids
}

// TestRenamedCards: a cause follows what a card asks for, not its name. A copy of each shipped card under another name
// can show the same errors in the same words, and explains the flights of the trainer alike.
func TestRenamedCards(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	plane, err := lib.AircraftNamed("light-single")
	if err != nil {
		t.Fatal(err)
	}
	cards := lib.Cards()
	if len(cards) < 7 {
		t.Fatalf("%d cards; must be 7 at least", len(cards))
	}
	for _, card := range cards {
		copied := *card
		copied.Name, copied.Title, copied.Variant = "mine", "Mine", ""
		own := *plane
		own.Speeds = map[string]aircraft.Speeds{card.Name: plane.Speeds[card.Name], "mine": plane.Speeds[card.Name]}
		of, copyOf := plan.New(card, &own), plan.New(&copied, &own)
		want, got := cause.Expect(of), cause.Expect(copyOf)
		if len(want) < 5 {
			t.Errorf("%s: only %d causes", card.Name, len(want))
		}
		if d := cmp.Diff(spelled(want), spelled(got)); d != "" {
			t.Errorf("%s: other causes under another name (-own +other):\n%s", card.Name, d)
		}
		if !slices.Contains(trainer.Maneuvers(), card.Name) {
			continue
		}
		flaws := []string{"overbanked", "late-rollout"}
		if card.Ground.About == maneuver.Pylon {
			flaws = []string{"too-high", "pylon-close"}
		}
		for _, flaw := range flaws {
			f := trainer.Flight{Maneuver: card.Name, Direction: "right", Flaw: flaw, Airplane: "light-single", Seed: 4}
			list := flyBy(t, of, f)
			other := flyBy(t, copyOf, f)
			if len(list) == 0 || len(list) != len(other) {
				t.Fatalf("%s, %s: %d series, %d under another name", card.Name, flaw, len(list), len(other))
			}
			if d := cmp.Diff(told(&list[0]), told(&other[0])); d != "" {
				t.Errorf("%s, %s: told otherwise under another name (-own +other):\n%s", card.Name, flaw, d)
			}
		}
	}
}

// spelled puts errors to expect into text.
func spelled(list []cause.Expected) (text []string) {
	for _, e := range list {
		text = append(text, fmt.Sprintf("%s: %s %s %s %g", e.ID, e.Seen, e.Title, e.Advice, e.Weight))
	}
	return text
}

// told puts the causes of a series into text.
func told(s *coach.Series) (text []string) {
	for i := range s.Legs {
		for _, c := range s.Legs[i].Causes {
			text = append(text, fmt.Sprintf("%d %s %s %s", s.Legs[i].Number, c.ID, c.Evidence, c.Advice))
		}
		text = append(text, s.Legs[i].Change.String())
	}
	for _, c := range s.Causes {
		text = append(text, fmt.Sprintf("%s %s %s", c.ID, c.Evidence, c.Advice))
	}
	return append(text, s.Change.String())
}
