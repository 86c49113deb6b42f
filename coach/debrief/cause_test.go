package debrief

import (
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/configs"
)

// side makes a check with an aim of 0 and a met band of ±10, of a weight.
func side(id, verdict string, v, score, weight float64) coach.Check {
	k := checkOf(id, strings.ToUpper(id[:1])+id[1:], "°", verdict, v, score, ptr(-10), ptr(10), "")
	k.Aim, k.Weight = ptr(0), weight
	return k
}

func explained(verdict string, score float64, checks ...coach.Check) *coach.Leg {
	l := &coach.Leg{Number: 1, Direction: "right", Outcome: coach.Finished, Verdict: verdict, Score: score, Checks: checks}
	Causes{}.ExplainLeg(&plan.Plan{}, l)
	return l
}

// The root takes what follows from it along: a nose too high makes the top slow (v²/2 + g·h is
// kept), bank past what lift carries lets the nose fall. Shares worked out by hand.
func TestRoots(t *testing.T) {
	for _, c := range []struct {
		name   string
		checks []coach.Check
		want   string
		share  float64
	}{
		{"nose", []coach.Check{side("highest-nose", coach.Missed, 20, 0, 1), side("apex-speed", coach.Missed, -20, 50, 1), side("exit-heading", coach.Met, 0, 100, 1)}, "nose-too-high", 1},
		{"nose low, top slow", []coach.Check{side("highest-nose", coach.Near, -11, 80, 1), side("apex-speed", coach.Missed, -20, 0, 1)}, "slow-over-the-top", 100.0 / 120},
		{"bank", []coach.Check{side("bank-at-90", coach.Missed, 20, 0, 1), side("nose-at-90", coach.Missed, -20, 0, 1)}, "overbanked", 1},
		{"power", []coach.Check{side("power-constant", coach.Missed, 20, 0, 1), side("exit-speed", coach.Missed, 20, 0, 1)}, "power-added", 1},
		{"power set wrong", []coach.Check{side("power-constant", coach.Met, 0, 100, 1), side("exit-speed", coach.Missed, 20, 0, 1)}, "exit-fast", 1},
		{"height", []coach.Check{side("exit-height", coach.Missed, -20, 0, 1), side("exit-speed", coach.Missed, 20, 0, 1)}, "height-lost", 1},
		{"entry", []coach.Check{side("entry-speed", coach.Missed, -20, 0, 1), side("apex-speed", coach.Missed, -20, 0, 1)}, "entry-slow", 1},
		{"rushed", []coach.Check{side("pace", coach.Missed, -20, 0, 1), side("bank-at-45", coach.Missed, 20, 0, 1), side("apex-speed", coach.Missed, 20, 0, 1)}, "rushed", 1},
		{"set-up", []coach.Check{side("entry-level", coach.Missed, 20, 0, 1), side("entry-speed", coach.Missed, -20, 0, 1)}, "not-stabilized", 1},
		{"feet", []coach.Check{side("coordination", coach.Missed, 20, 0, 1)}, "slip-or-skid", 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			lost, weight := 0.0, 0.0
			for _, k := range c.checks {
				lost, weight = lost+k.Weight*(100-k.Score), weight+k.Weight
			}
			l := explained(coach.Missed, 100-lost/weight, c.checks...)
			if len(l.Causes) == 0 || l.Causes[0].ID != c.want {
				t.Fatalf("%+v", l.Causes)
			}
			if d := l.Causes[0].Share - c.share; d > 0.001 || d < -0.001 || l.Causes[0].Minor || l.Change == "" {
				t.Errorf("%+v, change %q", l.Causes[0], l.Change)
			}
		})
	}
}

// Where nothing was missed a cause is minor, and one that brings back less than a point is none.
func TestMinor(t *testing.T) {
	l := explained(coach.Near, 85, side("highest-nose", coach.Near, 12, 70, 1), side("exit-heading", coach.Met, 0, 100, 1))
	if len(l.Causes) != 1 || !l.Causes[0].Minor {
		t.Errorf("%+v", l.Causes)
	}
	l = explained(coach.Met, 99.5, side("highest-nose", coach.Met, 9, 89, 1), side("exit-heading", coach.Met, 0, 100, 20))
	if len(l.Causes) != 0 {
		t.Errorf("%+v", l.Causes)
	}
}

// Of two causes whose advice is the opposite, only the one that costs more is told.
func TestOpposites(t *testing.T) {
	for _, c := range []struct {
		dropped, rising float64 // points lost
		want            string
	}{{80, 40, "nose-dropped"}, {40, 80, "nose-still-rising"}} {
		l := explained(coach.Missed, 100-(c.dropped+c.rising)/2,
			side("nose-not-sinking", coach.Missed, 20, 100-c.dropped, 1), side("nose-not-rising", coach.Missed, 20, 100-c.rising, 1))
		if len(l.Causes) != 1 || l.Causes[0].ID != c.want {
			t.Errorf("want %s alone: %+v", c.want, l.Causes)
		}
	}
	for i := range legRules {
		for _, id := range legRules[i].against {
			if ruleNamed(id) == nil {
				t.Errorf("%s is against %s, which there is not", legRules[i].id, id)
			}
		}
	}
}

// What is said has five words at most, and every rule tells apart by its id.
func TestRulesWords(t *testing.T) {
	seen := map[string]bool{}
	for _, list := range [][]rule{legRules, seriesRules} {
		for _, r := range list {
			if seen[r.id] || len(strings.Fields(r.say)) > 5 || r.say == "" || !strings.HasSuffix(r.advice, ".") {
				t.Errorf("%s: %q %q", r.id, r.say, r.advice)
			}
			seen[r.id] = true
		}
	}
}

// What is said of a level turn speaks of no climb and no pull-up, on any card of one.
func TestLevelTurnsAreTold(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	cards, told := 0, 0
	for _, card := range lib.Cards() {
		if card.Reference.Slowest != "level" {
			continue
		}
		cards++
		for _, e := range Expect(plan.New(card, nil)) {
			told++
			for _, word := range []string{"the climb", "pull", "forty-five", "second half"} {
				if strings.Contains(e.Title+e.Advice, word) {
					t.Errorf("%s, %s: %q, %q", card.Name, e.ID, e.Title, e.Advice)
				}
			}
		}
	}
	if cards != 3 || told < 20 {
		t.Errorf("%d cards, %d causes", cards, told)
	}
}

// A label goes on in a sentence whatever letter it begins with: one of more than a byte, a capital that is kept.
func TestLower(t *testing.T) {
	for label, want := range map[string]string{"Bank at 90°": "bank at 90°", "Überziehfahrt": "überziehfahrt", "Élan": "élan", "ß": "ß", "N1 held": "N1 held", "RPM": "RPM", "": ""} {
		if got := lower(label); got != want {
			t.Errorf("lower(%q) = %q, want %q", label, got, want)
		}
	}
}

// The dearest check comes first, by however little: 20 points at 2.04 are more than 40 at 1.
func TestDearestFirst(t *testing.T) {
	f := newFlown(nil, nil, []coach.Check{side("height", coach.Missed, 20, 60, 1), side("speed", coach.Missed, 20, 80, 2.04)})
	list := f.worst(&finding{frees: f.loss}, []string{"height", "speed"}, nil, 2)
	if len(list) != 2 || list[0].ID != "speed" {
		t.Errorf("%+v", list)
	}
}
