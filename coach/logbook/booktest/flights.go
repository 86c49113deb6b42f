// Package booktest tests that an engine keeps a logbook as [logbook.Book] says. An engine's own tests call [Run];
// others
// take the flights it makes.
package booktest

import (
	"errors"
	"fmt"
	"sync/atomic"
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/ids"
	"halfturn/coach/logbook"
	"halfturn/stream/phrase"
)

// Began is when the first session began.
var Began = time.Date(2031, 5, 4, 9, 0, 7, 0, time.UTC)

func p(x float64) *float64 { return &x }

// Flight makes a leg of a wing-over with one check.
func Flight(n int, outcome, verdict, grade string, score float64, change string) coach.Leg {
	start := float64(n) * 60
	l := coach.Leg{
		Number:    n,
		Direction: "right",
		Outcome:   outcome,
		Start:     start,
		End:       start + 40,
		Change:    phrase.Read(change),
		Verdict:   verdict,
		Score:     score,
		Grade:     grade,
		Said:      1,
		Entry:     coach.Point{Turn: 0, Time: start, Values: map[string]float64{"airspeed": 130.5}},
		Points:    []coach.Point{{Turn: 90, Time: start + 20, Values: map[string]float64{"bank": 74}}},
		Checks: []coach.Check{
			{
				ID:      "bank-at-90",
				Label:   "Bank at 90°",
				Kind:    "value",
				Channel: "bank",
				Turn:    p(90),
				Value:   p(score - 20),
				Unit:    "°",
				Aim:     p(75),
				Met:     [2]*float64{p(60), p(90)},
				Near:    [2]*float64{p(55), nil},
				Weight:  2,
				Verdict: verdict,
				Score:   score,
				Words:   "More bank",
				Note:    phrase.Plain("at 91°"),
			},
			{
				ID:      "ball",
				Label:   "Ball",
				Kind:    "share",
				Unit:    "%",
				Weight:  1,
				Verdict: coach.NotMeasured,
				Reason:  phrase.Lacks.Of(phrase.Part("what", phrase.Plain("ball"))),
			},
		},
		Causes: []coach.Cause{{ID: "late", Leg: n, Share: 0.5, Evidence: phrase.Plain("the nose came late"),
			Advice: phrase.Plain("Pull earlier")}},
	}
	if outcome == coach.Finished {
		l.Exit = &coach.Point{Turn: 179, Time: start + 40, Values: map[string]float64{"airspeed": 128}}
	}
	return l
}

// Report is a report of one series of legs.
func Report(id string, legs ...coach.Leg) *debrief.Report {
	r := debrief.New()
	r.Session = &debrief.SessionDates{
		ID:    id,
		Began: Began.Format(time.RFC3339),
		Ended: Began.Add(time.Hour).Format(time.RFC3339),
	}
	series := coach.Series{
		Maneuver: "wing-over",
		Standard: "course",
		Aircraft: "trainer",
		Verdict:  coach.Near,
		Score:    80,
		Grade:    coach.Good,
		Change:   phrase.Plain("Both sides alike"),
		Legs:     legs,
		Checks: []coach.Check{{
			ID:      "symmetry",
			Label:   "Right as left",
			Kind:    "symmetry",
			Value:   p(4),
			Unit:    "°",
			Verdict: coach.Met,
			Score:   100,
		}},
		Causes: []coach.Cause{{ID: "one-sided", Share: 0.2, Evidence: phrase.Plain("left is steeper"),
			Advice: phrase.Plain("Look"),
			Minor:  true}},
		Decision: &coach.Decision{Maneuver: "wing-over", Margin: 2},
	}
	stations := []debrief.StationReport{{Station: "seat", Series: []coach.Series{series}}}
	r.Files = []debrief.FileReport{{File: "live", Stations: stations}}
	return r
}

// Cards grade the sessions.
var Cards = []logbook.KeptCard{
	{Kind: "maneuvers", Name: "wing-over", Text: []byte("name = \"wing-over\"\ntitle = \"Wing-over\"\n")},
	{Kind: "aircraft", Name: "trainer", Text: []byte("name = \"trainer\"\ntitle = \"The trainer\"\n")},
}

// Entry is a session of a student as it begins.
func Entry(id string, began time.Time, student string) *logbook.Entry {
	return &logbook.Entry{
		ID:       id,
		Key:      ids.New(began),
		Station:  "seat",
		Student:  logbook.Student{Name: student},
		Began:    began,
		Version:  "1.2",
		Maneuver: "wing-over",
		Standard: "course",
		Aircraft: "trainer",
		Cards:    Cards,
	}
}

// entries counts what was entered, so that no two have one id.
var entries atomic.Int64

// entered begins a session.
func entered(t *testing.T, b logbook.Book, began time.Time, student string) string {
	t.Helper()
	id := fmt.Sprintf("%s_seat-%d", began.Format("2006-01-02T15-04-05Z"), entries.Add(1))
	must(t, b.Begin(Entry(id, began, student)))
	return id
}

// must fails the test on an error.
func must(t testing.TB, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}
