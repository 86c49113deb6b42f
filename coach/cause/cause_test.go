package cause

import (
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/configs"
)

func ptr(x float64) *float64 { return &x }

// side makes a check with an aim of 0 and a met band of ±10, of a weight.
func side(id, verdict string, v, score, weight float64) coach.Check {
	band := [2]*float64{ptr(-10), ptr(10)}
	return coach.Check{
		ID:      id,
		Label:   strings.ToUpper(id[:1]) + id[1:],
		Kind:    "value",
		Unit:    "°",
		Value:   &v,
		Aim:     ptr(0),
		Met:     band,
		Near:    band,
		Weight:  weight,
		Verdict: verdict,
		Score:   score,
	}
}

func explained(verdict string, score float64, checks ...coach.Check) *coach.Leg {
	l := &coach.Leg{
		Number:    1,
		Direction: "right",
		Outcome:   coach.Finished,
		Verdict:   verdict,
		Score:     score,
		Checks:    checks,
	}
	Explainer{}.ExplainLeg(&plan.Plan{}, l)
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
		{
			name: "nose",
			checks: []coach.Check{
				side("highest-nose", coach.Missed, 20, 0, 1),
				side("apex-speed", coach.Missed, -20, 50, 1),
				side("exit-heading", coach.Met, 0, 100, 1),
			},
			want:  "nose-too-high",
			share: 1,
		},
		{
			name: "nose low, top slow",
			checks: []coach.Check{
				side("highest-nose", coach.Near, -11, 80, 1),
				side("apex-speed", coach.Missed, -20, 0, 1),
			},
			want:  "slow-over-the-top",
			share: 100.0 / 120,
		},
		{
			name: "bank",
			checks: []coach.Check{
				side("bank-at-90", coach.Missed, 20, 0, 1),
				side("nose-at-90", coach.Missed, -20, 0, 1),
			},
			want:  "overbanked",
			share: 1,
		},
		{
			name: "power",
			checks: []coach.Check{
				side("power-constant", coach.Missed, 20, 0, 1),
				side("exit-speed", coach.Missed, 20, 0, 1),
			},
			want:  "power-added",
			share: 1,
		},
		{
			name: "power set wrong",
			checks: []coach.Check{
				side("power-constant", coach.Met, 0, 100, 1),
				side("exit-speed", coach.Missed, 20, 0, 1),
			},
			want:  "exit-fast",
			share: 1,
		},
		{
			name: "height",
			checks: []coach.Check{
				side("exit-height", coach.Missed, -20, 0, 1),
				side("exit-speed", coach.Missed, 20, 0, 1),
			},
			want:  "height-lost",
			share: 1,
		},
		{
			name: "entry",
			checks: []coach.Check{
				side("entry-speed", coach.Missed, -20, 0, 1),
				side("apex-speed", coach.Missed, -20, 0, 1),
			},
			want:  "entry-slow",
			share: 1,
		},
		{
			name: "rushed",
			checks: []coach.Check{
				side("pace", coach.Missed, -20, 0, 1),
				side("bank-at-45", coach.Missed, 20, 0, 1),
				side("apex-speed", coach.Missed, 20, 0, 1),
			},
			want:  "rushed",
			share: 1,
		},
		{
			name: "set-up",
			checks: []coach.Check{
				side("entry-level", coach.Missed, 20, 0, 1),
				side("entry-speed", coach.Missed, -20, 0, 1),
			},
			want:  "not-stabilized",
			share: 1,
		},
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
			if d := l.Causes[0].Share - c.share; d > 0.001 || d < -0.001 || l.Causes[0].Minor || l.Change.IsZero() {
				t.Errorf("%+v, change %q", l.Causes[0], l.Change)
			}
		})
	}
}

// Where nothing was missed a cause is minor, and one that brings back less than a point is none.
func TestMinor(t *testing.T) {
	l := explained(
		coach.Near,
		85,
		side("highest-nose", coach.Near, 12, 70, 1),
		side("exit-heading", coach.Met, 0, 100, 1),
	)
	if len(l.Causes) != 1 || !l.Causes[0].Minor {
		t.Errorf("%+v", l.Causes)
	}
	l = explained(
		coach.Met,
		99.5,
		side("highest-nose", coach.Met, 9, 89, 1),
		side("exit-heading", coach.Met, 0, 100, 20),
	)
	if len(l.Causes) != 0 {
		t.Errorf("%+v", l.Causes)
	}
}

// A roll-out 40° late costs little of the score, and is a clear cause all the same. An entry that is a little off is
// named, and minor.
func TestClearAndNamed(t *testing.T) {
	l := explained(coach.Missed, 92.6, side("exit-heading", coach.Missed, 40, 0, 2),
		side("bank-at-90", coach.Met, 0, 100, 25))
	if len(l.Causes) != 1 || l.Causes[0].ID != "rolled-out-late" || l.Causes[0].Minor {
		t.Errorf("%+v", l.Causes)
	}
	l = explained(coach.Met, 99.5, side("entry-height-held", coach.Near, 12, 75, 0.5),
		side("bank-at-90", coach.Met, 0, 100, 25))
	if len(l.Causes) != 1 || l.Causes[0].ID != "entry-climbing" || !l.Causes[0].Minor {
		t.Errorf("%+v", l.Causes)
	}
}

// Of two causes whose advice is the opposite, only one is named. A nose that was raised where it is to be held comes
// down by itself when the speed is gone: not to have raised it is what helps, whichever cost more.
func TestOpposites(t *testing.T) {
	for _, lost := range [][2]float64{{80, 40}, {40, 80}} { // dropped, raised
		l := explained(coach.Missed, 100-(lost[0]+lost[1])/2,
			side("nose-not-sinking", coach.Missed, 20, 100-lost[0], 1),
			side("nose-not-rising", coach.Missed, 20, 100-lost[1], 1))
		if len(l.Causes) != 1 || l.Causes[0].ID != "nose-still-rising" {
			t.Errorf("lost %g points: %+v; must be nose-still-rising alone", lost, l.Causes)
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
			if seen[r.id] {
				t.Errorf("two rules are %s", r.id)
			}
			seen[r.id] = true
			words := append([]variant{{say: r.say, advice: r.advice}}, r.other...)
			for _, w := range words {
				say, advice := w.say.English(), w.advice.English()
				if len(strings.Fields(say)) > 5 || say == "" || !strings.HasSuffix(advice, ".") {
					t.Errorf("%s: %q %q", r.id, say, advice)
				}
			}
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
				if strings.Contains(e.Title.String()+e.Advice.String(), word) {
					t.Errorf("%s, %s: %q, %q", card.Name, e.ID, e.Title, e.Advice)
				}
			}
		}
	}
	if cards != 6 || told < 20 {
		t.Errorf("%d cards, %d causes", cards, told)
	}
}

// The dearest check comes first, by however little: 20 points at 2.04 are more than 40 at 1.
func TestDearestFirst(t *testing.T) {
	f := newLedger(
		nil,
		nil,
		[]coach.Check{side("height", coach.Missed, 20, 60, 1), side("speed", coach.Missed, 20, 80, 2.04)},
	)
	list := f.worst(&finding{frees: f.loss}, []string{"height", "speed"}, nil, 2)
	if len(list) != 2 || list[0].ID != "speed" {
		t.Errorf("%+v", list)
	}
}
