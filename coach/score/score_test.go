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
// as far again beyond it, all counted from half a degree outside met. The aim is 45, met within 5, near within 10.
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
		{50.5, 85, coach.Met, ""}, // half a degree is not seen
		{39.5, 85, coach.Met, ""},
		{53, 72.5, coach.Near, "less bank"},
		{37, 72.5, coach.Near, "more bank"},
		{34.5, 60, coach.Near, "more bank"},
		{60.5, 0, coach.Missed, "less bank"},
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

// Nothing is wrong within the uncertainty of the measurement: 158.01 kt against 158 is no correction, and one sample a
// second that may be 4 kt off takes nothing away. An edge that is a limit is not moved.
func TestUncertainty(t *testing.T) {
	for _, c := range []struct {
		name         string
		value, off   float64
		limit        string
		verdict      string
		silent, past bool
	}{
		{"a hundredth", 158.01, 0, "", coach.Met, true, false},
		{"half a knot", 158.5, 0, "", coach.Met, true, false},
		{"a knot", 159, 0, "", coach.Near, false, false},
		{"slow samples", 161.9, 4, "", coach.Met, true, false},
		{"slow samples, farther", 165, 4, "", coach.Near, false, false},
		{"far", 170, 4, "", coach.Missed, false, false},
		{"a limit", 158.01, 4, check.LimitHigh, coach.Near, false, false},
		{"past a limit", 163.01, 4, check.LimitHigh, coach.Missed, false, true},
		{"a limit at the other end", 158.01, 0, check.LimitLow, coach.Met, true, false},
		{"low", 137.99, 0, "", coach.Met, true, false},
	} {
		spec := &check.Spec{
			ID: "speed", Kind: "value", Channel: "airspeed", Turn: new(90.0), Aim: new(148.0), Weight: 1,
			Limit: c.limit, MetBand: band(138, 158), NearBand: band(133, 163), High: "slower", Low: "faster",
		}
		m := check.Measure{OK: true, Value: c.value, Off: c.off, At: 90}
		k := score.Check(spec, m, &check.Facts{Nose: math.NaN()})
		if k.Unit != "kt" || k.Verdict != c.verdict || (k.Words == "") != c.silent || k.PastLimit != c.past {
			t.Errorf("%s: %g ± %g %s reads %s, %q, past a limit %v; must be %s",
				c.name, c.value, c.off, k.Unit, k.Verdict, k.Words, k.PastLimit, c.verdict)
		}
	}
}
