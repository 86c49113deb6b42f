package booktest

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
)

// What a session of a school of fifty students is like.
const (
	schoolStudents = 50
	schoolLegs     = 6
	schoolChecks   = 18
)

var schoolManeuvers = []string{"wing-over", "chandelle-civil", "lazy-eight", "steep-turn"}

var schoolWords = []string{
	"the nose is late",
	"bank sooner",
	"look at the reference point",
	"coordinated, well done",
	"altitude lost over the top",
}

// Fill makes a book of that many sessions, three hours apart.
func Fill(tb testing.TB, b logbook.Book, sessions int) {
	tb.Helper()
	fill(tb, b, sessions, schoolChecks)
}

// fill is Fill with a number of checks of each leg.
func fill(tb testing.TB, b logbook.Book, sessions, checks int) {
	tb.Helper()
	rnd := rand.New(rand.NewPCG(1, 2))
	n, err := b.Rebuild(tb.Context(), func(yield func(*logbook.Stored) bool) {
		for i := range sessions {
			if !yield(schoolSession(i, checks, rnd)) {
				return
			}
		}
	}, func(id string, why error) { tb.Errorf("%s is left out: %v", id, why) })
	if err != nil || n != sessions {
		tb.Fatalf("%d sessions, %v", n, err)
	}
}

func schoolSession(i, checks int, rnd *rand.Rand) *logbook.Stored {
	at := Began.Add(time.Duration(i) * 3 * time.Hour)
	id := fmt.Sprintf("%s_seat-%d", at.Format("2006-01-02T15-04-05Z"), i%8)
	e := Entry(id, at, fmt.Sprintf("Student %02d", rnd.IntN(schoolStudents)))
	e.Station, e.Ended, e.Cards = fmt.Sprintf("seat %d", i%8), at.Add(30*time.Minute), nil
	e.Maneuver, e.Standard, e.Aircraft = schoolManeuvers[i%4], "", fmt.Sprintf("trainer-%d", i%3)
	s := &logbook.Stored{
		Entry:    *e,
		Standing: logbook.Standing{Student: e.Student},
		Report:   schoolDay(id, schoolManeuvers[i%4], checks, rnd),
	}
	if i%3 == 0 {
		words := schoolWords[rnd.IntN(len(schoolWords))] + " on the " + schoolWords[rnd.IntN(len(schoolWords))]
		s.Standing.Remarks = []logbook.Remark{{ID: 1, Words: words, At: at}}
	}
	return s
}

// SchoolDay is a session with a series of a maneuver.
func SchoolDay(id, name string, rnd *rand.Rand) *debrief.Report {
	return schoolDay(id, name, schoolChecks, rnd)
}

func schoolDay(id, name string, checks int, rnd *rand.Rand) *debrief.Report {
	s := coach.Series{Maneuver: name, Standard: "course", Verdict: coach.Near, Score: 80, Grade: coach.Good}
	for n := range schoolLegs {
		score := 40 + 60*rnd.Float64()
		grade := []string{coach.Unable, coach.Fair, coach.Good, coach.Excellent}[rnd.IntN(4)]
		l := Flight(n+1, coach.Finished, coach.Near, grade, score, fmt.Sprintf("Correction %d", rnd.IntN(12)))
		l.Checks = nil
		for k := range checks {
			c := Flight(1, coach.Finished, coach.Met, coach.Good, score+rnd.Float64(), "").Checks[0]
			c.ID, c.Turn = fmt.Sprintf("check-%d", k), p(float64(k*10))
			l.Checks = append(l.Checks, c)
		}
		s.Legs = append(s.Legs, l)
	}
	r := Report(id)
	r.Files[0].Stations[0].Series = []coach.Series{s}
	return r
}

// Filters are what a school asks by.
var Filters = []struct {
	Name   string
	Filter logbook.Filter
}{
	{"all", logbook.Filter{}},
	{"flown", logbook.Filter{Flown: true}},
	{"student", logbook.Filter{Student: "Student 07"}},
	{"maneuver", logbook.Filter{Maneuver: "lazy-eight"}},
	{"aircraft", logbook.Filter{Aircraft: "trainer-1"}},
	{"grade", logbook.Filter{Grade: coach.Good}},
	{"dates", logbook.Filter{From: Began.AddDate(1, 0, 0), To: Began.AddDate(1, 3, 0)}},
	{"text", logbook.Filter{Text: "reference poi"}},
	{"stations", logbook.Filter{Stations: []string{"seat 1", "seat 3", "no such"}}},
	{"no station", logbook.Filter{Stations: []string{}}},
	{"everything", logbook.Filter{
		Flown:    true,
		Student:  "Student 07",
		Maneuver: "lazy-eight",
		Aircraft: "trainer-1",
		Grade:    coach.Good,
		From:     Began,
		Text:     "nose",
	}},
}
