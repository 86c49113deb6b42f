package postgres

import (
	"errors"
	"flag"
	"slices"
	"testing"
	"time"

	"halfturn/coach/logbook"
)

// large names a database that testdata/million.sql has filled:
//
//	go test ./coach/logbook/postgres -run Latency -v -large "host=/run/postgresql dbname=million"
var large = flag.String("large", "", "connection string of a database of a million sessions, to measure questions in")

// TestLatency measures questions in a large logbook.
func TestLatency(t *testing.T) {
	if *large == "" {
		t.Skip("-large names no database")
	}
	const most, tries = 100 * time.Millisecond, 5
	book, err := Engine{DSN: *large}.Open("", false)
	must(t, err)
	defer book.Close()
	list, err := book.List(t.Context(), logbook.Filter{Student: "Student 7"})
	must(t, err)
	measure := func(name string, ask func() error) {
		var took []time.Duration
		for range tries {
			began := time.Now()
			must(t, ask())
			took = append(took, time.Since(began))
		}
		slices.Sort(took)
		middle := took[tries/2]
		t.Logf("%-28s %8.1f ms", name, middle.Seconds()*1000)
		if middle > most {
			t.Errorf("%s takes %v; must be at most %v", name, middle, most)
		}
	}
	began := list.Sessions[len(list.Sessions)/2].Began
	from, err := time.Parse(time.RFC3339, began)
	must(t, err)
	for _, c := range []struct {
		name   string
		filter logbook.Filter
	}{
		{"student", logbook.Filter{Student: "Student 7"}},
		{"station", logbook.Filter{Stations: []string{"seat 7"}}},
		{"dates", logbook.Filter{From: from, To: from.Add(6 * time.Hour)}},
		{"rare word", logbook.Filter{Text: "spiral"}},
		{"all", logbook.Filter{}},
		{"flown", logbook.Filter{Flown: true}},
		{"frequent word", logbook.Filter{Text: "late"}},
		{"maneuver", logbook.Filter{Maneuver: "lazy-eight"}},
		{"aircraft", logbook.Filter{Aircraft: "trainer-3"}},
		{"grade", logbook.Filter{Grade: "good"}},
		{"grade of dates", logbook.Filter{Grade: "good", From: from, To: from.AddDate(0, 6, 0)}},
		{"maneuver in aircraft", logbook.Filter{Maneuver: "lazy-eight", Aircraft: "trainer-3", Flown: true}},
		{"nothing", logbook.Filter{Maneuver: "no-such", Grade: "good"}},
	} {
		measure("list, "+c.name, func() error {
			_, err := book.List(t.Context(), c.filter)
			return err
		})
		measure("trend, "+c.name, func() error {
			_, err := book.Trend(t.Context(), c.filter)
			return err
		})
	}
	id := list.Sessions[0].ID
	measure("grade sheet", func() error { // as package stored reads one
		all, err := logbook.ListAll(t.Context(), book, logbook.Filter{Student: "Student 7"}, 0)
		for i := range all.Sessions {
			_, err1 := book.Session(t.Context(), all.Sessions[i].ID)
			_, err2 := book.Report(t.Context(), all.Sessions[i].ID, 1)
			err = errors.Join(err, err1, err2)
		}
		return err
	})
	measure("session and report", func() error {
		if _, err := book.Session(t.Context(), id); err != nil {
			return err
		}
		_, err := book.Report(t.Context(), id, 1)
		return err
	})
	measure("models", func() error {
		_, err := book.Models(t.Context(), id, 1)
		return err
	})
	measure("near", func() error {
		_, err := book.Near(t.Context(), id)
		return err
	})
	measure("last", func() error {
		_, err := book.Last(t.Context())
		return err
	})
}
