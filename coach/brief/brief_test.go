package brief

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/aircraft"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/configs"
	"halfturn/stream/phrase"
)

// briefOf writes the sheet of shipped cards, aircraft "" is none.
func briefOf(t *testing.T, card string, aircraft *aircraft.Aircraft) *Sheet {
	t.Helper()
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	c, err := lib.Judged(card, "check")
	if err != nil {
		t.Fatal(err)
	}
	return New(plan.New(c, aircraft))
}

// number is a number of the sheet by its id, NaN when it is not given.
func number(b *Sheet, id string) float64 {
	for _, n := range b.Numbers {
		if n.ID == id && n.Value != nil {
			return *n.Value
		}
	}
	return math.NaN()
}

// example is an invented airplane with an entry speed of 120 kt and a stall at 50 kt.
func example() *aircraft.Aircraft {
	return &aircraft.Aircraft{
		Name:    "example",
		Title:   "Example",
		Source:  "invented",
		Stall:   50,
		Entry:   120,
		Apex:    70,
		Glide:   70,
		Ratio:   9,
		Never:   160,
		LoadMax: 3.8,
		LoadMin: -1.5,
		BankMax: 90,
	}
}

// The sheets carry the published numbers of the maneuvers.
func TestBriefHasThePublishedNumbers(t *testing.T) {
	for _, c := range []struct {
		card, id       string
		want, width    float64
		source         string
		withNoAircraft bool
	}{
		{"chandelle-civil", "bank", 30, 0.5, "FAA-S-ACS-7B CA.V.C: bank about 30°", true},
		{"chandelle-civil", "deck", 1500, 0, "FAA-S-ACS-7B CA.V.C: at or above 1,500 ft AGL", true},
		{"lazy-eight", "bank", 30, 0.5, "FAA-S-ACS-7B CA.V.D: steepest bank about 30°", true},
		{"lazy-eight", "deck", 1500, 0, "FAA-S-ACS-7B CA.V.D: at or above 1,500 ft AGL", true},
		{"steep-turn", "bank", 50, 0.5, "FAA-S-ACS-7B CA.V.A: about 50°", true},
		{"steep-turn-45", "bank", 45, 0.5, "FAA-S-ACS-6C PA.V.A: about 45°", true},
		{"steep-turn-45", "load", 1.41, 0.01, "FAA-H-8083-3B ch. 9: 1.4 g at 45°; 1/cos 45°", false},
		{"steep-turn", "load", 1.556, 0.01, "1/cos 50° in level flight", false},
		{
			"steep-turn", "stall-margin", 120 - 50*math.Sqrt(1/math.Cos(50*math.Pi/180)), 0.1,
			"stall speed grows by the square root of the load factor: Pilot's Handbook of Aeronautical Knowledge",
			false,
		},
		// 120 kt at 5,000 ft is 120/√0.8617 true (ISA density ratio 0.8617), and the radius V²/(g·tan φ), in
		// ft with V²/11.26 for knots; compressibility is under a knot.
		{
			"steep-turn", "radius", 120 * 120 / 0.8617 / 11.26 / math.Tan(50*math.Pi/180), 25,
			"Pilot's Handbook of Aeronautical Knowledge: radius V²/(11.26·tan φ)",
			false,
		},
	} {
		got := number(briefOf(t, c.card, example()), c.id)
		if math.Abs(got-c.want) > c.width {
			t.Errorf("%s: %s is %.2f, want %.2f (%s)", c.card, c.id, got, c.want, c.source)
		}
		if without := number(briefOf(t, c.card, nil), c.id); math.IsNaN(without) == c.withNoAircraft {
			t.Errorf("%s without an aircraft: %s is %.2f", c.card, c.id, without)
		}
	}
}

