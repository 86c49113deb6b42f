package leg

import (
	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/coach/maneuver"
	"halfturn/coach/sampling"
	"halfturn/coach/score"
	"halfturn/stream/phrase"
)

// measures are the checks of the card over a leg.
type measures struct {
	judges   []check.Judge // by check of the card; nil for those of a series
	after    []check.Judge // those that look at the recovery after the exit
	count    int           // of those of a leg
	sampling sampling.Sampling
}

func (m *measures) begin(card *maneuver.Card, facts *check.Facts) {
	m.judges = make([]check.Judge, len(card.Checks))
	for i := range card.Checks {
		if m.judges[i] = kinds.NewJudge(&card.Checks[i], facts); m.judges[i] != nil {
			m.count++
		}
		if kinds.Of(&card.Checks[i]).Looks == check.AfterExit {
			m.after = append(m.after, m.judges[i])
		}
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

// recover takes the next moment of the recovery after the exit.
func (m *measures) recover(cur *check.Moment) {
	for _, judge := range m.after {
		judge.Step(cur)
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

// Grade makes the record of the leg. number is its place in its series, said the number of corrections given in it.
func (l *Leg) Grade(number, said int, e End) *coach.Leg {
	done := &coach.Leg{
		Number:    number,
		Direction: coach.Direction(l.Side),
		Outcome:   e.Outcome,
		Reason:    e.Reason,
		Limit:     e.Limit,
		Start:     coach.Round(l.Start, 3),
		End:       coach.Round(l.Cur.Time(), 3),
		Entry:     l.course.pointOf(&l.Facts.Entry),
		Points:    l.passage.points(l.course),
		Checks:    make([]coach.Check, 0, l.measures.count),
		Causes:    []coach.Cause{},
		Said:      said,
		Trace:     l.course.drawing.trace(l.drawn),
	}
	if e.Exit != nil {
		done.Exit = new(l.course.pointOf(e.Exit))
		done.End = coach.Round(e.Exit.Time(), 3)
	}
	if e.External { // what the leg might still have become is not the pilot's
		l.measures.sampling.Cut(l.Cur.Turn)
	}
	ended := l.Farthest
	if e.Exit != nil {
		ended = e.Exit.Turn
	}
	l.Facts.Meant.Bank, l.Facts.Meant.Turn = l.plan.MeantBy(l.Attitudes(), ended, l.next)
	done.About = l.about()
	l.offs(done)
	turns := l.plan.Card.Turns()
	for i, judge := range l.measures.judges {
		if judge != nil {
			k := l.gradeCheck(i, e)
			k.Post = score.PostOf(&l.plan.Card.Checks[i], &k, turns)
			done.Checks = append(done.Checks, k)
		}
	}
	score.Leg(done, score.Ended{External: e.External, NoCard: !l.Facts.Known})
	return done
}

// exitHeading is the check that a leg not flown to its end fails by the turn it did reach.
const exitHeading = "exit-heading"

// gradeCheck grades the i-th check of the card at the end of the leg.
func (l *Leg) gradeCheck(i int, e End) coach.Check {
	spec := &l.plan.Card.Checks[i]
	if spec.ID == exitHeading && e.Exit == nil && !e.External {
		r := score.Check(spec, check.Measure{OK: true, Value: l.Farthest, At: l.Farthest}, &l.Facts)
		if r.Verdict == coach.Met { // far enough, and yet no exit
			none := check.None(phrase.NotLevel.Of())
			r = score.Check(spec, none, &l.Facts)
		}
		return r
	}
	exit := e.Exit
	if kinds.Of(spec).Looks == check.AtPlace {
		exit = e.Level
	}
	m := l.measures.measure(i, spec, exit)
	m.Off = l.measures.sampling.Off(i, &m)
	r := score.Check(spec, m, &l.Facts)
	l.measures.sampling.Doubt(i, &r)
	return r
}

// SoFar grades the i-th check of the card, which must be one of a leg, by what was seen so far.
func (l *Leg) SoFar(i int) coach.Check {
	spec := &l.plan.Card.Checks[i]
	return score.Check(spec, l.measures.measure(i, spec, nil), &l.Facts)
}
