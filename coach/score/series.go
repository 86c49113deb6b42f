package score

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/coach/maneuver"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

// Series grades a series against its card. cut is true where something other than the pilot ended it. A series
// without all its legs is never met: it is missed when the pilot flew no further leg, as its check of the legs says,
// and not measured when it was cut. The note says more about legs that are missing. Causes are left empty.
func Series(card *maneuver.Card, s *coach.Series, cut bool, note phrase.Phrase) {
	s.Checks = []coach.Check{}
	f, seen := &check.Facts{Nose: math.NaN(), Dive: math.NaN()}, seriesFacts(card, s, cut)
	for i := range card.Checks {
		spec := &card.Checks[i]
		if kind := kinds.Of(spec); kind.OfSeries() {
			r := Check(spec, kind.Series(spec, seen), f)
			if spec.Of != "" {
				r.Unit = unitOf(s, spec.Of)
			}
			if kind.Counts == check.Legs {
				r.Value = new(float64(len(s.Finished())))
				if r.Verdict != coach.Met {
					r.Note = note
				}
			}
			s.Checks = append(s.Checks, r)
		}
	}
	s.Missing = Lacking(s)
	judgeSeries(s, cut)
	s.Causes = []coach.Cause{}
}

// judgeSeries fills in the verdict, the score, and the grade of a series that has its checks.
func judgeSeries(s *coach.Series, cut bool) {
	own := tallied(Scored(s))
	verdict, most := own.verdict(), own.most()
	var legs, n float64
	for i := range s.Legs {
		if l := &s.Legs[i]; l.Verdict != coach.NotMeasured {
			legs, n = legs+l.Score, n+1
			verdict, most = worse(verdict, l.Verdict), math.Min(most, ceiling(l.Grade))
		}
	}
	score := own.mean
	switch {
	case n > 0 && own.n > 0:
		score = legsPart*legs/n + (1-legsPart)*own.mean
	case n > 0:
		score = legs / n
	}
	if !s.Missing.IsZero() && verdict != coach.Missed {
		if verdict = coach.Near; cut { // a user's own card may let it pass otherwise
			verdict = coach.NotMeasured
		}
	}
	s.Verdict, s.Score = settled(verdict, score, most)
	s.Grade = gradeOf(s.Verdict, s.Score)
}

// worse returns the worse of two verdicts.
func worse(a, b string) string {
	if severity[b] > severity[a] {
		return b
	}
	return a
}

// legsPart is the share of a series' score that comes from its legs.
const legsPart = 0.8

// counts reports whether a check asks for something of the whole series.
func counts(k *coach.Check, what check.Count) bool { return kinds.Named(k.Kind).Counts == what }

// seriesFacts returns what the checks of a series see of it.
func seriesFacts(card *maneuver.Card, s *coach.Series, cut bool) *check.SeriesFacts {
	f := &check.SeriesFacts{Legs: card.Series.Legs, Turn: card.Turn, Cut: cut}
	heading := stream.Heading.String()
	for _, l := range s.Finished() {
		f.Finished = append(f.Finished, check.FinishedLeg{
			Direction: l.Direction,
			Entry:     l.Entry.Values[heading],
			Exit:      l.Exit.Values[heading],
			Value:     func(id string) *float64 { return valueOf(l, id) },
			At: func(channel string, exit bool) (v float64, ok bool) {
				at := &l.Entry
				if exit {
					at = l.Exit
				}
				v, ok = at.Values[channel]
				return v, ok
			},
		})
	}
	return f
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
