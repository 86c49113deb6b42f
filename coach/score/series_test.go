package score_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"halfturn/coach"
	"halfturn/coach/score"
	"halfturn/stream/phrase"
)

// of makes a series of legs, and grades it.
func of(cut bool, own []coach.Check, legs ...*coach.Leg) *coach.Series {
	s := &coach.Series{Checks: own}
	for i, l := range legs {
		l.Number = i + 1
		s.Legs = append(s.Legs, *l)
	}
	score.JudgeSeries(s, cut)
	return s
}

func leg(outcome string, said int, checks ...coach.Check) *coach.Leg {
	l := &coach.Leg{Outcome: outcome, Said: said, Checks: checks}
	if outcome != coach.Finished {
		l.Reason = phrase.Stalled.Of()
	}
	score.Leg(l, score.Ended{})
	return l
}

// By hand from the rule of the package: four fifths from the legs, one from the rest, no better than the lowest leg.
func TestSeries(t *testing.T) {
	good := func() *coach.Leg { return leg(coach.Finished, 0, all(25)...) }
	for _, c := range []struct {
		name           string
		series         *coach.Series
		verdict, grade string
		points         float64
		headline       string
	}{
		{"two good legs", of(false, nil, good(), good()), coach.Met, coach.Excellent, 100,
			"Both legs within standard"},
		{"one leg", of(false, nil, good()), coach.Met, coach.Excellent, 100,
			"All 25 checks within limits"},
		{"a leg stopped", of(false, nil, good(), leg(coach.KnockOff, 0, all(25)...)), coach.Missed, coach.Unable, 59,
			"Leg 2: Stopped for safety: stalled"},
		{"a leg missed", of(false, nil, leg(coach.Finished, 0, all(25, judged("ball", 20.6, 1))...), good()),
			coach.Missed, coach.Fair, 79, "Leg 1: Not yet: ball; 24 of 25 within limits"},
		{"a leg corrected", of(false, nil, good(), leg(coach.Finished, 1, all(25)...)), coach.Met, coach.Good, 94,
			"Both legs within standard"},
		{"legs unlike", of(false, all(4, judged("even bank", 40, 1)), good(), good()), coach.Missed, coach.Fair, 68,
			"Not yet: even bank; 3 of 4 within limits"},
		{"no leg judged", of(true, nil, &coach.Leg{Verdict: coach.NotMeasured}), coach.NotMeasured, "", 0,
			"Nothing could be measured"},
	} {
		s, head := c.series, score.SeriesHeadline(c.series).String()
		if s.Verdict != c.verdict || s.Grade != c.grade || s.Score != c.points || head != c.headline {
			t.Errorf("%s: %s, %s, %g, %q; must be %s, %s, %g, %q", c.name, s.Verdict, s.Grade, s.Score, head,
				c.verdict, c.grade, c.points, c.headline)
		}
	}
}

// Whatever the legs and the checks of a series are, verdict, grade and score say the same, and no leg is better off.
func TestSeriesContradictsNothing(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 6))
	order := []string{"", coach.Unable, coach.Fair, coach.Good, coach.Excellent}
	for range 3000 {
		var legs []*coach.Leg
		for range 1 + rnd.IntN(3) {
			l, ended := random(rnd)
			score.Leg(l, ended)
			legs = append(legs, l)
		}
		own, _ := random(rnd)
		s := of(rnd.IntN(4) == 0, own.Checks[:len(own.Checks)/4], legs...)
		if b := bounds[s.Grade]; s.Score < b.from || s.Score >= b.below || !slices.Contains(b.verdicts, s.Verdict) {
			t.Fatalf("%s, %s, %g", s.Grade, s.Verdict, s.Score)
		}
		for _, l := range legs {
			if l.Grade != "" && slices.Index(order, s.Grade) > slices.Index(order, l.Grade) {
				t.Fatalf("the series is %s, leg %d is %s", s.Grade, l.Number, l.Grade)
			}
		}
		if score.SeriesHeadline(s).IsZero() {
			t.Fatal("there is no headline")
		}
	}
}