// What is asked for at the checkpoints of a lazy eight: the nose highest and 15° of bank at 45°,
// level and 30° at 90°, lowest and 15° at 135° (FAA-H-8083-3C p. 10-7; 3A p. 9-7), entry height
// and speed at 180° within 100 ft and 10 kt (FAA-S-ACS-7B CA.V.D).
func TestBriefPathOfALazyEight(t *testing.T) {
	b := briefOf(t, "lazy-eight", example())
	if b.Path == nil || len(b.Path) != 181 {
		t.Fatalf("the path has %d points (%s)", len(b.Path), b.Problem)
	}
	top, low := b.Path[0], b.Path[0]
	for _, p := range b.Path {
		if p.Pitch > top.Pitch {
			top = p
		}
		if p.Pitch < low.Pitch {
			low = p
		}
	}
	if math.Abs(top.Turn-45) > 5 || math.Abs(low.Turn-135) > 5 {
		t.Errorf("the nose is highest at %g° and lowest at %g°, want 45° and 135°", top.Turn, low.Turn)
	}
	for turn, bank := range map[float64]float64{45: 15, 90: 30, 135: 15} {
		if got := b.At(turn).Bank; math.Abs(got-bank) > 2 {
			t.Errorf("bank at %g° is %g°, want about %g°", turn, got, bank)
		}
	}
	if end := b.At(180); math.Abs(end.Height) > 100 || math.Abs(end.Airspeed-120) > 10 {
		t.Errorf("it ends %g ft off, at %g kt", end.Height, end.Airspeed)
	}
	if n := math.Abs(b.At(90).Pitch); n > 1 {
		t.Errorf("the nose is %g° off level at 90°", n)
	}
}

// A sheet without an aircraft says what is not known, and why there is no path.
func TestBriefWithoutAnAircraft(t *testing.T) {
	b := briefOf(t, "wing-over", nil)
	if b.Path != nil || b.Problem.IsZero() || b.Aircraft != nil {
		t.Errorf("path %v, problem %q, aircraft %v", b.Path, b.Problem, b.Aircraft)
	}
	for _, n := range b.Numbers {
		if n.Value == nil && n.ID != "power" && n.String() != "not given" {
			t.Errorf("%s reads %q", n.Label, n.String())
		}
	}
}

// Every sheet has its cautions, its words with numbers in the place of names, and only errors
// that can be made in its maneuver.
func TestBriefsAreWhole(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	chandelles := []string{"level-before-180", "too-fast-at-the-end", "too-slow-at-the-end"}
	for _, c := range lib.Cards() {
		b := briefOf(t, c.Name, example())
		if len(b.Cautions) != len(coach.Cautions) || len(b.Said) == 0 || len(b.Usual) == 0 ||
			len(b.Gates) == 0 || len(b.Sources) < 2 {
			t.Errorf("%s: %d cautions, %d said, %d usual errors, %d gates",
				c.Name, len(b.Cautions), len(b.Said), len(b.Usual), len(b.Gates))
		}
		for _, s := range b.Said {
			if strings.ContainsAny(s.Words.String(), "{}") {
				t.Errorf("%s: %q", c.Name, s.Words)
			}
		}
		for _, e := range b.Errors {
			if slices.Contains(chandelles, e.ID) && !strings.HasPrefix(c.Name, "chandelle") {
				t.Errorf("%s lists %s", c.Name, e.ID)
			}
			if e.Title.IsZero() || e.Seen == "" || e.Advice.IsZero() {
				t.Errorf("%s: %+v says nothing", c.Name, e)
			}
		}
	}
}

// Brief and gate name one height: what the brief says above the ground is the hard deck and what the gate asks above
// it.
func TestStartHeightAgrees(t *testing.T) {
	for _, card := range []string{"wing-over", "lazy-eight", "steep-turn", "chandelle-civil", "chandelle-traditional"} {
		for _, a := range []*aircraft.Aircraft{nil, example()} {
			b := briefOf(t, card, a)
			want := fmt.Sprintf("at least %.0f ft", number(b, "lowest-start")-number(b, "deck"))
			at := slices.IndexFunc(b.Gates, func(g coach.Gate) bool { return g.ID == "hard-deck" })
			if at < 0 || b.Gates[at].Want.String() != want {
				t.Errorf("%s: the gates are %v; the brief says %s", card, b.Gates, want)
			}
		}
	}
}

// A category that forbids the maneuver stands on the sheet. 14 CFR 23.3: up to 60° of bank in the normal category.
func TestBriefSaysWhatIsForbidden(t *testing.T) {
	a := example()
	a.Category, a.BankMax, a.LoadMax = "normal", 60, 6
	b := briefOf(t, "wing-over", a)
	if len(b.Plan.Warnings) != 1 || !b.Plan.Warnings[0].Is(phrase.BankNormal) {
		t.Errorf("it warns of %v", b.Plan.Warnings)
	}
	if len(b.Notes) != 2 || !b.Notes[0].Is(phrase.Parachutes) { // 14 CFR 91.307(c)
		t.Errorf("it notes %v", b.Notes)
	}
	if b := briefOf(t, "lazy-eight", a); len(b.Plan.Warnings) != 0 {
		t.Errorf("the lazy eight warns of %v", b.Plan.Warnings)
	}
}
