package score_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/score"
	"halfturn/stream/phrase"
)

// judged is a check with a value by its distance from the aim: met within 10, near within 20.
func judged(id string, value, weight float64) coach.Check {
	spec := &check.Spec{
		ID: id, Label: id, Kind: "value", Channel: "bank", Turn: new(90.0), Aim: new(0.0), Weight: weight,
		MetBand: band(-10, 10), NearBand: band(-20, 20), High: "less " + id, Low: "more " + id,
	}
	return score.Check(spec, check.Measure{OK: true, Value: value, At: 90}, &check.Facts{})
}

func unmeasured(id string, weight float64) coach.Check {
	return coach.Check{ID: id, Label: id, Weight: weight, Verdict: coach.NotMeasured, Reason: phrase.NoStallSpeed.Of()}
}

func pastLimit(id string) coach.Check {
	k := judged(id, 20.6, 1)
	k.PastLimit = true
	return k
}

// all makes a leg of checks: the named ones, and others that are at their aim.
func all(n int, named ...coach.Check) []coach.Check {
	for i := len(named); i < n; i++ {
		named = append(named, judged("other", 0, 1))
	}
	return named
}

// By hand from the rule of the package, with checks of equal weight.
func TestLeg(t *testing.T) {
	for _, c := range []struct {
		name           string
		leg            coach.Leg
		ended          score.Ended
		verdict, grade string
		points         float64
		headline       string
	}{
		{
			name:    "everything met",
			leg:     coach.Leg{Checks: all(25)},
			verdict: coach.Met, grade: coach.Excellent, points: 100,
			headline: "All 25 checks within limits",
		},
		{
			name:    "one check missed by a little", // 79 − 4
			leg:     coach.Leg{Checks: all(25, judged("ball", 20.6, 1))},
			verdict: coach.Missed, grade: coach.Fair, points: 74.8,
			headline: "Not yet: ball; 24 of 25 within limits",
		},
		{
			name:    "one check missed by the reach of its band", // 79 − 4 − 7
			leg:     coach.Leg{Checks: all(25, judged("ball", -40, 1))},
			verdict: coach.Missed, grade: coach.Fair, points: 68,
			headline: "Not yet: ball; 24 of 25 within limits",
		},
		{
			name:    "one check missed by far", // 79 − 4 − 14
			leg:     coach.Leg{Checks: all(25, judged("ball", 90, 1))},
			verdict: coach.Missed, grade: coach.Fair, points: 61,
			headline: "Not yet: ball; 24 of 25 within limits",
		},
		{
			name:    "two checks missed", // 79 − 18 − 11
			leg:     coach.Leg{Checks: all(25, judged("ball", 40, 1), judged("bank", 90, 1))},
			verdict: coach.Missed, grade: coach.Unable, points: 50,
			headline: "Not yet: bank and 1 more; 23 of 25 within limits",
		},
		{
			name:    "past a limit",
			leg:     coach.Leg{Checks: all(25, judged("ball", 90, 1), pastLimit("steepest bank"))},
			verdict: coach.Missed, grade: coach.Unable, points: 56.8, // 79 − 18 − 4.2
			headline: "Past the limit: steepest bank; 23 of 25 within limits",
		},
		{
			name:    "past a limit alone",
			leg:     coach.Leg{Checks: all(25, pastLimit("steepest bank"))},
			verdict: coach.Missed, grade: coach.Unable, points: 59,
			headline: "Past the limit: steepest bank; 24 of 25 within limits",
		},
		{
			name:    "one check near",
			leg:     coach.Leg{Checks: all(25, judged("ball", 12, 1))},
			verdict: coach.Met, grade: coach.Good, points: 94,
			headline: "Within standard: 24 of 25 within limits; nearly: ball",
		},
		{
			name:    "more than a quarter near",
			leg:     coach.Leg{Checks: all(3, judged("ball", 12, 1))},
			verdict: coach.Near, grade: coach.Fair, points: 79,
			headline: "Nearly: ball; 2 of 3 within limits",
		},
		{
			name:    "corrected on the way",
			leg:     coach.Leg{Said: 1, Checks: all(25)},
			verdict: coach.Met, grade: coach.Good, points: 94,
			headline: "All 25 checks within limits; one correction on the way",
		},
		{
			name:    "corrected twice, and something missed all the same",
			leg:     coach.Leg{Said: 2, Checks: all(24, judged("ball", 30, 1))},
			verdict: coach.Missed, grade: coach.Fair, points: 71.5,
			headline: "Not yet: ball; 23 of 24 within limits",
		},
		{
			name:    "corrected three times",
			leg:     coach.Leg{Said: 3, Checks: all(25)},
			verdict: coach.Met, grade: coach.Good, points: 94,
			headline: "All 25 checks within limits; 3 corrections on the way",
		},
		{
			name:    "no aircraft card",
			leg:     coach.Leg{Checks: all(21, unmeasured("apex", 2))},
			ended:   score.Ended{NoCard: true},
			verdict: coach.Met, grade: coach.Good, points: 94,
			headline: "All 20 checks within limits; 1 of 21 checks not measured",
		},
		{
			name:    "stopped",
			leg:     coach.Leg{Outcome: coach.KnockOff, Reason: phrase.Stalled.Of(), Checks: all(25)},
			verdict: coach.Missed, grade: coach.Unable, points: 39,
			headline: "Stopped for safety: stalled",
		},
		{
			name:    "given up",
			leg:     coach.Leg{Outcome: coach.BrokenOff, Reason: phrase.TurnedBack.Of(), Checks: all(25)},
			verdict: coach.Missed, grade: coach.Unable, points: 39,
			headline: "Broken off: turned back",
		},
		{
			name:    "the stream ended",
			leg:     coach.Leg{Outcome: coach.BrokenOff, Reason: phrase.SessionEnded.Of(), Checks: all(25)},
			ended:   score.Ended{External: true},
			verdict: coach.NotMeasured, headline: "Not measured: the session ended",
		},
		{
			name:    "nothing measured",
			leg:     coach.Leg{Checks: []coach.Check{unmeasured("apex", 2)}},
			verdict: coach.NotMeasured, headline: "Nothing could be measured",
		},
	} {
		l := c.leg
		if l.Outcome == "" {
			l.Outcome = coach.Finished
		}
		score.Leg(&l, c.ended)
		head := score.LegHeadline(&l).String()
		if l.Verdict != c.verdict || l.Grade != c.grade || l.Score != c.points || head != c.headline {
			t.Errorf("%s: %s, %s, %g, %q; must be %s, %s, %g, %q", c.name, l.Verdict, l.Grade, l.Score, head,
				c.verdict, c.grade, c.points, c.headline)
		}
	}
}

