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
	const most, tries = 100 * time.Millisecond, 15
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
		t.Logf("%-28s %8.1f ms, at best %.1f", name, middle.Seconds()*1000, took[0].Seconds()*1000)
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
	measure("grade sheet of 50", func() error { // as package stored reads one
		all, err := logbook.ListAll(t.Context(), book, logbook.Filter{Student: "Student 7"}, 0)
		if err != nil {
			return err
		}
		ids := make([]string, len(all.Sessions))
		for i := range all.Sessions {
			ids[i] = all.Sessions[i].ID
		}
		graded, err := book.Graded(t.Context(), ids)
		if err == nil && (len(graded) != 50 || len(logbook.Stations(graded[0].Report)[0].Series[0].Legs) != 6) {
			err = errors.New("these are not 50 sessions of 6 legs")
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
	other, err := book.List(t.Context(), logbook.Filter{Student: "Student 5"}) // flew what all who are kept flew
	must(t, err)
	measure("models", func() error {
		m, err := book.Models(t.Context(), other.Sessions[0].ID, 1)
		if err == nil && (m.Best == nil || len(m.Kept) != 6) {
			err = errors.New("no models are found")
		}
		return err
	})
	for name, id := range map[string]string{
		"there":     id,
		"not there": "2031-05-04T09-00-07Z_nowhere",
		"a word":    "seat-7",
	} {
		measure("near, "+name, func() error {
			near, err := book.Near(t.Context(), id)
			if err == nil && len(near) != 5 {
				err = errors.New("no five are found")
			}
			return err
		})
	}
	measure("last", func() error {
		_, err := book.Last(t.Context())
		return err
	})
}
