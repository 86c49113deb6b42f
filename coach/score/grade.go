package score

import "halfturn/coach"

// Where the grades begin.
const (
	fairScore      = 60.0
	excellentScore = 95.0
)

// Grade returns the grade of a leg: unable when it was stopped, given up, or far off; fair when a check was missed;
// good within standard; excellent when nothing was near a limit, rough, or had to be corrected on the way. It is ""
// when nothing was measured.
func Grade(l *coach.Leg) string {
	switch {
	case l.Verdict == coach.NotMeasured:
		return ""
	case l.Outcome != coach.Finished || l.Score < fairScore:
		return coach.Unable
	case l.Verdict == coach.Missed:
		return coach.Fair
	case l.Score < excellentScore || l.Said > 0:
		return coach.Good
	}
	for i := range l.Checks {
		if k := &l.Checks[i]; k.Verdict == coach.Near && k.Weight > 0 {
			return coach.Good
		}
	}
	return coach.Excellent
}

// lowest returns the grade of a series: that of its lowest leg, fair at most when what only the legs together show was
// missed, good at most when legs are missing; "" when it was not judged.
func lowest(s *coach.Series) string {
	rank := map[string]int{coach.Unable: 1, coach.Fair: 2, coach.Good: 3, coach.Excellent: 4}
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
	case s.Verdict == coach.NotMeasured:
		return ""
	case s.Verdict == coach.Missed:
		take(coach.Fair)
	case !s.Missing.IsZero():
		take(coach.Good)
	}
	return grade
}
