package score

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
)

// Check grades one measure by a check of the card. Its checkpoint is left empty; see [PostOf].
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
	value, high := m.Value, bands.High(m.Value)
	if !spec.IsLimit(high) { // a limit is a limit
		value = bands.Benefit(value, m.Off+check.Rounding(r.Unit))
	}
	verdict, score := bands.Grade(value)
	r.Verdict, r.Score = verdict, coach.Round(score, 1)
	if verdict != coach.Met {
		r.Words = spec.Low
		if high {
			r.Words = spec.High
		}
		r.PastLimit = verdict == coach.Missed && spec.IsLimit(high)
	}
	return r
}

func rounded(x *float64) *float64 {
	if x == nil {
		return nil
	}
	return new(coach.Round(*x, 2))
}
