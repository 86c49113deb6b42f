package score

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
)

// Check grades one measure by a check of the card.
func Check(spec *check.Spec, m check.Measure, f *check.Facts) coach.Check {
	r := coach.Check{
		ID:      spec.ID,
		Label:   spec.Label,
		Kind:    spec.Kind,
		Channel: spec.Channel,
		Turn:    spec.Turn,
		Unit:    kinds.Unit(spec),
		Weight:  spec.Weight,
		Verdict: coach.NotMeasured,
	}
	bands, reason := check.Resolve(spec, f)
	if reason.IsZero() {
		r.Aim = rounded(bands.Aim)
		r.Met = [2]*float64{rounded(bands.Met.Low), rounded(bands.Met.High)}
		r.Near = [2]*float64{rounded(bands.Near.Low), rounded(bands.Near.High)}
	}
	switch {
	case !m.OK:
		r.Reason = m.Reason
		return r
	case !reason.IsZero():
		r.Value, r.Reason = new(coach.Round(m.Value, 3)), reason
		return r
	}
	r.Value, r.Note = new(coach.Round(m.Value, 3)), m.Note
	if !math.IsNaN(m.At) {
		r.At = new(coach.Round(m.At, 1))
	}
	verdict, score := bands.Grade(m.Value)
	r.Verdict, r.Score = verdict, coach.Round(score, 1)
	if verdict != coach.Met {
		r.Words = spec.Low
		if bands.High(m.Value) {
			r.Words = spec.High
		}
	}
	return r
}

// Sum returns the verdict and the score of a list of checks.
func Sum(checks []coach.Check) (verdict string, score float64) {
	var weight, near float64
	verdict = coach.Met
	for i := range checks {
		k := &checks[i]
		if k.Verdict == coach.NotMeasured || k.Weight == 0 {
			continue
		}
		weight += k.Weight
		score += k.Weight * k.Score
		switch k.Verdict {
		case coach.Missed:
			verdict = coach.Missed
		case coach.Near:
			near += k.Weight
		}
	}
	if weight == 0 {
		return coach.NotMeasured, 0
	}
	if verdict == coach.Met && near > weight/4 {
		verdict = coach.Near
	}
	return verdict, coach.Round(score/weight, 1)
}

// Worst returns the correction of the check that cost most; "" when nothing is to be corrected.
func Worst(checks []coach.Check) string {
	most, words := 0.0, ""
	for i := range checks {
		k := &checks[i]
		if cost := k.Weight * (100 - k.Score); k.Words != "" && k.Verdict != coach.NotMeasured && cost > most {
			most, words = cost, k.Words
		}
	}
	return words
}

func rounded(x *float64) *float64 {
	if x == nil {
		return nil
	}
	return new(coach.Round(*x, 2))
}
