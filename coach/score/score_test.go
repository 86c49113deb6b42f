package score_test

import (
	"math"
	"testing"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/score"
	"halfturn/stream/phrase"
)

func band(low, high float64) check.Band { return check.Band{Low: &low, High: &high} }

// Scores by hand from the rule of the package: full to half way to the edge of met, 85 there, 60 at the edge of near, 0
// as far again beyond it. The aim is 45, met within 5, near within 10.
func TestCheck(t *testing.T) {
	spec := &check.Spec{
		ID: "bank-45", Label: "Bank", Kind: "value", Channel: "bank", Turn: new(90.0), Aim: new(45.0), Weight: 2,
		MetBand: band(40, 50), NearBand: band(35, 55), High: "less bank", Low: "more bank",
	}
	for _, c := range []struct {
		value, score   float64
		verdict, words string
	}{
		{45, 100, coach.Met, ""},
		{47.5, 100, coach.Met, ""},
		{50, 85, coach.Met, ""},
		{40, 85, coach.Met, ""},
		{52.5, 72.5, coach.Near, "less bank"},
		{37.5, 72.5, coach.Near, "more bank"},
		{35, 60, coach.Near, "more bank"},
		{60, 0, coach.Missed, "less bank"},
		{20, 0, coach.Missed, "more bank"},
	} {
		r := score.Check(spec, check.Measure{OK: true, Value: c.value, At: 90.04}, &check.Facts{Nose: math.NaN()})
		if r.Verdict != c.verdict || math.Abs(r.Score-c.score) > 0.05 || r.Words != c.words {
			t.Errorf("%g° reads %s, %g, %q; by hand %s, %g, %q",
				c.value, r.Verdict, r.Score, r.Words, c.verdict, c.score, c.words)
		}
		if r.At == nil || *r.At != 90 || *r.Met[0] != 40 || *r.Near[1] != 55 || *r.Aim != 45 {
			t.Errorf("the record is %+v", r)
		}
	}
	r := score.Check(spec, check.Measure{At: math.NaN(), Reason: phrase.Read("no bank in the stream")},
		&check.Facts{Nose: math.NaN()})
	if r.Verdict != coach.NotMeasured || r.Value != nil || r.At != nil || r.Reason.IsZero() || r.Score != 0 {
		t.Errorf("what was not measured reads %+v", r)
	}
}

func graded(verdict string, weight, points float64) coach.Check {
	k := coach.Check{Verdict: verdict, Weight: weight, Score: points}
	if verdict == coach.Near || verdict == coach.Missed {
		k.Words = verdict + " words"
	}
	return k
}

// The mean by weight; missed when one is, near when more than a quarter of the weight is.
func TestSum(t *testing.T) {
	for _, c := range []struct {
		name    string
		checks  []coach.Check
		verdict string
		score   float64
		words   string
	}{
		{"nothing", nil, coach.NotMeasured, 0, ""},
		{"not measured", []coach.Check{graded(coach.NotMeasured, 1, 0)}, coach.NotMeasured, 0, ""},
		{"without weight", []coach.Check{graded(coach.Missed, 0, 0)}, coach.NotMeasured, 0, ""},
		{"by weight", []coach.Check{graded(coach.Met, 3, 100), graded(coach.Met, 1, 88)}, coach.Met, 97, ""},
		{"a quarter near", []coach.Check{graded(coach.Met, 3, 100), graded(coach.Near, 1, 60)}, coach.Met, 90,
			"near words"},
		{"more near", []coach.Check{graded(coach.Met, 2, 100), graded(coach.Near, 1, 70)}, coach.Near, 90,
			"near words"},
		{"one missed", []coach.Check{graded(coach.Met, 9, 100), graded(coach.Missed, 1, 0)}, coach.Missed, 90,
			"missed words"},
		{"what costs most", []coach.Check{graded(coach.Near, 9, 70), graded(coach.Missed, 1, 0)}, coach.Missed, 63,
			"near words"},
	} {
		verdict, points := score.Sum(c.checks)
		if words := score.Worst(c.checks); verdict != c.verdict || points != c.score || words != c.words {
			t.Errorf("%s: %s, %g, %q; by hand %s, %g, %q", c.name, verdict, points, words, c.verdict, c.score, c.words)
		}
	}
}

// The grades as the package and CNATRAINST 1542.157 have them.
func TestGrade(t *testing.T) {
	leg := func(outcome, verdict string, points float64, said int, checks ...coach.Check) *coach.Leg {
		return &coach.Leg{Outcome: outcome, Verdict: verdict, Score: points, Said: said, Checks: checks}
	}
	for _, c := range []struct {
		name string
		leg  *coach.Leg
		want string
	}{
		{"not measured", leg(coach.BrokenOff, coach.NotMeasured, 0, 0), ""},
		{"given up", leg(coach.BrokenOff, coach.Missed, 99, 0), coach.Unable},
		{"stopped", leg(coach.KnockOff, coach.Missed, 99, 0), coach.Unable},
		{"far off", leg(coach.Finished, coach.Missed, 59.9, 0), coach.Unable},
		{"a check missed", leg(coach.Finished, coach.Missed, 94, 0), coach.Fair},
		{"within standard", leg(coach.Finished, coach.Met, 94.9, 0), coach.Good},
		{"corrected on the way", leg(coach.Finished, coach.Met, 99, 1), coach.Good},
		{"near a limit", leg(coach.Finished, coach.Met, 99, 0, graded(coach.Near, 1, 80)), coach.Good},
		{"near a limit without weight", leg(coach.Finished, coach.Met, 99, 0, graded(coach.Near, 0, 80)),
			coach.Excellent},
		{"nothing to say", leg(coach.Finished, coach.Met, 95, 0), coach.Excellent},
	} {
		if got := score.Grade(c.leg); got != c.want {
			t.Errorf("%s: %q, not %q", c.name, got, c.want)
		}
	}
}
