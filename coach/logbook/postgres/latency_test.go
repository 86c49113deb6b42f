package postgres

import (
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

// TestLatency measures questions in a large logbook. Those that read a million rows to be answered (a trend over
// everybody, a word of every third remark) are shown and have no bound.
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
	measure := func(name string, bounded bool, ask func() error) {
		var took []time.Duration
		for range tries {
			began := time.Now()
			must(t, ask())
			took = append(took, time.Since(began))
		}
		slices.Sort(took)
		middle := took[tries/2]
		t.Logf("%-28s %8.1f ms", name, middle.Seconds()*1000)
		if bounded && middle > most {
			t.Errorf("%s takes %v; must be at most %v", name, middle, most)
		}
	}
	began := list.Sessions[len(list.Sessions)/2].Began
	from, err := time.Parse(time.RFC3339, began)
	must(t, err)
	for _, c := range []struct {
		name    string
		bounded bool
		filter  logbook.Filter
	}{
		{"student", true, logbook.Filter{Student: "Student 7"}},
		{"station", true, logbook.Filter{Stations: []string{"seat 7"}}},
		{"dates", true, logbook.Filter{From: from, To: from.Add(6 * time.Hour)}},
		{"rare word", true, logbook.Filter{Text: "spiral"}},
		{"all", false, logbook.Filter{}},
		{"flown", false, logbook.Filter{Flown: true}},
		{"frequent word", false, logbook.Filter{Text: "late"}},
		{"maneuver", false, logbook.Filter{Maneuver: "lazy-eight"}},
	} {
		measure("list, "+c.name, c.bounded, func() error {
			_, err := book.List(t.Context(), c.filter)
			return err
		})
		measure("trend, "+c.name, c.bounded, func() error {
			_, err := book.Trend(t.Context(), c.filter)
			return err
		})
	}
	id := list.Sessions[0].ID
	measure("session and report", true, func() error {
		if _, err := book.Session(t.Context(), id); err != nil {
			return err
		}
		_, err := book.Report(t.Context(), id, 1)
		return err
	})
	measure("models", true, func() error {
		_, err := book.Models(t.Context(), id, 1)
		return err
	})
	measure("near", true, func() error {
		_, err := book.Near(t.Context(), id)
		return err
	})
	measure("last", true, func() error {
		_, err := book.Last(t.Context())
		return err
	})
}