// A check without weight is shown and changes nothing.
func TestNoWeight(t *testing.T) {
	l := &coach.Leg{Outcome: coach.Finished, Checks: all(5, judged("ball", 90, 0))}
	score.Leg(l, score.Ended{})
	if l.Verdict != coach.Met || l.Grade != coach.Excellent || l.Score != 100 || !l.Change.IsZero() {
		t.Errorf("%s, %s, %g, %q", l.Verdict, l.Grade, l.Score, l.Change)
	}
}

// random makes a leg of any checks that may be.
func random(rnd *rand.Rand) (*coach.Leg, score.Ended) {
	l := &coach.Leg{Outcome: coach.Finished, Said: rnd.IntN(3) / 2}
	worst := 5 * rnd.Float64() * rnd.Float64() * 10
	for range rnd.IntN(30) {
		k := judged("any", worst*rnd.NormFloat64(), float64(rnd.IntN(6))/2)
		if rnd.IntN(12) == 0 {
			k = unmeasured("any", 1)
		}
		k.PastLimit = k.Verdict == coach.Missed && rnd.IntN(8) == 0
		k.Post = [...]*float64{nil, new(0.0), new(45.0), new(90.0), new(180.0)}[rnd.IntN(5)]
		l.Checks = append(l.Checks, k)
	}
	switch rnd.IntN(10) {
	case 0:
		l.Outcome, l.Reason = coach.KnockOff, phrase.Stalled.Of()
	case 1:
		l.Outcome, l.Reason = coach.BrokenOff, phrase.TurnedBack.Of()
	}
	return l, score.Ended{External: l.Outcome == coach.BrokenOff && rnd.IntN(2) == 0, NoCard: rnd.IntN(3) == 0}
}

