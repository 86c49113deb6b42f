// Package assess folds what people made of a session's grades into them: verdicts that an instructor overruled, with
// the scores that follow by the rule of package score; the form of a published test, element by element; and how the
// student found a leg, beside what was measured.
//
// The computed grades are never changed: everything here makes copies.
package assess

import (
	"slices"
	"time"

	"halfturn/coach"
	"halfturn/coach/cause"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/score"
	"halfturn/stream/phrase"
)

// Series returns the series of a session, in the order in which they were flown, as they stand once everything that was
// overruled is counted. What was computed stands beside each verdict that differs. Where nothing was overruled, it is
// the list itself.
func Series(list []coach.Series, j *logbook.Judging) []coach.Series {
	if len(j.Overruled) == 0 {
		return list
	}
	out := slices.Clone(list)
	leg := 0
	for i := range out {
		s := &out[i]
		before := leg
		leg += len(s.Legs)
		if slices.ContainsFunc(j.Overruled, func(o logbook.Overrule) bool {
			return o.Series == i+1 || o.Leg > before && o.Leg <= leg
		}) {
			judgeSeries(s, i+1, before, j)
		}
	}
	return out
}

// judgeSeries counts what was overruled in series n, whose first leg comes after a number of others.
func judgeSeries(s *coach.Series, n, before int, j *logbook.Judging) {
	s.Legs, s.Checks = slices.Clone(s.Legs), slices.Clone(s.Checks)
	for i := range s.Legs {
		judgeLeg(&s.Legs[i], before+i+1, s.Aircraft == "", j)
	}
	overruleChecks(s.Checks, j, func(o *logbook.Overrule) bool { return o.Series == n })
	s.Causes = cause.Left(s.Causes, s.Checks)
	score.AgainSeries(s)
	for i := range j.Overruled {
		if o := &j.Overruled[i]; o.Series == n && o.Check == "" {
			score.OverruleSeries(s, o.Verdict)
			s.Overruled, s.Headline = said(o), headline(o)
		}
	}
}

// judgeLeg counts what was overruled in leg n of the session.
func judgeLeg(l *coach.Leg, n int, noCard bool, j *logbook.Judging) {
	of := func(o *logbook.Overrule) bool { return o.Leg == n }
	if !slices.ContainsFunc(j.Overruled, func(o logbook.Overrule) bool { return of(&o) }) {
		return
	}
	l.Checks = slices.Clone(l.Checks)
	if overruleChecks(l.Checks, j, of) {
		left := cause.Left(l.Causes, l.Checks)
		if len(left) == 0 || len(l.Causes) > 0 && left[0].ID != l.Causes[0].ID {
			l.Change = phrase.Phrase{} // what it was about is not to be changed any more
		}
		l.Causes = left
		score.Again(l, noCard)
	}
	for i := range j.Overruled {
		if o := &j.Overruled[i]; of(o) && o.Check == "" {
			score.OverruleLeg(l, o.Verdict)
			l.Overruled, l.Headline = said(o), headline(o)
		}
	}
}

// overruleChecks overrules checks, and reports whether it did.
func overruleChecks(checks []coach.Check, j *logbook.Judging, of func(*logbook.Overrule) bool) (any bool) {
	for i := range j.Overruled {
		o := &j.Overruled[i]
		if o.Check == "" || !of(o) {
			continue
		}
		for k := range checks {
			if checks[k].ID == o.Check {
				score.Overrule(&checks[k], o.Verdict, o.Reason)
				checks[k].Overruled = said(o)
				any = true
			}
		}
	}
	return any
}

func said(o *logbook.Overrule) *coach.Overruled {
	return &coach.Overruled{By: o.By, At: o.At.UTC().Format(time.RFC3339), Reason: o.Reason, After: o.After}
}

// headline is that of a leg or series that was overruled as a whole: no check says what its verdict rests on.
func headline(o *logbook.Overrule) phrase.Phrase {
	if o.By == "" && o.Reason == "" {
		return phrase.OverruledNameless.Of()
	}
	return phrase.OverruledWhole.Of(phrase.Part("by", phrase.Plain(o.By)),
		phrase.Part("reason", phrase.Plain(o.Reason)))
}

// Report returns a report as it stands once everything that was overruled is counted, with its signatures. Where there
// is nothing of the kind, it is the report itself.
func Report(r *debrief.Report, j *logbook.Judging) *debrief.Report {
	if j.IsZero() {
		return r
	}
	out := *r
	for i := range j.Signed {
		s := &j.Signed[i]
		out.Signed = append(out.Signed, debrief.Signature{
			By:      s.By,
			At:      s.At.UTC().Format(time.RFC3339),
			Hash:    s.Hash,
			Holds:   s.Holds,
			After:   s.After,
			Removed: s.Removed,
		})
	}
	if len(j.Overruled) == 0 {
		return &out
	}
	var all []coach.Series
	for _, st := range logbook.Stations(r) {
		all = append(all, st.Series...)
	}
	judged := Series(all, j)
	out.Files = slices.Clone(r.Files)
	for i := range out.Files {
		stations := slices.Clone(out.Files[i].Stations)
		for k := range stations {
			n := len(stations[k].Series)
			stations[k].Series, judged = judged[:n:n], judged[n:]
			stations[k].Summary = debrief.Summarize(stations[k].Series)
		}
		out.Files[i].Stations = stations
	}
	return &out
}

// Transfer gives a leg the grade of another record of it, with all that follows from it.
func Transfer(to, from *coach.Leg) {
	to.Checks, to.Posts, to.Causes, to.Change = from.Checks, from.Posts, from.Causes, from.Change
	to.Verdict, to.Score, to.Grade, to.Headline, to.Judged = from.Verdict, from.Score, from.Grade, from.Headline,
		from.Judged
}

// Find says whether there is something to overrule or to rate: a leg by its number in the session, a series, a check of
// one of them by its id.
func Find(list []coach.Series, leg, series int, check string) bool {
	var checks []coach.Check
	switch {
	case leg > 0 && series == 0:
		for i := range list {
			if leg <= len(list[i].Legs) {
				checks = list[i].Legs[leg-1].Checks
				return check == "" || hasCheck(checks, check)
			}
			leg -= len(list[i].Legs)
		}
		return false
	case series > 0 && leg == 0 && series <= len(list):
		return check == "" || hasCheck(list[series-1].Checks, check)
	}
	return false
}

func hasCheck(checks []coach.Check, id string) bool {
	return slices.ContainsFunc(checks, func(k coach.Check) bool { return k.ID == id })
}
