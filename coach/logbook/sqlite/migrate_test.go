package sqlite

import (
	"database/sql"
	"fmt"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach/ids"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/booktest"
)

// A logbook from before there was one rule for names: two spellings become one student, with what both have flown.
func TestMergeNames(t *testing.T) {
	file := filepath.Join(t.TempDir(), "logbook.db")
	old, err := sql.Open("sqlite", dsn(file))
	must(t, err)
	for _, step := range []string{"0001", "0002"} {
		text, err := migrations.ReadFile("migrations/" + step + ".sql")
		must(t, err)
		_, err = old.Exec(string(text))
		must(t, err)
	}
	for i, name := range []string{"Ada  Example", "Bo Example", "Ada Example", "ADA EXAMPLE", "Zoe\u0308 Example",
		"Cy\x1b[2J Example",
		"\x07", "Zoë Example"} {
		_, err := old.Exec(`INSERT INTO students (name, flew) VALUES (?1, ?2);
			INSERT INTO sessions (id, began, ended, station, student, server, maneuver, standard, aircraft, title)
			VALUES ('s' || ?2, ?2, ?2, 'Seat  3', last_insert_rowid(), '', '', '', '', '')`, name, i+1)
		must(t, err)
	}
	_, err = old.Exec(fmt.Sprintf(`INSERT INTO stations VALUES ('Seat  3', '{"maneuver":"wing-over"}', 1);
		PRAGMA application_id = %d; PRAGMA user_version = 2`, applicationID))
	must(t, err, old.Close())

	ro, err := Engine{}.OpenReadOnly(file) // a disk that cannot be written: it is read as it is
	must(t, err)
	list, err := ro.List(t.Context(), logbook.Filter{Student: "Ada  Example"})
	if err != nil || list.Total != 1 || list.LeftOut.Total != 0 {
		t.Errorf("read only: %+v, %v", list, err)
	}
	if s, err := ro.Student(t.Context(), "Ada Example"); err != nil || s.Name != "" {
		t.Errorf("read only: %+v, %v", s, err)
	}
	must(t, ro.Close())

	b, err := Engine{}.Open(file, false)
	must(t, err)
	defer b.Close()
	got := map[string]int{}
	students, err := b.Students(t.Context(), 0)
	must(t, err)
	for _, name := range students {
		list, err := b.List(t.Context(), logbook.Filter{Student: name})
		must(t, err)
		got[name] = list.Total
	}
	want := map[string]int{"Ada Example": 3, "Bo Example": 1, "Zoë Example": 2, "Cy[2J Example": 1}
	if d := cmp.Diff(want, got); d != "" || students[0] != "Zoë Example" {
		t.Errorf("%v (-want +got):\n%s", students, d)
	}
	list, err = b.List(t.Context(), logbook.Filter{Student: "ada   EXAMPLE"})
	if err != nil || list.Total != 3 || list.Sessions[0].Station != "Seat 3" {
		t.Errorf("%+v, %v", list, err)
	}
	if all, err := b.Stations(t.Context()); err != nil || all["Seat 3"].Maneuver != "wing-over" {
		t.Errorf("%+v, %v", all, err)
	}
	if n := count(t, b.(*book), `SELECT count(*) FROM students WHERE fold = ''`); n != 0 {
		t.Errorf("%d without a folded name", n)
	}
}

// A logbook from before there were ids gets those that the session folders give, and no two have one.
func TestAddIDs(t *testing.T) {
	b := open(t)
	booktest.Fill(t, b, 12)
	const id = "2031-05-04T09-00-07Z_seat-0"
	must(t, b.Regrade(id, &logbook.Grading{At: booktest.Began, Report: booktest.Report(id,
		booktest.Flight(1, "finished", "met", "good", 90, ""))}))
	tables := []string{"sessions", "students", "remarks", "legs"}
	must(t, b.change(func(tx *sql.Tx) error {
		for _, table := range tables {
			if _, err := tx.Exec(`UPDATE ` + table + ` SET uid = rowid`); err != nil {
				return err
			}
		}
		if _, err := tx.Exec(`DROP INDEX students_uid; DROP INDEX sessions_uid`); err != nil {
			return err
		}
		return addIDs(tx)
	}))
	for _, table := range tables {
		all, distinct := count(t, b, `SELECT count(*) FROM `+table), count(t, b,
			`SELECT count(DISTINCT uid) FROM `+table)
		if all == 0 || all != distinct {
			t.Errorf("%d %s have %d ids", all, table, distinct)
		}
		var uid string
		must(t, b.read.QueryRow(`SELECT uid FROM `+table+` ORDER BY key LIMIT 1`).Scan(&uid))
		if !ids.Valid(uid) {
			t.Errorf("%s: %q", table, uid)
		}
	}
	var session, leg, remark string
	must(t, b.read.QueryRow(`SELECT uid FROM sessions WHERE id = ?`, id).Scan(&session),
		b.read.QueryRow(`SELECT l.uid FROM legs l JOIN sessions s ON s.key = l.session WHERE s.id = ? ORDER BY l.key
			LIMIT 1`, id).Scan(&leg),
		b.read.QueryRow(`SELECT r.uid FROM remarks r JOIN sessions s ON s.key = r.session WHERE s.id = ?`,
			id).Scan(&remark))
	key := logbook.SessionKey(booktest.Began, id, "seat 0")
	if session != key || leg != logbook.LegID(booktest.Began, key, 1) || remark != logbook.RemarkID(booktest.Began, key,
		1) {
		t.Errorf("%s, %s, %s", session, leg, remark)
	}
}

// A part of a change that cannot be made leaves no trace, and the parts before and after it stand.
func TestApart(t *testing.T) {
	b := open(t)
	add := func(tx *sql.Tx, name string) error {
		_, err := studentKey(tx, logbook.Student{Name: name}, "", 1)
		return err
	}
	must(t, b.change(func(tx *sql.Tx) error {
		for _, part := range []struct {
			name  string
			after string // what else the part does
			made  bool
		}{
			{"one", "", true},
			{"two", "INSERT INTO students (name, fold) VALUES ('one', 'one')", false}, // there is one
			{"three", "INSERT INTO sessions (id) VALUES (NULL)", false},
			{"four", "INSERT INTO students (name, fold, flew) VALUES ('five', 'five', 'a word')", false}, // STRICT
			{"six", "", true},
		} {
			why, err := apart(tx, func() error {
				if err := add(tx, part.name); err != nil || part.after == "" {
					return err
				}
				_, err := tx.Exec(part.after)
				return err
			})
			if err != nil || (why == nil) != part.made {
				t.Errorf("%s: %v, %v", part.name, why, err)
			}
		}
		// What is wrong with the database itself is no part's own.
		if why, err := apart(tx, func() error { return errDamaged }); why != nil || err == nil {
			t.Errorf("damaged: %v, %v", why, err)
		}
		return nil
	}))
	var left []string
	rows, err := b.read.Query(`SELECT name FROM students ORDER BY key`)
	must(t, each(rows, err, func() error {
		var name string
		err := rows.Scan(&name)
		left = append(left, name)
		return err
	}))
	if d := cmp.Diff([]string{"one", "six"}, left); d != "" {
		t.Error(d)
	}
}
