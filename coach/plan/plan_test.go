package plan_test

import (
	"math"
	"strings"
	"sync"
	"testing"

	"halfturn/coach"
	"halfturn/coach/aero"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/configs"
	"halfturn/stream/phrase"
)

var shipped = sync.OnceValues(func() (*maneuver.Library, error) { return maneuver.LoadLibrary(configs.FS) })

func library(t *testing.T) *maneuver.Library {
	t.Helper()
	lib, err := shipped()
	if err != nil {
		t.Fatal(err)
	}
	return lib
}

// made is a plan of a shipped card; aircraft "" is none.
func made(t *testing.T, card, aircraft string) *plan.Plan {
	t.Helper()
	lib := library(t)
	c, err := lib.Card(card)
	if err != nil {
		t.Fatal(err)
	}
	a, err := lib.AircraftNamed(aircraft)
	if err != nil {
		t.Fatal(err)
	}
	return plan.New(c, a)
}

// traced flies the card's own profile, with the highest nose given, over a part of the turn.
func traced(p *plan.Plan, nose, until float64) (trace []coach.Trace) {
	k := p.Card.Profile
	for turn := 0.0; turn <= until; turn++ {
		i := 1
		for i < len(k)-1 && turn > k[i].Turn {
			i++
		}
		f := (turn - k[i-1].Turn) / (k[i].Turn - k[i-1].Turn)
		mix := func(a, b float64) float64 { return a + f*(b-a) }
		trace = append(trace, coach.Trace{Turn: turn, Bank: mix(k[i-1].Bank, k[i].Bank),
			Pitch: 2 + nose*mix(k[i-1].Nose, k[i].Nose)})
	}
	return trace
}

// A card's own profile is no misfit for it, and more of one for every other card.
func TestMisfit(t *testing.T) {
	var plans []*plan.Plan
	for _, c := range library(t).Distinct() {
		plans = append(plans, made(t, c.Name, ""))
	}
	for _, own := range plans {
		leg := traced(own, 20, own.Card.Turn)
		least := own.Misfit(plan.Traced(leg), true)
		if !(least < 0.35) {
			t.Errorf("%s misfits itself by %g", own.Card.Name, least)
		}
		for _, other := range plans {
			if got := other.Misfit(plan.Traced(leg), true); other != own && !(got > least) {
				t.Errorf("%s fits %s by %g, itself by %g", own.Card.Name, other.Card.Name, got, least)
			}
		}
		few := 40.0
		if own.Card.Several() {
			few = 12
		}
		if got := own.Misfit(plan.Traced(traced(own, 20, few)), false); !math.IsNaN(got) {
			t.Errorf("%s is told from %g° of turn: %g", own.Card.Name, few, got)
		}
		if own.Card.Turn < 120 {
			continue // too short to be judged without 60°
		}
		shortest := own.Card.Turn
		if ends := own.Card.Meant.Turns; len(ends) > 0 && !own.Card.Several() {
			shortest = ends[0]
		}
		if short := own.Misfit(plan.Traced(traced(own, 20, shortest-60)), true); !(short > least+0.3) {
			t.Errorf("%s ended 60° short misfits by %g, in full by %g", own.Card.Name, short, least)
		}
	}
}

// At another true airspeed the same bank and nose take time in proportion to it: the turn rate is g·tan(bank)/V.
func TestDuration(t *testing.T) {
	p := made(t, "wing-over", "turboprop-trainer")
	if p.Path == nil {
		t.Fatal(p.Problem)
	}
	entry := p.Aircraft.Entry
	if got := p.Duration(entry, 5000); math.Abs(got-p.Path.Duration) > 1e-9 {
		t.Errorf("at the entry of the path it takes %g s, not %g s", got, p.Path.Duration)
	}
	ratio := aero.TrueAirspeed(entry+20, 9000) / aero.TrueAirspeed(entry, 5000)
	if got := p.Duration(entry+20, 9000); math.Abs(got-p.Path.Duration*ratio) > 1e-9 {
		t.Errorf("faster and higher it takes %g s", got)
	}
	if got := made(t, "wing-over", "").Duration(200, 5000); !math.IsNaN(got) {
		t.Errorf("without an aircraft it takes %g s", got)
	}
}

func TestWords(t *testing.T) {
	p := made(t, "wing-over", "")
	if got := p.Label(90) + " " + p.Label(p.Card.Turn); got != "90° out" {
		t.Errorf("the labels are %s", got)
	}
	if got, want := p.Want(90).String(), "bank 75°"; got != want {
		t.Errorf("%q at 90° without an aircraft, not %q", got, want)
	}
	if got := p.Want(p.Card.Turn).String(); got != "wings level" {
		t.Errorf("%q at the exit", got)
	}
	heading := phrase.Words("heading", "2 7 0")
	if got := p.Phrase("bank {bank} on {heading}", 90, heading).String(); got != "bank 75 on 2 7 0" {
		t.Errorf("%q", got)
	}
	known := made(t, "wing-over", "turboprop-trainer")
	if got := known.Want(135).String(); !strings.HasPrefix(got, "bank ") || !strings.Contains(got, "nose ") ||
		!strings.HasSuffix(got, " kt") {
		t.Errorf("%q at 135° with an aircraft", got)
	}
	if p.Known || p.Problem.IsZero() || !known.Known || !known.Problem.IsZero() {
		t.Errorf("without an aircraft: %q; with one: %q", p.Problem, known.Problem)
	}
}
