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
	s.Verdict, s.Score = sumSeries(s)
	if !s.Missing.IsZero() && s.Verdict != coach.Missed && cut {
		s.Verdict, s.Score = coach.NotMeasured, 0
	} else if !s.Missing.IsZero() && s.Verdict == coach.Met {
		s.Verdict = coach.Near // a user's own card may let it pass
	}
	s.Grade = lowest(s)
	s.Causes = []coach.Cause{}
}

// sumSeries returns the verdict and score of a series: the worst verdict of its parts; four fifths of the score from
// the legs, one fifth from what only the series shows.
func sumSeries(s *coach.Series) (verdict string, score float64) {
	verdict, own := Sum(Scored(s))
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
	if v, _ := Sum(Scored(s)); v == coach.NotMeasured {
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
