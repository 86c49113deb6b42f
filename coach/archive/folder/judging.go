package folder

import (
	"cmp"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"halfturn/coach"
	"halfturn/coach/assess"
	"halfturn/coach/logbook"
	"halfturn/coach/names"
	"halfturn/coach/score"
	"halfturn/coach/sign"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
)

// MaxActs bounds the acts of a session.
const MaxActs = 5000

// MaxReason is how many letters a reason may have.
const MaxReason = 500

// Judging returns what people made of the grades of the session in a folder. A folder that is no session has nothing.
func Judging(dir string) (logbook.Judging, error) {
	n, err := ReadNotes(dir)
	if err != nil || n == nil {
		return logbook.NewJudging(), err
	}
	acts, err := ReadActs(dir, n)
	if err != nil {
		return logbook.NewJudging(), err
	}
	j := logbook.Fold(logbook.Student{}, acts).Judging
	return j, Verify(dir, j.Signed)
}

// Overrule adds that a verdict is overruled, or with an empty verdict that it is not any more. The series are those of
// the first grading. The error is a [*logbook.Refused] when the session does not take it.
func (f *Edit) Overrule(by who.Who, o *logbook.Overrule, flown []coach.Series, at time.Time) error {
	reason, err := names.Words(o.Reason)
	author, wrong := names.Person(o.By)
	if err = cmp.Or(err, wrong); err != nil {
		return &logbook.Refused{Words: err.Error()}
	}
	switch n := utf8.RuneCountInString(reason); {
	case o.Verdict != "" && !slices.Contains(score.Verdicts(), o.Verdict):
		return logbook.Refuse(phrase.JudgingVerdict.Of(phrase.Name("verdict", o.Verdict)))
	case n == 0 && o.Verdict != "":
		return logbook.Refuse(phrase.JudgingNoReason.Of())
	case n > MaxReason:
		return logbook.Refuse(phrase.JudgingTooLong.Of(phrase.Int("letters", n), phrase.Int("most", MaxReason)))
	case !assess.Find(flown, o.Leg, o.Series, o.Check):
		return logbook.Refuse(f.nothingThere(o, flown))
	}
	act := f.NewAct(logbook.ActOverrule, by, at)
	act.Author = author
	act.Verdict, act.Words = o.Verdict, strings.Join(strings.Fields(reason), " ")
	act.About.Series, act.About.Check = o.Series, o.Check
	f.aboutLeg(&act, o.Leg)
	return f.judge(act)
}

// nothingThere says what of an overruling is not in the session.
func (f *Edit) nothingThere(o *logbook.Overrule, flown []coach.Series) phrase.Phrase {
	switch {
	case (o.Leg > 0) == (o.Series > 0):
		return phrase.JudgingWhat.Of()
	case !assess.Find(flown, o.Leg, o.Series, "") && o.Leg > 0:
		return phrase.JudgingNoLeg.Of(phrase.Name("session", f.ID), phrase.Int("leg", o.Leg))
	case !assess.Find(flown, o.Leg, o.Series, ""):
		return phrase.JudgingNoSeries.Of(phrase.Name("session", f.ID), phrase.Int("series", o.Series))
	case o.Leg > 0:
		return phrase.JudgingNoCheck.Of(phrase.Int("leg", o.Leg), phrase.Name("session", f.ID),
			phrase.Name("check", o.Check))
	}
	return phrase.JudgingNoInSeries.Of(phrase.Int("series", o.Series), phrase.Name("session", f.ID),
		phrase.Name("check", o.Check))
}

// Observe adds a mark for an element of a published test, or with an empty one that it is as the checks say. Whether
// there is such an element the caller knows, who has the cards.
func (f *Edit) Observe(by who.Who, o *logbook.Observation, at time.Time) error {
	marks := []string{logbook.Satisfactory, logbook.Unsatisfactory, logbook.NotObserved, ""}
	if !slices.Contains(marks, o.Mark) {
		return logbook.Refuse(phrase.JudgingMark.Of(phrase.Name("mark", o.Mark)))
	}
	author, err := names.Person(o.By)
	if err != nil {
		return &logbook.Refused{Words: err.Error()}
	}
	act := f.NewAct(logbook.ActObserve, by, at)
	act.Author = author
	act.Observed, act.About.Series, act.About.Element = o.Mark, o.Series, o.Element
	return f.judge(act)
}

