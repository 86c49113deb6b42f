package stored

import (
	"errors"
	"slices"
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/assess"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/booktest"
	"halfturn/coach/logbook/sqlite"
)

// TestSheetOfStations: a grade sheet counts the sessions at the stations that it is asked for, and no others; nil is
// all, and none is none. Of somebody who is not in the logbook there is none.
func TestSheetOfStations(t *testing.T) {
	a, err := archive.Open(t.TempDir(), archive.Options{Engine: sqlite.Engine{}, Version: "1.2"})
	if err != nil {
		t.Fatal(err)
	}
	defer a.Close()
	for i, station := range []string{"Seat 3", "Seat 4", "Seat 4"} {
		began := booktest.Began.Add(time.Duration(i) * 2 * time.Hour)
		id, err := a.NewID(began, station)
		if err != nil {
			t.Fatal(err)
		}
		e := booktest.Entry(id, began, "Ada Example")
		e.Key, e.Station = "", station
		r := booktest.Report(id, booktest.Flight(1, coach.Finished, coach.Met, coach.Good, 90, "More bank"))
		_, saved := a.Save(id, r)
		if err := errors.Join(saved, a.Begin(*e), a.Keep(id, r), a.End(id, began.Add(time.Hour))); err != nil {
			t.Fatal(err)
		}
	}
	none := func(string) string { return "" }
	for _, c := range []struct {
		stations []string
		sessions int
	}{
		{nil, 3},
		{[]string{"Seat 3"}, 1},
		{[]string{"Seat 4"}, 2},
		{[]string{"Seat 3", "Seat 4", "Seat 5"}, 3},
		{[]string{"Seat 5"}, 0},
		{[]string{}, 0},
	} {
		s, err := SheetOf(t.Context(), a, "ada example", c.stations, none)
		if err != nil || s.Sessions != c.sessions || s.Student != "Ada Example" {
			t.Errorf("%v: %+v, %v; must be of %d sessions", c.stations, s, err, c.sessions)
		}
		legs := slices.ContainsFunc(s.Maneuvers, func(r assess.SheetRow) bool { return r.Legs > 0 })
		if legs != (c.sessions > 0) {
			t.Errorf("%v: %+v", c.stations, s.Maneuvers)
		}
	}
	var refused *logbook.Refused
	if _, err := SheetOf(t.Context(), a, "Nobody", nil, none); !errors.As(err, &refused) {
		t.Errorf("of nobody: %v; must be refused", err)
	}
}
