package judge

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/coach/maneuver"
	"halfturn/coach/sampling"
	"halfturn/coach/score"
)

// measures are the checks of the card over a leg.
type measures struct {
	judges   []check.Judge // by check of the card; nil for those of a series
	sampling sampling.Sampling
}

func (m *measures) begin(card *maneuver.Card, facts *check.Facts) {
	m.judges = make([]check.Judge, len(card.Checks))
	for i := range card.Checks {
		m.judges[i] = kinds.NewJudge(&card.Checks[i], facts)
	}
	m.sampling.Begin(card, facts)
}

// step takes the next moment of the leg and the one before.
func (m *measures) step(prev, cur *check.Moment) {
	m.sampling.Add(prev, cur)
	for _, judge := range m.judges {
		if judge != nil {
			judge.Step(cur)
		}
	}
}

// measure returns what the i-th check of the card measured, unless the stream has a hole where it would have to look.
// exit is nil while there is none.
func (m *measures) measure(i int, spec *check.Spec, exit *check.Moment) check.Measure {
	if none, hidden := m.sampling.Hidden(spec, exit); hidden {
		return none
	}
	return m.judges[i].Measure(exit)
}

// gradeLeg makes the record of a leg.
func (j *Judge) gradeLeg(l *leg, outcome, reason string, exit *check.Moment) *coach.Leg {
	done := &coach.Leg{
		Number:    j.legNumber(),
		Direction: coach.Direction(l.side),
		Outcome:   outcome,
		Reason:    reason,
		Start:     coach.Round(l.start, 3),
		End:       coach.Round(l.cur.Time(), 3),
		Entry:     pointOf(&l.facts.Entry),
		Points:    l.passage.points,
		Checks:    []coach.Check{},
		Causes:    []coach.Cause{},
		Said:      l.talk.said,
		Trace:     l.drawing.trace,
	}
	if exit != nil {
		done.Exit = new(pointOf(exit))
		done.End = coach.Round(exit.Time(), 3)
	}
	external := l.ending.external
	if external { // what the leg might still have become is not the pilot's
		l.measures.sampling.Cut(l.cur.Turn)
	}
	card := j.opt.Plan.Card
	for i := range card.Checks {
		if l.measures.judges[i] != nil {
			done.Checks = append(done.Checks, l.gradeCheck(i, &card.Checks[i], outcome, exit))
		}
	}
	done.Verdict, done.Score = score.Sum(done.Checks)
	if outcome != coach.Finished && !external {
		done.Verdict = coach.Missed
	} else if outcome != coach.Finished {
		done.Verdict = coach.NotMeasured
	}
	done.Grade = score.Grade(done)
	done.Change = score.Worst(done.Checks)
	if j.opt.Explain != nil && !external {
		j.opt.Explain.ExplainLeg(j.opt.Plan, done)
	}
	return done
}

// exitHeading is the check that a leg not flown to its end fails by the turn it did reach.
const exitHeading = "exit-heading"

// gradeCheck grades the i-th check of the card.
func (l *leg) gradeCheck(i int, spec *check.Spec, outcome string, exit *check.Moment) coach.Check {
	if spec.ID == exitHeading && outcome != coach.Finished && !l.ending.external {
		r := score.Check(spec, check.Measure{OK: true, Value: l.farthest, At: l.farthest}, &l.facts)
		if r.Verdict == coach.Met { // far enough, and yet no exit
			none := check.Measure{At: math.NaN(), Reason: "stopped before the wings were level"}
			r = score.Check(spec, none, &l.facts)
		}
		return r
	}
	r := score.Check(spec, l.measures.measure(i, spec, exit), &l.facts)
	l.measures.sampling.Doubt(i, &r)
	return r
}