// Rate adds how the student found a leg, or with an empty grade that this is taken back.
func (f *Edit) Rate(by who.Who, r *logbook.Rating, flown []coach.Series, at time.Time) error {
	switch {
	case r.Grade != "" && !slices.Contains(logbook.Grades(), r.Grade):
		return logbook.Refuse(phrase.JudgingGrade.Of(phrase.Name("grade", r.Grade)))
	case r.Thing != "" && !slices.Contains(assess.Aspects(), r.Thing):
		return logbook.Refuse(phrase.JudgingThing.Of(phrase.Name("thing", r.Thing)))
	case !assess.Find(flown, r.Leg, 0, ""):
		return logbook.Refuse(phrase.JudgingNoLeg.Of(phrase.Name("session", f.ID), phrase.Int("leg", r.Leg)))
	}
	act := f.NewAct(logbook.ActRate, by, at)
	act.Grade, act.Thing = r.Grade, r.Thing
	f.aboutLeg(&act, r.Leg)
	return f.judge(act)
}

// Rule adds what a person says of a step of a course, or with an empty verdict that this is taken back. Whether there
// is such a step the caller knows, who has the courses.
func (f *Edit) Rule(by who.Who, r *logbook.Ruling, at time.Time) error {
	reason, err := names.Words(r.Reason)
	author, wrong := names.Person(r.By)
	if err = cmp.Or(err, wrong); err != nil {
		return &logbook.Refused{Words: err.Error()}
	}
	switch n := utf8.RuneCountInString(reason); {
	case !slices.Contains([]string{logbook.StepPassed, logbook.StepNotYet, ""}, r.Verdict):
		return logbook.Refuse(phrase.CourseVerdict.Of(phrase.Name("verdict", r.Verdict)))
	case n == 0 && r.Verdict != "":
		return logbook.Refuse(phrase.CourseNoReason.Of())
	case n > MaxReason:
		return logbook.Refuse(phrase.JudgingTooLong.Of(phrase.Int("letters", n), phrase.Int("most", MaxReason)))
	}
	act := f.NewAct(logbook.ActRule, by, at)
	act.Author = author
	act.Verdict, act.Words = r.Verdict, strings.Join(strings.Fields(reason), " ")
	act.About.Course, act.About.Step = &r.Course, r.Step
	f.aboutLeg(&act, r.Legs)
	return f.judge(act)
}

// Sign adds a signature under the grades and all acts there are. known are names that may stand in words. A session
// that is not over, and one to which nothing was added since it was signed, are refused.
func (f *Edit) Sign(by who.Who, name string, known []string, at time.Time) error {
	name, err := names.Person(name)
	if err != nil {
		return &logbook.Refused{Words: err.Error()}
	}
	signed := f.Standing().Judging.Signed
	switch n := len(signed); {
	case name == "":
		return logbook.Refuse(phrase.SignNameless.Of())
	case f.Notes.Ended.IsZero():
		return logbook.Refuse(phrase.SignUnfinished.Of(phrase.Name("session", f.ID)))
	case n > 0 && signed[n-1].After == 0:
		return logbook.Refuse(phrase.SignTwice.Of(phrase.Name("session", f.ID), phrase.Name("by", signed[n-1].By)))
	}
	all, err := Signable(f.Dir)
	if err != nil {
		return err
	}
	if all.Grades == nil {
		return logbook.Refuse(phrase.SignNoGrades.Of(phrase.Name("session", f.ID)))
	}
	act := f.NewAct(logbook.ActSign, by, at.UTC().Truncate(time.Second))
	all.Session, all.Student = f.Notes.Key, f.Notes.Student
	if act.Signature, err = sign.New(all, name, known, act.At); err != nil {
		return err
	}
	return f.judge(act)
}

func (f *Edit) aboutLeg(a *logbook.Act, leg int) {
	if leg > 0 {
		a.About.Number, a.About.Leg = leg, logbook.LegID(f.Notes.Began, f.Notes.Key, leg)
	}
}

// judge adds an act, unless there are too many.
func (f *Edit) judge(a logbook.Act) error {
	if n := len(f.Acts) + len(f.Added); n >= MaxActs {
		return logbook.Refuse(phrase.JudgingFull.Of(phrase.Name("session", f.ID), phrase.Int("acts", n)))
	}
	f.Add(a)
	return nil
}
