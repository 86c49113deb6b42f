package maneuver_test

import (
	"math"
	"slices"
	"strings"
	"sync"
	"testing"

	"halfturn/coach"
	"halfturn/coach/aircraft"
	"halfturn/coach/check"
	"halfturn/coach/maneuver"
	"halfturn/coach/score"
	"halfturn/configs"
	"halfturn/stream/phrase"
)

// An edge is a number that a document publishes for a check: on it the check is met, past it it is missed.
type edge struct {
	check     string
	low, high float64 // NaN where there is none
}

var open = math.NaN()

// published is what the documents say, element by element, in their own numbers: FAA-S-ACS-6 and -7, area V, by two
// public copies that agree on every number; CNATRA P-330 par. 1005. An element without edges has no published
// number; one without checks either is in no stream, or is no check.
var published = []struct {
	card, document, task, element string
	edges                         []edge
	checks                        []string // without a published number
}{
	{"steep-turn", "FAA-S-ACS-7", "CA.V.A", "S1", nil, []string{"area-cleared"}},
	{"steep-turn", "FAA-S-ACS-7", "CA.V.A", "S2", nil, []string{"entry-speed"}},
	{"steep-turn", "FAA-S-ACS-7", "CA.V.A", "S3", nil, []string{"coordination"}},
	{"steep-turn", "FAA-S-ACS-7", "CA.V.A", "S4", []edge{{"legs", 2, open}, {"opposite-directions", 0, 0}}, nil},
	{"steep-turn", "FAA-S-ACS-7", "CA.V.A", "S5 altitude",
		[]edge{{"height-held", -100, 100}, {"exit-height", -100, 100}}, nil},
	{"steep-turn", "FAA-S-ACS-7", "CA.V.A", "S5 airspeed", []edge{{"speed-held", -10, 10}}, nil},
	{"steep-turn", "FAA-S-ACS-7", "CA.V.A", "S5 bank", []edge{{"bank-held", 45, 55}}, nil},
	{"steep-turn", "FAA-S-ACS-7", "CA.V.A", "S5 roll-out", []edge{{"exit-heading", 350, 370}}, nil},
	{"steep-turn", "FAA-S-ACS-7", "CA.V.A", "R3", nil, []string{"stall-margin"}},
	{"steep-turn", "FAA-S-ACS-7", "CA.V.A", "R5", nil, []string{"coordination"}},
	{"steep-turn", "FAA-S-ACS-7", "CA.V.A", "R1, R2, R4", nil, nil},

	{"steep-turn-45", "FAA-S-ACS-6", "PA.V.A", "S1", nil, []string{"area-cleared"}},
	{"steep-turn-45", "FAA-S-ACS-6", "PA.V.A", "S2", nil, []string{"entry-speed"}},
	{"steep-turn-45", "FAA-S-ACS-6", "PA.V.A", "S3", nil, []string{"coordination"}},
	{"steep-turn-45", "FAA-S-ACS-6", "PA.V.A", "S4", []edge{{"legs", 2, open}, {"opposite-directions", 0, 0}}, nil},
	{"steep-turn-45", "FAA-S-ACS-6", "PA.V.A", "S5 altitude",
		[]edge{{"height-held", -100, 100}, {"exit-height", -100, 100}}, nil},
	{"steep-turn-45", "FAA-S-ACS-6", "PA.V.A", "S5 airspeed", []edge{{"speed-held", -10, 10}}, nil},
	{"steep-turn-45", "FAA-S-ACS-6", "PA.V.A", "S5 bank", []edge{{"bank-held", 40, 50}}, nil},
	{"steep-turn-45", "FAA-S-ACS-6", "PA.V.A", "S5 roll-out", []edge{{"exit-heading", 350, 370}}, nil},
	{"steep-turn-45", "FAA-S-ACS-6", "PA.V.A", "R3", nil, []string{"stall-margin"}},
	{"steep-turn-45", "FAA-S-ACS-6", "PA.V.A", "R5", nil, []string{"coordination"}},
	{"steep-turn-45", "FAA-S-ACS-6", "PA.V.A", "R1, R2, R4", nil, nil},

	{"chandelle-civil", "FAA-S-ACS-7", "CA.V.C", "S1", nil, []string{"area-cleared"}},
	{"chandelle-civil", "FAA-S-ACS-7", "CA.V.C", "S2", nil, nil},
	{"chandelle-civil", "FAA-S-ACS-7", "CA.V.C", "S3", nil, []string{"entry-speed"}},
	{"chandelle-civil", "FAA-S-ACS-7", "CA.V.C", "S4", nil, []string{"bank-held", "bank-at-90"}},
	{"chandelle-civil", "FAA-S-ACS-7", "CA.V.C", "S5", nil,
		[]string{"bank-held", "speed-falling", "coordination", "ball-centered"}},
	{"chandelle-civil", "FAA-S-ACS-7", "CA.V.C", "S6", nil,
		[]string{"roll-out-start", "roll-out-rate", "nose-not-rising", "nose-not-sinking", "power-constant"}},
	{"chandelle-civil", "FAA-S-ACS-7", "CA.V.C", "S7 heading", []edge{{"exit-heading", 170, 190}}, nil},
	{"chandelle-civil", "FAA-S-ACS-7", "CA.V.C", "S7 airspeed", nil, []string{"exit-speed", "speed-kept", "no-stall"}},
	{"chandelle-civil", "FAA-S-ACS-7", "CA.V.C", "S8", nil, []string{"recovery-height"}},
	{"chandelle-civil", "FAA-S-ACS-7", "CA.V.C", "R3", nil, []string{"no-stall"}},
	{"chandelle-civil", "FAA-S-ACS-7", "CA.V.C", "R5", nil, []string{"coordination", "ball-centered"}},
	{"chandelle-civil", "FAA-S-ACS-7", "CA.V.C", "R6", nil, []string{"exit-speed", "speed-falling"}},
	{"chandelle-civil", "FAA-S-ACS-7", "CA.V.C", "R7", nil, nil},
	{"chandelle-civil", "FAA-S-ACS-7", "CA.V.C", "R1, R2, R4", nil, nil},

	{"lazy-eight", "FAA-S-ACS-7", "CA.V.D", "S1", nil, []string{"area-cleared"}},
	{"lazy-eight", "FAA-S-ACS-7", "CA.V.D", "S2", nil, nil},
	{"lazy-eight", "FAA-S-ACS-7", "CA.V.D", "S3", nil, []string{"entry-speed"}},
	{"lazy-eight", "FAA-S-ACS-7", "CA.V.D", "S4", nil, []string{"coordination", "ball-centered"}},
	{"lazy-eight", "FAA-S-ACS-7", "CA.V.D", "S5a", nil, []string{"steepest-bank"}},
	{"lazy-eight", "FAA-S-ACS-7", "CA.V.D", "S5b", nil,
		[]string{"nose-never-still", "bank-never-still", "speed-never-still"}},
	{"lazy-eight", "FAA-S-ACS-7", "CA.V.D", "S5c", []edge{{"exit-height", -100, 100}, {"pair-height", -100, 100}}, nil},
	{"lazy-eight", "FAA-S-ACS-7", "CA.V.D", "S5d", []edge{{"exit-speed", -10, 10}, {"pair-speed", -10, 10}}, nil},
	{"lazy-eight", "FAA-S-ACS-7", "CA.V.D", "S5e", []edge{{"exit-heading", 170, 190}, {"pair-heading", -10, 10}}, nil},
	{"lazy-eight", "FAA-S-ACS-7", "CA.V.D", "S6", []edge{{"legs", 2, open}, {"opposite-directions", 0, 0}},
		[]string{"up-and-down", "even-bank", "even-nose", "even-dive"}},
	{"lazy-eight", "FAA-S-ACS-7", "CA.V.D", "R3, R7", nil, []string{"stall-margin"}},
	{"lazy-eight", "FAA-S-ACS-7", "CA.V.D", "R5", nil, []string{"coordination", "ball-centered"}},
	{"lazy-eight", "FAA-S-ACS-7", "CA.V.D", "R6", []edge{{"exit-height", -100, 100}, {"exit-speed", -10, 10}}, nil},
	{"lazy-eight", "FAA-S-ACS-7", "CA.V.D", "R1, R2, R4", nil, nil},

	{"clearing-turns", "CNATRA P-330", "par. 1005", "bank", []edge{{"steepest-bank", 45, open}}, nil},
	{"clearing-turns", "CNATRA P-330", "par. 1005", "heading",
		// CNATRAINST 1542.155A p. VIII-2 allows 10° of heading where nothing else is said.
		[]edge{{"exit-heading", 80, open}, {"legs", 2, open}, {"opposite-directions", 0, 0}}, nil},
	{"clearing-turns", "CNATRA P-330", "par. 1005", "toward", nil, nil},
	{"clearing-turns", "CNATRA P-330", "par. 1005", "look", nil, nil},
	{"clearing-turns", "CNATRA P-330", "par. 1005", "errors", []edge{{"height-held", -100, 100}}, nil},

	{"steep-spiral", "FAA-S-ACS-7", "CA.V.B", "S1", nil, []string{"area-cleared"}},
	{"steep-spiral", "FAA-S-ACS-7", "CA.V.B", "S2", []edge{{"turns-flown", 1050, open}}, nil}, // 1,080 less the heading
	{"steep-spiral", "FAA-S-ACS-7", "CA.V.B", "S3", []edge{{"steepest-bank", open, 60}}, []string{"radius-held"}},
	{"steep-spiral", "FAA-S-ACS-7", "CA.V.B", "S4", []edge{{"steepest-bank", open, 60}}, []string{"radius-held"}},
	{"steep-spiral", "FAA-S-ACS-7", "CA.V.B", "S5", nil, []string{"coordination"}},
	{"steep-spiral", "FAA-S-ACS-7", "CA.V.B", "S6 airspeed",
		[]edge{{"fastest", open, 10}, {"slowest", -10, open}}, nil},
	{"steep-spiral", "FAA-S-ACS-7", "CA.V.B", "S6 roll-out", []edge{{"exit-heading", 80, 100}}, nil}, // meant: 90°
	{"steep-spiral", "FAA-S-ACS-7", "CA.V.B", "S6 floor", nil, nil},
	{"steep-spiral", "FAA-S-ACS-7", "CA.V.B", "R3", nil, []string{"stall-margin"}},
	{"steep-spiral", "FAA-S-ACS-7", "CA.V.B", "R5", nil, []string{"coordination"}},
	{"steep-spiral", "FAA-S-ACS-7", "CA.V.B", "R6", nil, []string{"radius-held"}},
	{"steep-spiral", "FAA-S-ACS-7", "CA.V.B", "R7", nil, []string{"fastest"}},
	{"steep-spiral", "FAA-S-ACS-7", "CA.V.B", "R1, R2, R4", nil, nil},

	{"eights-on-pylons", "FAA-S-ACS-7", "CA.V.E", "S1", nil, []string{"area-cleared"}},
	{"eights-on-pylons", "FAA-S-ACS-7", "CA.V.E", "S2", nil, []string{"off-pivotal"}},
	{"eights-on-pylons", "FAA-S-ACS-7", "CA.V.E", "S3", nil, []string{"entry-level"}},
	{"eights-on-pylons", "FAA-S-ACS-7", "CA.V.E", "S4", nil,
		[]string{"into-wind", "roll-in-timed", "off-pivotal", "first-bank"}},
	{"eights-on-pylons", "FAA-S-ACS-7", "CA.V.E", "S5",
		[]edge{{"steepest-bank", open, 40}, {"first-bank", open, 40}}, nil},
	{"eights-on-pylons", "FAA-S-ACS-7", "CA.V.E", "S6", nil,
		[]string{"pylon-held", "smooth-roll", "smooth-pitch"}},
	{"eights-on-pylons", "FAA-S-ACS-7", "CA.V.E", "S7", nil, []string{"coordination"}},
	{"eights-on-pylons", "FAA-S-ACS-7", "CA.V.E", "S8", nil, []string{"pylon-held", "off-pivotal", "coordination"}},
	{"eights-on-pylons", "FAA-S-ACS-7", "CA.V.E", "pylons",
		[]edge{{"legs", 2, open}, {"opposite-directions", 0, 0}}, []string{"even-bank", "even-distance"}},
	{"eights-on-pylons", "FAA-S-ACS-7", "CA.V.E", "R3", nil, []string{"stall-margin"}},
	{"eights-on-pylons", "FAA-S-ACS-7", "CA.V.E", "R5", nil, []string{"coordination"}},
	{"eights-on-pylons", "FAA-S-ACS-7", "CA.V.E", "R6", nil, []string{"off-pivotal"}},
	{"eights-on-pylons", "FAA-S-ACS-7", "CA.V.E", "R7", nil, nil},
	{"eights-on-pylons", "FAA-S-ACS-7", "CA.V.E", "R1, R2, R4", nil, nil},

	// Judged as the turn at 30° of bank through 90°. CNATRAINST 1542.155A p. VIII-2 has the tolerances.
	{"turn-pattern", "CNATRA P-330", "par. 611", "entry", nil, []string{"entry-level", "entry-height-held"}},
	{"turn-pattern", "CNATRA P-330", "par. 611", "banks", []edge{{"legs", 6, open}}, []string{"mean-bank"}},
	{"turn-pattern", "CNATRA P-330", "par. 611", "sides", []edge{{"opposite-directions", 0, 0}}, nil},
	{"turn-pattern", "CNATRA P-330", "par. 611", "turns", []edge{{"exit-heading", 80, 100}}, nil},
	{"turn-pattern", "CNATRA P-330", "par. 611", "height",
		[]edge{{"height-held", -100, 100}, {"exit-height", -100, 100}}, nil},
	{"turn-pattern", "CNATRA P-330", "par. 611", "airspeed", []edge{{"speed-held", -10, 10}}, nil},
	{"turn-pattern", "CNATRA P-330", "par. 611", "errors",
		[]edge{{"speed-held", -10, 10}, {"height-held", -100, 100}}, []string{"mean-bank", "coordination"}},
}

