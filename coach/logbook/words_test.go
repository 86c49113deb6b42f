package logbook

import (
	"errors"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/ids"
)

// TestStreakTake: the row over sessions is that over all their legs, however they are cut into sessions; checked
// against counting leg by leg.
func TestStreakTake(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	for range 200 {
		var s Streak
		now, best, at := 0, 0, ""
		for id := range strings.SplitSeq("a b c d e f", " ") {
			var m ManeuverTally
			for range random.IntN(5) {
				good := random.IntN(3) > 0
				m.count(good)
				if now++; !good {
					now = 0
				}
				if good && now >= best {
					best, at = now, id
				}
			}
			if m.Finished > 0 {
				s.Take(id, m.Finished, m.Head, m.Tail, m.Best)
			}
		}
		if want := (Streak{now, best, at}); s != want {
			t.Fatalf("%+v; must be %+v", s, want)
		}
	}
}

func f(v float64) *float64 { return &v }

// TestTrendChecks: checks stand in the order of the turn; label and aim are those of the latest session that has one,
// and each point keeps the aim it was held against.
func TestTrendChecks(t *testing.T) {
	sum := func(id, label string, turn float64, aim *float64, median float64) CheckSum {
		return CheckSum{
			TrendCheck: TrendCheck{ID: id, Label: label, Aim: aim, Points: []TrendPoint{{Legs: 1, Median: median}}},
			Turn:       turn,
		}
	}
	unmeasured := sum("bank", "Bank at last", 90, f(80), 0)
	unmeasured.Points = nil
	checks := TrendChecks([]MeasuredSession{
		{"s1", "d1", []CheckSum{sum("exit", "Exit", 180, nil, 3), sum("bank", "Bank", 90, f(70), 60)}},
		{"s2", "d2", []CheckSum{sum("bank", "Bank at 90°", 90, f(75), 65), sum("entry", "Entry", 0, nil, 1)}},
		{"s3", "d3", []CheckSum{unmeasured}},
	})
	var names []string
	for _, k := range checks {
		names = append(names, k.ID)
	}
	if !slices.Equal(names, []string{"entry", "bank", "exit"}) {
		t.Errorf("in the order %q", names)
	}
	bank := checks[1]
	if bank.Label != "Bank at last" || *bank.Aim != 80 || len(bank.Points) != 2 {
		t.Fatalf("%+v", bank)
	}
	for i, want := range []struct {
		session     string
		aim, median float64
	}{{"s1", 70, 60}, {"s2", 75, 65}} {
		p := bank.Points[i]
		if p.Session != want.session || *p.Judged.Aim != want.aim || p.Median != want.median {
			t.Errorf("point %d is %+v; must be %+v", i, p, want)
		}
	}
	if none := TrendChecks(nil); none == nil || len(none) > 0 {
		t.Errorf("of no session: %v", none)
	}
}

// TestGathering: only what was measured counts, and what was met is counted apart.
func TestGathering(t *testing.T) {
	g := gathering{}
	for _, k := range []coach.Check{
		{ID: "bank", Turn: f(90), Value: f(60), Verdict: coach.Near},
		{ID: "bank", Turn: f(90), Value: f(75), Verdict: coach.Met},
		{ID: "bank", Turn: f(90), Value: f(1), Verdict: coach.NotMeasured},
		{ID: "bank", Turn: f(90), Verdict: coach.NotMeasured},
	} {
		g.take([]coach.Check{k, {ID: "ball", Verdict: coach.NotMeasured}})
	}
	list := g.sum()
	if len(list) != 2 || list[0].ID != "bank" || list[0].Turn != 90 || list[1].Turn != wholeTurn {
		t.Fatalf("%+v", list)
	}
	if p := list[0].Points; len(p) != 1 || p[0].Legs != 2 || p[0].Met != 1 || p[0].Low != 60 || p[0].High != 75 {
		t.Errorf("%+v", p)
	}
	if len(list[1].Points) > 0 {
		t.Errorf("of what was never measured there is %+v", list[1].Points)
	}
}

