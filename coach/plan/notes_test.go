package plan_test

import (
	"math"
	"strings"
	"testing"

	"halfturn/coach/aero"
	"halfturn/coach/aircraft"
	"halfturn/coach/plan"
	"halfturn/stream/phrase"
)

func with(t *testing.T, card string, a aircraft.Aircraft) *plan.Plan {
	t.Helper()
	c, err := library(t).Card(card)
	if err != nil {
		t.Fatal(err)
	}
	return plan.New(c, &a)
}

func texts(all []phrase.Phrase) string {
	words := make([]string, len(all))
	for i, p := range all {
		words[i] = p.String()
	}
	return strings.Join(words, "; ")
}

// Turns steeper than 60° need the utility category (14 CFR 23.3), steeper than 90° the acrobatic; with others aboard,
// over 60° of bank or 30° of nose need parachutes, exactly 60 or 30° do not (14 CFR 91.307(c)).
func TestWarnings(t *testing.T) {
	single := aircraft.Aircraft{Stall: 50, Entry: 100, Apex: 75}
	normal := single
	normal.Category, normal.BankMax = "normal", 60
	limited := single
	limited.BankMax = 45
	fast := single
	fast.LoadMax, fast.Entry = 3.8, 110
	for _, r := range []struct {
		card            string
		a               aircraft.Aircraft
		warnings, notes string
	}{
		{
			"wing-over", normal, "the normal category allows 60° of bank; this maneuver asks for 75°",
			"beyond 60° of bank or 30° of nose all wear parachutes when not only the crew is aboard (14 CFR 91.307)",
		},
		{"chandelle-traditional", normal, "", ""},
		{"steep-turn", limited, "the aircraft is limited to 45° of bank; this maneuver asks for 50°", ""},
		{"lazy-eight", fast, "the entry speed of 110 kt is above the maneuvering speed of 97 kt", ""},
		{"lazy-eight", single, "", ""},
	} {
		p := with(t, r.card, r.a)
		if got := texts(p.Warnings()); got != r.warnings {
			t.Errorf("%s: %q", r.card, got)
		}
		if got := texts(p.Notes()); got != r.notes {
			t.Errorf("%s: notes %q", r.card, got)
		}
	}
}

// A nose that the aircraft card states is flown, and said so. Source: P-1212 p. 33, 45° at 300 kt.
func TestStatedNose(t *testing.T) {
	a := aircraft.Aircraft{
		Stall:  95,
		Entry:  300,
		Apex:   160,
		Engine: "jet",
		Speeds: map[string]aircraft.Speeds{"wing-over": {Nose: 45, Steepest: 85}},
	}
	p := with(t, "wing-over", a)
	if p.Path == nil {
		t.Fatal(p.Problem)
	}
	if aim, _, ok := p.Aim("pitch", 45); !ok || math.Abs(aim-45) > 0.2 || math.Abs(p.Nose-45) > 0.2 {
		t.Errorf("the nose aimed at is %g°, the highest %g°", aim, p.Nose)
	}
	const said = "the highest nose of 45° is the aircraft card's; with it the speed"
	if got := texts(p.Notes()); !strings.Contains(got, said) {
		t.Errorf("%q", got)
	}
	delete(a.Speeds, "wing-over")
	if p := with(t, "wing-over", a); p.Path != nil && math.Abs(p.Nose-45) < 1 {
		t.Errorf("without it the nose is %g° too", p.Nose)
	}
}

// Where there is no path, it is said why.
func TestProblemIsSaid(t *testing.T) {
	for card, want := range map[string]string{
		"steep-turn": "stalls at", // at 50° of bank the stall speed is 1.25 times that in level flight
		"wing-over":  "no apex speed",
	} {
		if p := with(t, card, aircraft.Aircraft{Stall: 60, Entry: 61}); !strings.Contains(p.Problem.String(), want) {
			t.Errorf("%s: %q; must have %q", card, p.Problem, want)
		}
	}
}

// At another altitude the path is the same over the turn: it is re-flown there and compared.
func TestFrom(t *testing.T) {
	a := aircraft.Aircraft{Stall: 84, Entry: 220, Apex: 148, Engine: "propeller"}
	p := with(t, "wing-over", a)
	got := p.From(220, 9000)
	card := p.Card
	program := aero.Program{Turn: card.Turn}
	for _, k := range card.Profile {
		program.Knots = append(program.Knots, aero.Knot{Turn: k.Turn, Bank: k.Bank, Nose: k.Nose})
	}
	airplane := aero.Airplane{Stall: 84, Entry: 220, Apex: 148}
	there, err := aero.Regain(program, airplane, aero.Entry{Airspeed: 220, Altitude: 9000}, 148, 0)
	if err != nil {
		t.Fatal(err)
	}
	if d := got.Duration/there.Path.Duration - 1; math.Abs(d) > 0.01 {
		t.Errorf("it takes %.1f s, flown there %.1f", got.Duration, there.Path.Duration)
	}
	for _, turn := range []float64{45, 90, 135} {
		x, y := got.At(turn), there.Path.At(turn)
		if math.Abs(x.Height-y.Height) > 0.04*y.Height || math.Abs(x.Airspeed-y.Airspeed) > 2 ||
			math.Abs(x.LoadFactor-y.LoadFactor) > 0.05 {
			t.Errorf("at %g°: %+v, flown there %+v", turn, x, y)
		}
	}
}
