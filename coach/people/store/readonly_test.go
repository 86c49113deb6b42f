package store_test

import (
	"errors"
	"path/filepath"
	"testing"
	"time"

	"halfturn/coach/logbook/tables"
	"halfturn/coach/people"
	"halfturn/coach/people/sqlite"
	"halfturn/coach/people/store"
	"halfturn/coach/who"
)

// readOnly is a database that takes no changes: its disk is full, or a standby took over.
type readOnly struct{ tables.Database }

var errReadOnly = errors.New("it takes no changes")

func (readOnly) Change(func(*tables.Tx) error) error { return errReadOnly }

// TestReadOnly: while the database takes no changes those who have a login and stations that have a key are let in all
// the same: when they were last seen is not worth a door that is shut.
func TestReadOnly(t *testing.T) {
	file := filepath.Join(t.TempDir(), sqlite.FileName)
	d, err := sqlite.Tables(file)
	if err != nil {
		t.Fatal(err)
	}
	s := store.Of(d, d.Close)
	defer s.Close()
	began := time.Date(2031, 5, 4, 9, 0, 0, 0, time.UTC)
	login, key := people.Hash{1}, people.Hash{2}
	err = errors.Join(
		s.AddUser(people.User{ID: "u", Name: "Ada Example", Role: who.RoleInstructor, Made: began}, "hash"),
		s.AddLogin(people.Login{ID: "l", User: "u", Made: began, Until: began.Add(100 * time.Hour)}, login),
		s.AddStation(people.Station{ID: "s", Name: "Seat 1", Made: began}, key),
	)
	if err != nil {
		t.Fatal(err)
	}
	later := began.Add(3 * time.Hour)
	r := store.Of(readOnly{d}, d.Close)
	l, caller, err := r.Login(t.Context(), login, later)
	if err != nil || caller.Name != "Ada Example" || !l.Seen.Equal(began) {
		t.Errorf("%+v, seen %v, %v", caller, l.Seen, err)
	}
	station, err := r.StationOf(t.Context(), key, later)
	if err != nil || station.Name != "Seat 1" {
		t.Errorf("%+v, %v", station, err)
	}
	var missing *people.NotFound
	if _, err := r.StationOf(t.Context(), people.Hash{3}, later); !errors.As(err, &missing) {
		t.Errorf("a key that nobody has: %v", err)
	}
	if err := r.EndLogin("l"); !errors.Is(err, errReadOnly) {
		t.Errorf("a login is said to have ended: %v", err)
	}
}
