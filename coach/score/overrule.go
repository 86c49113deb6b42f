package score

import (
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/stream/phrase"
)

// Bounds of the score of a check by its verdict: the edges of the bands.
const (
	metEdge  = 85.0
	nearEdge = 60.0
)

// Overrule gives a check a verdict in the place of the computed one. Its score becomes the one nearest to what was
// computed that this verdict can have: from 85 for met, 60 to 85 for near, up to 60 for missed. Where nothing was
// measured, it is the edge of the band. A check that is not met any more and has no correction gets the words.
func Overrule(k *coach.Check, verdict, words string) {
	measured := k.Verdict != coach.NotMeasured
	k.Computed = &coach.Computed{Verdict: k.Verdict, Score: k.Score}
	k.Verdict = verdict
	if !measured {
		k.Score = nearEdge
	}
	switch verdict {
	case coach.Met:
		k.Score, k.Words, k.PastLimit = math.Max(k.Score, metEdge), "", false
	case coach.Near:
		k.Score, k.PastLimit = math.Min(math.Max(k.Score, nearEdge), metEdge), false
	case coach.Missed:
		k.Score = math.Min(k.Score, nearEdge)
	default:
		k.Score, k.Words, k.PastLimit = 0, "", false
	}
	if k.Words == "" && (verdict == coach.Near || verdict == coach.Missed) {
		k.Words = words
	}
}

// Again works out the verdict, the score, the grade and what is said of a leg from its checks once some of them were
// overruled. What ended the leg is known from its computed verdict. A leg that was another maneuver stays without a
// grade.
func Again(l *coach.Leg, noCard bool) {
	if l.Another != nil {
		return
	}
	was, change := computedOf(l.Verdict, l.Score, l.Grade), l.Change
	external := l.Outcome != coach.Finished && l.Verdict == coach.NotMeasured
	posts := len(l.Posts) > 0
	Leg(l, Ended{External: external, NoCard: noCard})
	if l.Headline = LegHeadline(l); posts {
		l.Posts = Posts(l.Checks)
	}
	if !change.IsZero() && !l.Change.IsZero() {
		l.Change = change // a cause says it better than a check
	}
	l.Computed = differing(was, l.Verdict, l.Score, l.Grade)
}

// OverruleLeg gives a leg a verdict in the place of the computed one. Its score becomes the one nearest to what the
// checks come to that this verdict can have.
func OverruleLeg(l *coach.Leg, verdict string) {
	was := l.Computed
	if was == nil {
		was = computedOf(l.Verdict, l.Score, l.Grade)
	}
	l.Verdict, l.Score, l.Grade = given(verdict, l.Verdict, l.Score)
	l.Computed = was
	if l.Verdict == coach.Met || l.Verdict == coach.NotMeasured {
		l.Change = phrase.Phrase{}
	} else if l.Change.IsZero() {
		l.Change = phrase.Plain(Worst(l.Checks))
	}
}

// AgainSeries does with a series what [Again] does with a leg. A series that something other than the pilot cut short
// is known from its computed verdict.
func AgainSeries(s *coach.Series) {
	if elsewhere(s) != nil {
		return
	}
	was := computedOf(s.Verdict, s.Score, s.Grade)
	cut := !s.Missing.IsZero() && s.Verdict == coach.NotMeasured
	judgeSeries(s, cut)
	s.Headline = SeriesHeadline(s)
	s.Change = seriesChange(s)
	s.Computed = differing(was, s.Verdict, s.Score, s.Grade)
}

// OverruleSeries does with a series what [OverruleLeg] does with a leg.
func OverruleSeries(s *coach.Series, verdict string) {
	was := s.Computed
	if was == nil {
		was = computedOf(s.Verdict, s.Score, s.Grade)
	}
	s.Verdict, s.Score, s.Grade = given(verdict, s.Verdict, s.Score)
	s.Computed = was
	s.Change = seriesChange(s)
}

// seriesChange is the one thing to change once legs or checks were overruled: what stands there while the series is
// still not met, else nothing; where nothing stands there, that of its lowest leg.
func seriesChange(s *coach.Series) phrase.Phrase {
	switch lowest := lowestLeg(s); {
	case s.Verdict == coach.Met || s.Verdict == coach.NotMeasured:
		return phrase.Phrase{}
	case s.Change.IsZero() && lowest != nil:
		return lowest.Change
	}
	return s.Change
}

// given returns a verdict that a person gave, with the score nearest to another that it can have, and its grade.
func given(verdict, was string, score float64) (v string, points float64, grade string) {
	switch {
	case verdict == coach.NotMeasured:
		return verdict, 0, ""
	case was == coach.NotMeasured:
		score = goodFrom
	}
	switch verdict {
	case coach.Met:
		score = math.Max(score, goodFrom)
	case coach.Near:
		score = math.Min(math.Max(score, fairFrom), fairMost)
	case coach.Missed:
		score = math.Min(score, fairMost)
	}
	return verdict, score, gradeOf(verdict, score)
}

func computedOf(verdict string, score float64, grade string) *coach.Computed {
	return &coach.Computed{Verdict: verdict, Score: score, Grade: grade}
}

// differing is what was computed where it does not stand there any more; nil where it does.
func differing(was *coach.Computed, verdict string, score float64, grade string) *coach.Computed {
	if *was == (coach.Computed{Verdict: verdict, Score: score, Grade: grade}) {
		return nil
	}
	return was
}

// Dearest returns the check that lost most, of those that were missed or near; nil where none was.
func Dearest(checks []coach.Check) *coach.Check {
	var worst *coach.Check
	for i := range checks {
		k := &checks[i]
		if !counted(k) || k.Verdict == coach.Met {
			continue
		}
		if worst == nil || k.Weight*(100-k.Score) > worst.Weight*(100-worst.Score) {
			worst = k
		}
	}
	return worst
}

// Verdicts are those that a person can give.
func Verdicts() []string {
	return slices.Clone([]string{coach.Met, coach.Near, coach.Missed, coach.NotMeasured})
}
