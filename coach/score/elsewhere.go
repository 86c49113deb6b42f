package score

import (
	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

// Elsewhere takes the grade, all verdicts and the advice from a leg that was another maneuver than the one it was
// measured against. What was measured stays.
func Elsewhere(l *coach.Leg, flown coach.Another) {
	l.Another = &flown
	Stopped(l)
}

// Stopped takes the grade, all verdicts and the advice from a leg that a person stopped. What was measured stays.
func Stopped(l *coach.Leg) {
	l.Verdict, l.Score, l.Grade = coach.NotMeasured, 0, ""
	l.Change, l.Causes = phrase.Phrase{}, []coach.Cause{}
	for i := range l.Checks {
		unjudge(&l.Checks[i])
	}
}

// SeriesElsewhere does as Elsewhere with a series that holds such a leg, and reports whether it does: the other legs
// keep their grades. What is known of how many legs there are stays too.
func SeriesElsewhere(s *coach.Series) bool {
	if elsewhere(s) == nil {
		return false
	}
	s.Verdict, s.Score, s.Grade = coach.NotMeasured, 0, ""
	s.Change, s.Causes = phrase.Phrase{}, []coach.Cause{}
	for i := range s.Checks {
		if !counts(&s.Checks[i], check.Legs) {
			unjudge(&s.Checks[i])
		}
	}
	return true
}

func unjudge(k *coach.Check) {
	k.Verdict, k.Score, k.Words, k.PastLimit = coach.NotMeasured, 0, "", false
}