// TestScoreAndGrade: score and grade are those of the middle leg, the lower of two, so that they say the same.
func TestScoreAndGrade(t *testing.T) {
	leg := func(grade string, score float64) coach.Leg {
		return coach.Leg{Outcome: coach.Finished, Verdict: coach.Near, Grade: grade, Score: score}
	}
	for grade, c := range map[string]struct {
		legs  []coach.Leg
		score float64 // negative is none
	}{
		"":              {nil, -1},
		coach.Unable:    {[]coach.Leg{leg(coach.Unable, 10), leg(coach.Excellent, 95)}, 10},
		coach.Fair:      {[]coach.Leg{leg(coach.Unable, 10), leg(coach.Fair, 60), leg(coach.Excellent, 97)}, 60},
		coach.Good:      {[]coach.Leg{leg(coach.Good, 80), leg(coach.Good, 82), leg(coach.Excellent, 95)}, 82},
		coach.Excellent: {[]coach.Leg{leg(coach.Excellent, 95)}, 95},
	} {
		r := debrief.New()
		r.Files = []debrief.FileReport{{Stations: []debrief.StationReport{{Series: []coach.Series{{Legs: c.legs}}}}}}
		sum := TallyOf(r, map[string]string{})
		score := sum.Score()
		if got := sum.Grade(); got != grade || (score == nil) != (c.score < 0) || score != nil && *score != c.score {
			t.Errorf("%d legs: %q, %v; must be %q, %g", len(c.legs), got, score, grade, c.score)
		}
	}
}

// TestVerdicts come back from the letters that a row of a list keeps, and of a long session the first hundred.
func TestVerdicts(t *testing.T) {
	all := []string{coach.Met, coach.Near, coach.Missed, coach.NotMeasured}
	series := coach.Series{Maneuver: "wing-over"}
	for n := range 120 {
		series.Legs = append(series.Legs, coach.Leg{Verdict: all[n%len(all)]})
	}
	r := debrief.New()
	r.Files = []debrief.FileReport{{Stations: []debrief.StationReport{{Series: []coach.Series{series}}}}}
	sum := TallyOf(r, map[string]string{"maneuvers/wing-over": "Wing-over"})
	got := VerdictsOf(sum.Letters)
	if len(got) != mostVerdicts || !slices.Equal(got[:4], all) || sum.Legs != 120 {
		t.Errorf("%d verdicts, the first are %q, of %d legs", len(got), got[:4], sum.Legs)
	}
	if want := (Named{"wing-over", "Wing-over"}); len(sum.Maneuvers) != 1 || sum.Maneuvers[0] != want {
		t.Errorf("%+v", sum.Maneuvers)
	}
}

// TestCard: a card goes by its title, and its hash tells kind, name and text apart, wherever one ends.
func TestCard(t *testing.T) {
	for title, c := range map[string]KeptCard{
		"Wing-over": {"maneuvers", "wing-over", []byte("title = \"Wing-over\"\n")},
		"untitled":  {"maneuvers", "untitled", []byte("name = \"x\"\n")},
		"broken":    {"maneuvers", "broken", []byte("title = \n")},
	} {
		if got := c.Title(); got != title {
			t.Errorf("%s is called %q; must be %q", c.Name, got, title)
		}
	}
	seen := map[string]KeptCard{}
	for _, c := range []KeptCard{
		{"a", "b", []byte("c")}, {"ab", "", []byte("c")}, {"a", "bc", nil}, {"", "ab", []byte("c")},
		{"a", "b", []byte("d")},
	} {
		h := c.Hash()
		if other, ok := seen[h]; ok || len(h) != 64 {
			t.Errorf("%q and %q have the hash %s", c, other, h)
		}
		seen[h] = c
	}
}

// TestIDs: ids that follow from what is known are valid, the same each time, and differ where anything does.
func TestIDs(t *testing.T) {
	at := time.Date(2031, 5, 4, 9, 0, 7, 0, time.UTC)
	seen := map[string]bool{}
	for _, id := range []string{
		SessionKey(at, "x", "seat"), SessionKey(at, "y", "seat"), SessionKey(at, "x", "other"),
		SessionKey(at.Add(time.Millisecond), "x", "seat"),
		LegID(at, "x", 1), LegID(at, "x", 2), LegID(at, "y", 1), RemarkID(at, "x", 1), RemarkID(at, "x", 2),
	} {
		if !ids.Valid(id) || seen[id] {
			t.Errorf("%q is valid %v, there before %v", id, ids.Valid(id), seen[id])
		}
		seen[id] = true
	}
	if !seen[LegID(at.In(time.FixedZone("east", 3600)), "x", 1)] {
		t.Error("an id depends on the time zone")
	}
}

// TestDayStart reads dates, and refuses what is none.
func TestDayStart(t *testing.T) {
	if at, err := DayStart("2031-05-04"); err != nil || !at.Equal(time.Date(2031, 5, 4, 0, 0, 0, 0, time.Local)) {
		t.Errorf("%v, %v", at, err)
	}
	for _, s := range []string{"", "yesterday", "2031-5-4", "2031-02-30", "04.05.2031"} {
		var refused *Refused
		if _, err := DayStart(s); !errors.As(err, &refused) || !strings.Contains(err.Error(), "2031-05-04") {
			t.Errorf("%q: %v", s, err)
		}
	}
}
