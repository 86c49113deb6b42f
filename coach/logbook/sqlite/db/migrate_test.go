package db_test

import (
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach/ids"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/booktest"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/logbook/sqlite/db"
)

// A logbook from before there was one rule for names: two spellings become one student, with what both have flown.
func TestMergeNames(t *testing.T) {
	file := filepath.Join(t.TempDir(), "logbook.db")
	old, err := sql.Open("sqlite", db.DSN(file))
	must(t, err)
	for _, step := range []string{"0001", "0002"} {
		text, err := os.ReadFile("migrations/" + step + ".sql")
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
		PRAGMA application_id = %d; PRAGMA user_version = 2`, db.ApplicationID))
	must(t, err, old.Close())

	ro, err := sqlite.Engine{}.OpenReadOnly(file) // a disk that cannot be written: it is read as it is
	must(t, err)
	list, err := ro.List(t.Context(), logbook.Filter{Student: "Ada  Example"})
	if err != nil || list.Total != 1 || list.LeftOut.Total != 0 {
		t.Errorf("read only: %+v, %v", list, err)
	}
	if s, err := ro.Student(t.Context(), "Ada Example"); err != nil || s.Name != "" {
		t.Errorf("read only: %+v, %v", s, err)
	}
	must(t, ro.Close())

	b, err := sqlite.Engine{}.Open(file, false)
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
	if n := count(t, opened(t, file), `SELECT count(*) FROM students WHERE fold = ''`); n != 0 {
		t.Errorf("%d without a folded name", n)
	}
}

// A logbook from before there were ids gets those that the session folders give, and no two have one.
func TestAddIDs(t *testing.T) {
	file := filepath.Join(t.TempDir(), "logbook.db")
	b, err := sqlite.Engine{}.Open(file, false)
	must(t, err)
	defer b.Close()
	f := opened(t, file)
	booktest.Fill(t, b, 12)
	const id = "2031-05-04T09-00-07Z_seat-0"
	must(t, b.Regrade(id, &logbook.Grading{At: booktest.Began, Report: booktest.Report(id,
		booktest.Flight(1, "finished", "met", "good", 90, ""))}))
	tables := []string{"sessions", "students", "remarks", "legs"}
	must(t, f.Change(func(tx *sql.Tx) error {
		for _, table := range tables {
			if _, err := tx.Exec(`UPDATE ` + table + ` SET uid = rowid`); err != nil {
				return err
			}
		}
		if _, err := tx.Exec(`DROP INDEX students_uid; DROP INDEX sessions_uid`); err != nil {
			return err
		}
		return db.AddIDs(tx)
	}))
	for _, table := range tables {
		all, distinct := count(t, f, `SELECT count(*) FROM `+table), count(t, f,
			`SELECT count(DISTINCT uid) FROM `+table)
		if all == 0 || all != distinct {
			t.Errorf("%d %s have %d ids", all, table, distinct)
		}
		var uid string
		must(t, f.Read.QueryRow(`SELECT uid FROM `+table+` ORDER BY key LIMIT 1`).Scan(&uid))
		if !ids.Valid(uid) {
			t.Errorf("%s: %q", table, uid)
		}
	}
	var session, leg, remark string
	must(t, f.Read.QueryRow(`SELECT uid FROM sessions WHERE id = ?`, id).Scan(&session),
		f.Read.QueryRow(`SELECT l.uid FROM legs l JOIN sessions s ON s.key = l.session WHERE s.id = ? ORDER BY l.key
			LIMIT 1`, id).Scan(&leg),
		f.Read.QueryRow(`SELECT r.uid FROM remarks r JOIN sessions s ON s.key = r.session WHERE s.id = ?`,
			id).Scan(&remark))
	key := logbook.SessionKey(booktest.Began, id, "seat 0")
	if session != key || leg != logbook.LegID(booktest.Began, key, 1) || remark != logbook.RemarkID(booktest.Began, key,
		1) {
		t.Errorf("%s, %s, %s", session, leg, remark)
	}
}

// opened opens the file of a logbook beside the book.
func opened(t *testing.T, file string) *db.File {
	t.Helper()
	f, err := db.Open(file, false)
	must(t, err)
	t.Cleanup(func() { must(t, f.Close()) })
	return f
}

func must(t *testing.T, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

// count asks for one number.
func count(t *testing.T, f *db.File, q string, args ...any) (n int) {
	t.Helper()
	must(t, f.Read.QueryRow(q, args...).Scan(&n))
	return n
}
