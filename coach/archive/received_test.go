package archive

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"halfturn/coach/archive/folder"
	"halfturn/coach/ids"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/who"
	"halfturn/stream/record"
)

// TestReceived: a session of another Halfturn keeps its id, or gets a number beside one that is here; it is found by
// the station and its id there; it is not resumed here; and complete, it is over.
func TestReceived(t *testing.T) {
	b, err := Open(t.TempDir(), Options{Engine: sqlite.Engine{}, Version: "1.2"})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	const id = "2031-05-04T09-00-07Z_127.0.0.1-49000"
	began := time.Date(2031, 5, 4, 9, 0, 7, 0, time.UTC)
	if _, ok := b.Received("A", id); ok {
		t.Error("what never came is there")
	}
	for _, c := range []struct{ station, id string }{
		{"A", id}, {"B", id + "_2"}, {"A", id}, {"B", id + "_2"}, {"C", id + "_3"},
	} {
		r, err := b.Receive(c.station, id, logbook.Entry{Key: ids.New(began), Began: began, Station: "seat at home"})
		if err != nil || r.ID != c.id || r.Done {
			t.Fatalf("of %s: %+v, %v; must be %s", c.station, r, err, c.id)
		}
		if found, ok := b.Received(c.station, id); !ok || found != r {
			t.Errorf("of %s is found %+v", c.station, found)
		}
	}
	for _, name := range []string{"", "..", "../x", "a/b", strings.Repeat("a", 201)} {
		if _, err := b.Receive("A", name, logbook.Entry{Began: began}); err == nil {
			t.Errorf("%q is received", name)
		}
	}
	if left, err := b.Folders().Unfinished(); err != nil || len(left) > 0 {
		t.Errorf("to be resumed are %v, %v", left, err)
	}
	entry := logbook.Entry{Station: "A", Ended: began.Add(time.Hour)}
	if err := b.Complete(id, nil, entry); err != nil {
		t.Fatal(err)
	}
	if r, ok := b.Received("A", id); !ok || !r.Done || record.Unfinished(filepath.Join(b.Dir(), id)) {
		t.Errorf("complete, it is %+v", r)
	}
	row, err := b.Session(t.Context(), id)
	if err != nil || row.Station != "A" || row.Ended == "" {
		t.Errorf("the logbook has %+v, %v", row, err)
	}
	if r, err := b.Receive("A", id, logbook.Entry{Began: began}); err != nil || !r.Done {
		t.Errorf("received again it is %+v, %v", r, err)
	}
}

// TestTakeActs: of what people added elsewhere, a pilot's words and ratings are taken, once; nobody there overrules,
// signs or keeps here, or is anybody but a student.
func TestTakeActs(t *testing.T) {
	b, err := Open(t.TempDir(), Options{Engine: sqlite.Engine{}, Version: "1.2"})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	began := time.Date(2031, 5, 4, 9, 0, 7, 0, time.UTC)
	r, err := b.Receive("Seat 3", "s", logbook.Entry{Key: ids.New(began), Began: began})
	if err != nil {
		t.Fatal(err)
	}
	var acts []logbook.Act
	for i, kind := range []string{logbook.ActRemark, logbook.ActKeep, logbook.ActOverrule, logbook.ActObserve,
		logbook.ActSign, logbook.ActRate, "of-later", logbook.ActRemark} {
		by := who.Owner()
		if i > 0 {
			by = who.Who{ID: "u1", Name: "Mo Example", Role: who.RoleInstructor}
		}
		acts = append(acts, logbook.Act{ID: ids.New(began), Kind: kind, By: by, At: began, Number: i + 1, Words: "w",
			About: logbook.About{Session: "another", Number: 1}, Keep: true, Grade: "good"})
	}
	for range 2 {
		if err := b.TakeActs(r.ID, "Seat 3", acts); err != nil {
			t.Fatal(err)
		}
	}
	dir := filepath.Join(b.Dir(), r.ID)
	notes, err := folder.ReadNotes(dir)
	if err != nil {
		t.Fatal(err)
	}
	got, err := folder.ReadActs(dir, notes)
	if err != nil {
		t.Fatal(err)
	}
	kinds := []string{}
	for i, a := range got {
		kinds = append(kinds, a.Kind)
		name := "Mo Example"
		if i == 0 {
			name = "Seat 3"
		}
		if a.By != (who.Who{Name: name, Role: who.RoleStudent}) || a.About.Session != notes.Key {
			t.Errorf("%s is by %+v about %s", a.Kind, a.By, a.About.Session)
		}
	}
	if text := strings.Join(kinds, " "); text != "remark rate remark" {
		t.Errorf("taken are %s", text)
	}
	if err := os.RemoveAll(dir); err != nil {
		t.Fatal(err)
	}
	if err := b.TakeActs(r.ID, "Seat 3", acts); err == nil {
		t.Error("acts are added to a folder that is gone")
	}
}