// bounds are what a grade says of the score, and the verdicts that go with it.
var bounds = map[string]struct {
	from, below float64
	verdicts    []string
}{
	"":              {0, 1e-9, []string{coach.NotMeasured}},
	coach.Unable:    {0, 60, []string{coach.Missed}},
	coach.Fair:      {60, 80, []string{coach.Near, coach.Missed}},
	coach.Good:      {80, 95, []string{coach.Met}},
	coach.Excellent: {95, 101, []string{coach.Met}},
}

// Whatever the checks are, verdict, grade, score, posts and the one thing say the same.
func TestNothingContradicts(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	seen := map[string]int{}
	for range 5000 {
		l, ended := random(rnd)
		score.Leg(l, ended)
		score.Tell(l)
		seen[l.Grade+" "+l.Verdict]++
		b := bounds[l.Grade]
		if l.Score < b.from || l.Score >= b.below || !slices.Contains(b.verdicts, l.Verdict) {
			t.Fatalf("%s, %s, %g: %+v", l.Grade, l.Verdict, l.Score, l.Checks)
		}
		contradicts(t, l)
	}
	if len(seen) != 6 {
		t.Errorf("seen are %v; must be each pair of grade and verdict", seen)
	}
}

// contradicts holds what else is said of a leg against its verdict.
func contradicts(t *testing.T, l *coach.Leg) {
	t.Helper()
	missed, limit := false, false
	for i := range l.Checks {
		k := &l.Checks[i]
		missed = missed || k.Weight > 0 && k.Verdict == coach.Missed
		limit = limit || k.Weight > 0 && k.PastLimit
		if k.Verdict == coach.Met && k.Words != "" {
			t.Fatalf("a check that is met says %q", k.Words)
		}
	}
	struck := slices.ContainsFunc(l.Posts, func(p coach.Post) bool { return p.Verdict == coach.Missed })
	within := l.Verdict == coach.Met
	switch {
	case struck != missed:
		t.Fatalf("a check is missed %v, a post %v", missed, struck)
	case within && (missed || !l.Change.IsZero() || l.Outcome != coach.Finished):
		t.Fatalf("within standard: missed %v, %q, %s", missed, l.Change, l.Outcome)
	case l.Verdict == coach.Missed && !missed && l.Outcome == coach.Finished:
		t.Fatal("missed, and no check is")
	case limit && l.Verdict != coach.NotMeasured && l.Grade != coach.Unable:
		t.Fatalf("a limit was passed: %s", l.Grade)
	case score.LegHeadline(l).IsZero():
		t.Fatal("there is no headline")
	}
}

// A check that comes nearer to its aim never makes the score lower.
func TestMonotone(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	for range 1000 {
		l, ended := random(rnd)
		if len(l.Checks) == 0 || ended.External {
			continue
		}
		i := rnd.IntN(len(l.Checks))
		if l.Checks[i].Value == nil {
			continue
		}
		before := -1.0
		for far := 60.0; far >= 0; far -= 0.5 {
			l.Checks[i] = judged("any", far, l.Checks[i].Weight)
			score.Leg(l, ended)
			if l.Score < before {
				t.Fatalf("at %g of the aim the score is %g, and farther off it was %g", far, l.Score, before)
			}
			before = l.Score
		}
	}
}
