package coach

import (
	"math"

	"halfturn/coach/check"
	"halfturn/coach/kinds"
)

// gradeLeg makes the record of a leg.
func (c *Coach) gradeLeg(l *leg, outcome, reason string, exit *check.Moment) *Leg {
	card := c.plan.Card
	done := &Leg{Number: c.legNumber(), Direction: direction(l.side), Outcome: outcome, Reason: reason,
		Start: round(l.start, 3), End: round(l.cur.Time(), 3), Entry: pointOf(&l.facts.Entry),
		Points: l.points, Causes: []Cause{}, Trace: l.trace, Checks: []Check{}}
	if exit != nil {
		p := pointOf(exit)
		done.Exit, done.End = &p, round(exit.Time(), 3)
	}
	if l.external { // what it might still have become is not the pilot's
		l.holes.cut(l.cur.Turn)
	}
	for i := range card.Checks {
		if l.judges[i] == nil {
			continue
		}
		m := l.measure(i, &card.Checks[i], exit)
		stopped := card.Checks[i].ID == exitHeading && outcome != Finished && !l.external
		if stopped {
			m = check.Measure{OK: true, Value: l.farthest, At: l.farthest}
		}
		r := record(&card.Checks[i], m, &l.facts)
		if stopped && r.Verdict == Met { // far enough, and yet no exit
			r = record(&card.Checks[i], check.Measure{At: math.NaN(), Reason: "stopped before the wings were level"}, &l.facts)
		}
		if !stopped {
			l.fine.doubt(i, &r)
		}
		done.Checks = append(done.Checks, r)
	}
	done.Verdict, done.Score = sum(done.Checks)
	if outcome != Finished && !l.external {
		done.Verdict = Missed
	} else if outcome != Finished {
		done.Verdict = NotMeasured
	}
	done.Said = l.said
	done.Grade = gradeOf(done)
	done.Change = worst(done.Checks)
	if c.why != nil && !l.external {
		c.why.ExplainLeg(c.plan, done)
	}
	return done
}

// exitHeading is the check that a leg not flown to its end fails by the turn it did reach.
const exitHeading = "exit-heading"

// record grades one measure.
func record(spec *check.Spec, m check.Measure, f *check.Facts) Check {
	r := Check{ID: spec.ID, Label: spec.Label, Kind: spec.Kind, Channel: spec.Channel, Turn: spec.Turn,
		Unit: kinds.Unit(spec), Weight: spec.Weight, Verdict: NotMeasured}
	bands, reason := check.Resolve(spec, f)
	if reason == "" {
		r.Aim = rounded(bands.Aim)
		r.Met = [2]*float64{rounded(bands.Met.Low), rounded(bands.Met.High)}
		r.Near = [2]*float64{rounded(bands.Near.Low), rounded(bands.Near.High)}
	}
	switch {
	case !m.OK:
		r.Reason = m.Reason
		return r
	case reason != "":
		r.Value, r.Reason = ptr(round(m.Value, 3)), reason
		return r
	}
	r.Value, r.Note = ptr(round(m.Value, 3)), m.Note
	if !math.IsNaN(m.At) {
		r.At = ptr(round(m.At, 1))
	}
	verdict, score := bands.Grade(m.Value)
	r.Verdict, r.Score = verdict, round(score, 1)
	if verdict != Met {
		r.Words = spec.Low
		if bands.High(m.Value) {
			r.Words = spec.High
		}
	}
	return r
}

// sum gives the verdict and the score of a list of checks. The score is the mean of the
// measured ones by weight. The verdict is missed when one with a weight was missed, met when
// none was and those that are only near carry at most a quarter of the weight, else near.
func sum(checks []Check) (verdict string, score float64) {
	var weight, near float64
	verdict = Met
	for i := range checks {
		k := &checks[i]
		if k.Verdict == NotMeasured || k.Weight == 0 {
			continue
		}
		weight += k.Weight
		score += k.Weight * k.Score
		switch k.Verdict {
		case Missed:
			verdict = Missed
		case Near:
			near += k.Weight
		}
	}
	if weight == 0 {
		return NotMeasured, 0
	}
	if verdict == Met && near > weight/4 {
		verdict = Near
	}
	return verdict, round(score/weight, 1)
}

// worst gives the correction of the check that cost most.
func worst(checks []Check) string {
	most, words := 0.0, ""
	for i := range checks {
		k := &checks[i]
		if cost := k.Weight * (100 - k.Score); k.Words != "" && k.Verdict != NotMeasured && cost > most {
			most, words = cost, k.Words
		}
	}
	return words
}

func rounded(x *float64) *float64 {
	if x == nil {
		return nil
	}
	return ptr(round(*x, 2))
}

// Where the grades begin.
const (
	fairScore      = 60.0
	excellentScore = 95.0
)

// gradeOf puts a leg on the scale: unable when it was stopped, given up, or far off; fair when a
// check was missed; good within standard; excellent when nothing is even near a limit, rough,
// or had to be corrected on the way. Meeting the tolerances is not enough for that.
func gradeOf(l *Leg) string {
	switch {
	case l.Verdict == NotMeasured:
		return ""
	case l.Outcome != Finished || l.Score < fairScore:
		return Unable
	case l.Verdict == Missed:
		return Fair
	case l.Score < excellentScore || l.Said > 0:
		return Good
	}
	for i := range l.Checks {
		if k := &l.Checks[i]; k.Verdict == Near && k.Weight > 0 {
			return Good
		}
	}
	return Excellent
}

// lowest is the grade of a series: that of its lowest leg, fair at most when what only the legs together show was
// missed, and good at most when legs are missing; "" when it was not judged.
func lowest(s *Series) string {
	rank := map[string]int{Unable: 1, Fair: 2, Good: 3, Excellent: 4}
	grade := ""
	take := func(g string) {
		if rank[g] > 0 && (grade == "" || rank[g] < rank[grade]) {
			grade = g
		}
	}
	for i := range s.Legs {
		take(s.Legs[i].Grade)
	}
	switch {
	case grade == "":
	case s.Verdict == NotMeasured:
		return ""
	case s.Verdict == Missed:
		take(Fair)
	case s.Missing != "":
		take(Good)
	}
	return grade
}