var shippedCards = sync.OnceValues(func() (*maneuver.Library, error) { return maneuver.LoadLibrary(configs.FS) })

// judged returns a card as the check standard judges it.
func judged(t *testing.T, card string) *maneuver.Card {
	t.Helper()
	lib, err := shippedCards()
	if err != nil {
		t.Fatal(err)
	}
	c, err := lib.Judged(card, "check")
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func specOf(t *testing.T, card *maneuver.Card, id string) *check.Spec {
	t.Helper()
	i := slices.IndexFunc(card.Checks, func(k check.Spec) bool { return k.ID == id })
	if i < 0 {
		t.Fatalf("%s has no check %s", card.Name, id)
	}
	return &card.Checks[i]
}

func verdict(spec *check.Spec, x float64) string {
	facts := &check.Facts{Nose: math.NaN(), Dive: math.NaN(), Meant: check.Meant{Bank: 30, Turn: 90}}
	return score.Check(spec, check.Found(x, math.NaN()), facts).Verdict
}

// Every published element has its checks, which are met up to the published edge and missed past it.
func TestPublishedEdges(t *testing.T) {
	for _, row := range published {
		card := judged(t, row.card)
		what := row.document + " " + row.task + "." + row.element
		if card.Task == nil || card.Task.Document != row.document || card.Task.Name != row.task {
			t.Fatalf("%s: the card %s is judged by %+v", what, row.card, card.Task)
		}
		i := slices.IndexFunc(card.Task.Elements, func(e maneuver.Element) bool { return e.ID == row.element })
		if i < 0 {
			t.Errorf("%s is not in the standard", what)
			continue
		}
		e := &card.Task.Elements[i]
		for _, x := range row.edges {
			if !e.Has(x.check) {
				t.Errorf("%s is not judged by %s", what, x.check)
			}
			spec := specOf(t, card, x.check)
			const step = 1 // more than is rounded in favor of the pilot
			for _, side := range []float64{-1, 1} {
				at := x.low
				if side > 0 {
					at = x.high
				}
				if math.IsNaN(at) {
					continue
				}
				if v := verdict(spec, at); v != coach.Met {
					t.Errorf("%s: %s of %g reads %s; on the published edge it must be met", what, x.check, at, v)
				}
				if v := verdict(spec, at-side*step); v != coach.Met && x.low != x.high {
					t.Errorf("%s: %s of %g reads %s; must be met", what, x.check, at-side*step, v)
				}
				if v := verdict(spec, at+side*step); v != coach.Missed {
					t.Errorf("%s: %s of %g reads %s; past the published edge it must be missed",
						what, x.check, at+side*step, v)
				}
			}
		}
		for _, id := range row.checks {
			if spec := specOf(t, card, id); !e.Has(id) || spec.Weight == 0 {
				t.Errorf("%s is judged by %s: %v, which has the weight %g", what, id, e.Has(id), spec.Weight)
			}
		}
		if len(row.edges)+len(row.checks) == 0 && (len(e.Checks) > 0 || e.Reason == "") {
			t.Errorf("%s has the checks %v and the reason %q; must have none, and a reason", what, e.Checks, e.Reason)
		}
	}
}

// The table above and the standard have the same elements, and each check that an element names exists and counts.
func TestPublishedIsComplete(t *testing.T) {
	lib, err := shippedCards()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range lib.Cards() {
		card := judged(t, c.Name)
		if card.Task == nil {
			t.Errorf("the check standard does not say whether a test of %s is published", c.Name)
			continue
		}
		for _, e := range card.Task.Elements {
			listed := false
			for _, row := range published {
				listed = listed || row.card == c.Name && row.element == e.ID
			}
			if !listed {
				t.Errorf("%s.%s is not in the table", card.Task.Name, e.ID)
			}
			for _, id := range e.Checks {
				if specOf(t, card, id).Weight == 0 {
					t.Errorf("%s.%s is judged by %s, which counts for nothing", card.Task.Name, e.ID, id)
				}
			}
		}
	}
}

// What the check standard has no published number for says so, check by check: that it is not counted, or that it is
// as on the card, where something can be nearly met. Nothing else can.
func TestNearlyMet(t *testing.T) {
	lib, err := shippedCards()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range lib.Cards() {
		card := judged(t, c.Name)
		for i := range card.Checks {
			k := &card.Checks[i]
			counted := len(card.Task.Of(k.ID)) > 0 || !card.Task.Published()
			exact := k.MetBand.Inside(k.NearBand) && k.NearBand.Inside(k.MetBand)
			said := strings.Contains(k.Source, "nearly met") || strings.Contains(k.Source, "never missed") ||
				strings.Contains(k.Source, "not missed for less")
			switch {
			case !counted && (k.Weight != 0 || !strings.Contains(k.Source, "shown, not counted")):
				t.Errorf("%s: %s is no element, has the weight %g and the source %q", c.Name, k.ID, k.Weight, k.Source)
			case counted && !exact && !said:
				t.Errorf("%s: %s can be nearly met, and its source does not say so: %q", c.Name, k.ID, k.Source)
			}
		}
	}
	for _, name := range []string{"wing-over", "chandelle-traditional"} {
		if card := judged(t, name); card.Task.Published() {
			t.Errorf("a published test of %s: %+v", name, card.Task)
		}
	}
}

// A steep turn that peaks at 59.6° is missed, and so is half of what is asked for: one direction of two
// (FAA-S-ACS-7 CA.V.A.S4 and CA.V.D.S6). Cut short by something other than the pilot it is not judged.
func TestBothDirections(t *testing.T) {
	if v := verdict(specOf(t, judged(t, "steep-turn"), "bank-held"), 59.6); v != coach.Missed {
		t.Errorf("a steep turn that peaks at 59.6° reads %s", v)
	}
	for _, name := range []string{"steep-turn", "steep-turn-45", "lazy-eight", "clearing-turns"} {
		card := judged(t, name)
		leg := func(direction string) coach.Leg {
			return coach.Leg{
				Outcome:   coach.Finished,
				Direction: direction,
				Verdict:   coach.Met,
				Grade:     coach.Good,
				Score:     96,
				Entry:     coach.Point{Values: map[string]float64{}},
				Exit:      &coach.Point{Values: map[string]float64{}},
			}
		}
		for _, c := range []struct {
			name string
			legs []coach.Leg
			cut  bool
			want string
		}{
			{"both", []coach.Leg{leg("right"), leg("left")}, false, coach.Met},
			{"one", []coach.Leg{leg("right")}, false, coach.Missed},
			{"one, cut short", []coach.Leg{leg("right")}, true, coach.NotMeasured},
			{"the same twice", []coach.Leg{leg("right"), leg("right")}, false, coach.Missed},
		} {
			s := &coach.Series{Maneuver: name, Legs: c.legs}
			score.Series(card, s, c.cut, phrase.Phrase{})
			if s.Verdict != c.want {
				t.Errorf("%s: %s reads %s, not %s", name, c.name, s.Verdict, c.want)
			}
		}
	}
}

// FAA-H-8083-3A p. 9-7: at 90° of a lazy eight the speed is 5 to 10 kt above the stall. No standard may miss what it
// says, whatever apex speed the aircraft card gives.
func TestLazyEightSlowest(t *testing.T) {
	lib, err := shippedCards()
	if err != nil {
		t.Fatal(err)
	}
	plane := aircraft.Aircraft{Stall: 49, Entry: 105, Apex: 78}
	facts := &check.Facts{Aircraft: plane, Nose: math.NaN(), Dive: math.NaN()}
	for _, standard := range []string{"practice", "course", "check"} {
		card, err := lib.Judged("lazy-eight", standard)
		if err != nil {
			t.Fatal(err)
		}
		for over, want := range map[float64]string{5: coach.Met, 7: coach.Met, 10: coach.Met, 29: coach.Met,
			50: coach.Missed} {
			got := score.Check(specOf(t, card, "apex-speed"), check.Found(plane.Stall+over, 90), facts)
			if got.Verdict != want {
				t.Errorf("%s: slowest at %g kt over the stall reads %s, not %s", standard, over, got.Verdict, want)
			}
		}
		margin := specOf(t, card, "stall-margin")
		for over, want := range map[float64]string{10: coach.Met, 5: coach.Met, 1.5: coach.Missed} {
			if got := verdict(margin, over); got != want {
				t.Errorf("%s: a margin of %g kt over the stall reads %s, not %s", standard, over, got, want)
			}
		}
	}
}
