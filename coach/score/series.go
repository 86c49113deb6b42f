package score

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/maneuver"
	"halfturn/stream"
)

// Series grades a series against its card. cut is true where something other than the pilot ended it. A series
// without all its legs is never met: it is missed when the pilot flew no further leg, as its check of the legs says,
// and not measured when it was cut. The note says more about legs that are missing. Causes are left empty.
func Series(card *maneuver.Card, s *coach.Series, cut bool, note string) {
	s.Checks = []coach.Check{}
	f := &check.Facts{Nose: math.NaN()}
	for i := range card.Checks {
		spec := &card.Checks[i]
		if kind, _ := maneuver.KindNamed(spec.Kind); kind.Series {
			r := Check(spec, measureSeries(card, spec, s, cut), f)
			if spec.Of != "" {
				r.Unit = unitOf(s, spec.Of)
			}
			if spec.Kind == "legs" {
				r.Value = new(float64(len(s.Finished())))
				if r.Verdict != coach.Met {
					r.Note = note
				}
			}
			s.Checks = append(s.Checks, r)
		}
	}
	s.Missing = s.Lacking()
	s.Verdict, s.Score = sumSeries(s)
	if s.Missing != "" && s.Verdict != coach.Missed && cut {
		s.Verdict, s.Score = coach.NotMeasured, 0
	} else if s.Missing != "" && s.Verdict == coach.Met {
		s.Verdict = coach.Near // a user's own card may let it pass
	}
	s.Grade = lowest(s)
	s.Causes = []coach.Cause{}
}

// sumSeries returns the verdict and score of a series: the worst verdict of its parts; four fifths of the score from
// the legs, one fifth from what only the series shows.
func sumSeries(s *coach.Series) (verdict string, score float64) {
	verdict, own := Sum(s.Scored())
	var legs, n float64
	for i := range s.Legs {
		if l := &s.Legs[i]; l.Verdict != coach.NotMeasured {
			legs, n = legs+l.Score, n+1
			verdict = worse(verdict, l.Verdict)
		}
	}
	if n == 0 {
		return verdict, own
	}
	legs /= n
	if v, _ := Sum(s.Scored()); v == coach.NotMeasured {
		return verdict, coach.Round(legs, 1)
	}
	return verdict, coach.Round(0.8*legs+0.2*own, 1)
}

// worse returns the worse of two verdicts.
func worse(a, b string) string {
	rank := map[string]int{coach.NotMeasured: 0, coach.Met: 1, coach.Near: 2, coach.Missed: 3}
	if rank[b] > rank[a] {
		return b
	}
	return a
}

// measureSeries measures what only the legs together show.
func measureSeries(card *maneuver.Card, spec *maneuver.Check, s *coach.Series, cut bool) check.Measure {
	done := s.Finished()
	m := check.Measure{OK: true, At: math.NaN()}
	want := card.Series.Legs
	switch {
	case spec.Kind == "legs" && len(done) < want && cut:
		return check.Measure{At: math.NaN(), Reason: "it was ended before the rest could be flown"}
	case spec.Kind == "legs":
		m.Value = float64(len(done))
	case len(done) < 2 || spec.Kind == "return" && len(done) < want:
		return check.Measure{At: math.NaN(), Reason: "the series has too few finished legs"}
	case spec.Kind == "directions":
		for i := 1; i < len(done); i++ {
			if done[i].Direction == done[i-1].Direction {
				m.Value++
			}
		}
	case spec.Kind == "return":
		heading := stream.Heading.String()
		out, back := done[0].Entry.Values[heading], done[len(done)-1].Exit.Values[heading]
		m.Value = stream.Wrap180(back - out - card.Turn*float64(len(done)%2))
	case spec.Kind == "symmetry":
		return symmetry(done, spec.Of)
	}
	return m
}

// symmetry returns the largest difference of a leg check from one leg to the next.
func symmetry(done []*coach.Leg, id string) check.Measure {
	m := check.Measure{OK: true, At: math.NaN()}
	for i := 1; i < len(done); i++ {
		a, b := valueOf(done[i-1], id), valueOf(done[i], id)
		if a == nil || b == nil {
			return check.Measure{At: math.NaN(), Reason: "not measured on every leg"}
		}
		m.Value = math.Max(m.Value, math.Abs(*b-*a))
	}
	return m
}

func valueOf(l *coach.Leg, id string) *float64 {
	for i := range l.Checks {
		if l.Checks[i].ID == id {
			return l.Checks[i].Value
		}
	}
	return nil
}

func unitOf(s *coach.Series, id string) string {
	for i := range s.Legs[0].Checks {
		if s.Legs[0].Checks[i].ID == id {
			return s.Legs[0].Checks[i].Unit
		}
	}
	return ""
}
