package logbook

import (
	"testing"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/stream/phrase"
)

// The headline of a session is that of the leg that gives it its grade, so that they say the same.
func TestHeadline(t *testing.T) {
	leg := func(grade, headline string) coach.Leg {
		return coach.Leg{Outcome: coach.Finished, Verdict: coach.Met, Grade: grade, Headline: phrase.Plain(headline)}
	}
	good, poor := leg(coach.Good, "all within"), leg(coach.Unable, "past the limit")
	lacking := coach.Series{Verdict: coach.Missed, Missing: phrase.Plain("one leg"), Headline: phrase.Plain("not all"),
		Legs: []coach.Leg{good}}
	for _, c := range []struct {
		series []coach.Series
		want   string
	}{
		{[]coach.Series{{Legs: []coach.Leg{good}}}, "all within"},
		{[]coach.Series{{Legs: []coach.Leg{good, poor}}}, "Leg 2: past the limit"},
		{[]coach.Series{{Legs: []coach.Leg{poor}}, {Legs: []coach.Leg{good, good}}}, "Leg 2: all within"},
		{[]coach.Series{lacking}, "not all"},
		{[]coach.Series{{Legs: []coach.Leg{leg(coach.Good, "")}}}, ""},
		{nil, ""},
	} {
		r := debrief.New()
		r.Files = []debrief.FileReport{{Stations: []debrief.StationReport{{Series: c.series}}}}
		if got := TallyOf(r, nil).Headline().String(); got != c.want {
			t.Errorf("%+v: %q; must be %q", c.series, got, c.want)
		}
	}
}

// A session is graded no better than a series of it that lacks legs, and a leg that was not judged neither ends a row
// of good legs nor lengthens it.
func TestTally(t *testing.T) {
	leg := func(grade string) coach.Leg {
		l := coach.Leg{Outcome: coach.Finished, Verdict: coach.Met, Grade: grade}
		if grade == "" {
			l.Verdict = coach.NotMeasured
		}
		return l
	}
	for name, c := range map[string]struct {
		series coach.Series
		grade  string
		row    int
	}{
		"complete": {coach.Series{Verdict: coach.Met, Legs: []coach.Leg{leg(coach.Excellent),
			leg(coach.Excellent)}}, coach.Excellent, 2},
		"the second not": {coach.Series{Verdict: coach.Missed, Missing: phrase.Read("1 of 2 legs finished"),
			Legs: []coach.Leg{leg(coach.Excellent)}}, coach.Fair, 1},
		"worse in itself": {coach.Series{Verdict: coach.Missed, Missing: phrase.Read("1 of 2 legs finished"),
			Legs: []coach.Leg{leg(coach.Unable)}}, coach.Unable, 0},
		"cut by the stream": {coach.Series{Verdict: coach.NotMeasured, Missing: phrase.Read("1 of 2 legs finished"),
			Legs: []coach.Leg{leg(coach.Good)}}, coach.Good, 1},
		"one was not judged": {coach.Series{Verdict: coach.Met, Legs: []coach.Leg{leg(coach.Good), leg(""),
			leg(coach.Good)}}, coach.Good, 2},
	} {
		c.series.Maneuver = "wing-over"
		r := debrief.New()
		r.Files = []debrief.FileReport{{Stations: []debrief.StationReport{{Series: []coach.Series{c.series}}}}}
		sum := TallyOf(r, nil)
		if got, row := sum.Grade(), sum.By["wing-over"].Tail; got != c.grade || row != c.row {
			t.Errorf("%s: %q, %d good in a row; want %q, %d", name, got, row, c.grade, c.row)
		}
	}
}
