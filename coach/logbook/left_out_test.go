package logbook

import (
	"database/sql"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/names"
)

// renotes changes the notes in the folder of a session as whoever edits them by hand would.
func renotes(t *testing.T, data, id string, change func(n map[string]any)) []byte {
	t.Helper()
	name := filepath.Join(data, "sessions", id, notesFile)
	text, err := os.ReadFile(name)
	must(t, err)
	var n map[string]any
	must(t, json.Unmarshal(text, &n))
	change(n)
	text, err = json.Marshal(n)
	must(t, err, os.WriteFile(name, text, 0o600))
	return text
}

func doubled(n map[string]any) {
	list := n["remarks"].([]any)
	n["remarks"] = append(list, list[0])
}

// One bad file of notes leaves its own session out, says so and says why, and keeps no other one out: in a rebuild, and
// when the database is gone and the server rebuilds it.
func TestLeftOut(t *testing.T) {
	for name, change := range map[string]struct {
		change func(map[string]any)
		why    string
	}{
		"a doubled id":         {doubled, "two remarks with the id 1"},
		"an id that is none":   {func(n map[string]any) { n["remarks"].([]any)[0].(map[string]any)["id"] = 0 }, "a remark with the id 0"},
		"an id below the none": {func(n map[string]any) { n["remarks"].([]any)[0].(map[string]any)["id"] = -3 }, "a remark with the id -3"},
	} {
		t.Run(name, func(t *testing.T) {
			data, was := sat(t)
			bad := was.Sessions[1].ID
			text := renotes(t, data, bad, change.change)
			check := func(b *Book, told []string) {
				t.Helper()
				list, err := b.List(t.Context(), Filter{})
				must(t, err)
				if list.Total != 2 || list.Sessions[0].ID != was.Sessions[0].ID || list.Sessions[1].ID != was.Sessions[2].ID {
					t.Errorf("the logbook holds %+v", list.Sessions)
				}
				out, err := b.LeftOut(t.Context())
				must(t, err)
				if d := cmp.Diff(out, list.LeftOut); d != "" || out.Total != 1 || len(out.Sessions) != 1 || out.Sessions[0].ID != bad || !strings.Contains(out.Sessions[0].Why, change.why) {
					t.Errorf("left out %+v %s", out, d)
				}
				if !slices.ContainsFunc(told, func(s string) bool { return strings.Contains(s, bad) && strings.Contains(s, change.why) }) {
					t.Errorf("told %q", told)
				}
				if now, err := os.ReadFile(filepath.Join(b.Dir(), bad, notesFile)); err != nil || string(now) != string(text) {
					t.Errorf("its notes are changed: %v", err)
				}
			}
			var told []string
			o := Options{Version: "1.2", Repair: true, Tell: func(s string) { told = append(told, s) }}
			b, err := Open(data, o)
			must(t, err)
			if n, err := b.Rebuild(t.Context(), nil); n != 2 || err != nil {
				t.Errorf("rebuilt %d, %v", n, err)
			}
			check(b, told)
			must(t, b.Close(), os.Remove(filepath.Join(data, "logbook.db")))
			told = nil
			b, err = Open(data, o)
			must(t, err)
			defer b.Close()
			check(b, told)
			for _, r := range was.Sessions { // mended, it is taken in
				renotes(t, data, r.ID, func(n map[string]any) { n["remarks"] = []any{} })
			}
			if n, err := b.Rebuild(t.Context(), nil); n != 3 || err != nil {
				t.Errorf("rebuilt %d, %v", n, err)
			}
			if out, err := b.LeftOut(t.Context()); err != nil || out.Total != 0 {
				t.Errorf("still left out: %+v, %v", out, err)
			}
		})
	}
}

// A session that was left out and goes on is entered, and what its notes said is kept beside.
func TestLeftOutGoesOn(t *testing.T) {
	data, was := sat(t)
	bad := was.Sessions[1].ID
	text := renotes(t, data, bad, doubled)
	b, err := Open(data, Options{Version: "1.2"})
	must(t, err)
	defer b.Close()
	_, err = b.Rebuild(t.Context(), nil)
	must(t, err, b.Begin(Entry{ID: bad, Station: "seat", Began: began}), b.SetKeep(bad, true))
	if out, err := b.LeftOut(t.Context()); err != nil || out.Total != 0 {
		t.Errorf("left out %+v, %v", out, err)
	}
	kept, err := os.ReadFile(filepath.Join(b.Dir(), bad, "notes-damaged-0001.json"))
	if err != nil || string(kept) != string(text) {
		t.Errorf("its notes are lost: %v", err)
	}
	folderAgrees(t, b)
}

// Whatever whoever writes notes puts into them, the logbook holds names and words as they are entered.
func TestRebuildTidies(t *testing.T) {
	data, was := sat(t)
	renotes(t, data, was.Sessions[0].ID, func(n map[string]any) {
		n["student"], n["station"] = "Student  \x1b[31m2", "seat\u202e\x07"
		r := n["remarks"].([]any)[0].(map[string]any)
		r["words"], r["by"] = "late\x1b]0;x\x07\nagain", "B.\u00a0 Example\u009b"
	})
	renotes(t, data, was.Sessions[1].ID, func(n map[string]any) { n["student"] = "STUDENT\u00a00" })
	b, err := Open(data, Options{Version: "1.2"})
	must(t, err)
	defer b.Close()
	_, err = b.Rebuild(t.Context(), nil)
	must(t, err)
	all := whole(t, b)
	newest, middle, oldest := all.Details[0], all.Details[1], all.Details[2]
	if newest.Student != "Student [31m2" || newest.Station != "seat" || newest.Said[0].Words != "late]0;x\nagain" || newest.Said[0].By != "B. Example" {
		t.Errorf("%+v", newest)
	}
	if oldest.Student != "Student 0" || middle.Student != "Student 0" {
		t.Errorf("%q and %q", oldest.Student, middle.Student)
	}
}

// A logbook from before there was one rule for names: two spellings become one student, with what both have flown.
func TestMergeNames(t *testing.T) {
	data := t.TempDir()
	file := filepath.Join(data, "logbook.db")
	must(t, os.MkdirAll(filepath.Join(data, "sessions"), 0o750))
	old, err := sql.Open("sqlite", dsn(file))
	must(t, err)
	for _, step := range []string{"0001", "0002"} {
		text, err := migrations.ReadFile("migrations/" + step + ".sql")
		must(t, err)
		_, err = old.Exec(string(text))
		must(t, err)
	}
	for i, name := range []string{"Ada  Example", "Bo Example", "Ada Example", "ADA EXAMPLE", "Zoe\u0308 Example", "Cy\x1b[2J Example", "\x07", "Zoë Example"} {
		_, err := old.Exec(`INSERT INTO students (name, flew) VALUES (?1, ?2);
			INSERT INTO sessions (id, began, ended, station, student, server, maneuver, standard, aircraft, title)
			VALUES ('s' || ?2, ?2, ?2, 'Seat  3', last_insert_rowid(), '', '', '', '', '')`, name, i+1)
		must(t, err)
	}
	_, err = old.Exec(fmt.Sprintf(`INSERT INTO stations VALUES ('Seat  3', '{"maneuver":"wing-over"}', 1); PRAGMA application_id = %d; PRAGMA user_version = 2`, applicationID))
	must(t, err, old.Close())

	ro, err := Open(data, Options{ReadOnly: true}) // a disk that cannot be written: it is read as it is
	must(t, err)
	list, err := ro.List(t.Context(), Filter{Student: "Ada  Example"})
	if err != nil || list.Total != 1 || list.LeftOut.Total != 0 {
		t.Errorf("read only: %+v, %v", list, err)
	}
	must(t, ro.Close())

	b, err := Open(data, Options{})
	must(t, err)
	defer b.Close()
	got := map[string]int{}
	students, err := b.Students(t.Context(), 0)
	must(t, err)
	for _, name := range students {
		list, err := b.List(t.Context(), Filter{Student: name})
		must(t, err)
		got[name] = list.Total
	}
	want := map[string]int{"Ada Example": 3, "Bo Example": 1, "Zoë Example": 2, "Cy[2J Example": 1}
	if d := cmp.Diff(want, got); d != "" || students[0] != "Zoë Example" {
		t.Errorf("%v (-want +got):\n%s", students, d)
	}
	if list, err := b.List(t.Context(), Filter{Student: "ada   EXAMPLE"}); err != nil || list.Total != 3 || list.Sessions[0].Station != "Seat 3" {
		t.Errorf("%+v, %v", list, err)
	}
	if c, ok, err := b.StationChoice("Seat 3"); err != nil || !ok || c.Maneuver != "wing-over" {
		t.Errorf("%+v, %v, %v", c, ok, err)
	}
	if n := count(t, b, `SELECT count(*) FROM students WHERE fold = ''`); n != 0 {
		t.Errorf("%d without a folded name", n)
	}
}

// Every way in has one student for the spellings of one name, shown as it was first written.
func TestOneStudent(t *testing.T) {
	b := open(t)
	first := entered(t, b, began, "Ada Example")
	for i, spelling := range []string{"Ada  Example", " ada\u00a0example\n", "ADA EXAMPLE"} {
		id := entered(t, b, began.Add(time.Duration(i+1)*time.Hour), "")
		must(t, b.SetStudent(id, spelling))
		entered(t, b, began.Add(time.Duration(i+10)*time.Hour), spelling)
	}
	students, err := b.Students(t.Context(), 0)
	if d := cmp.Diff([]string{"Ada Example"}, students); d != "" || err != nil {
		t.Errorf("%v %s", err, d)
	}
	list, err := b.List(t.Context(), Filter{Student: "ada example"})
	if err != nil || list.Total != 7 {
		t.Errorf("%d sessions, %v", list.Total, err)
	}
	for _, name := range []string{"Ada\x1b[31m", "Ada\u202e", strings.Repeat("x", names.Longest+1)} {
		if err := b.SetStudent(first, name); err == nil || strings.Contains(err.Error(), "\x1b") {
			t.Errorf("%q: %v", name, err)
		}
	}
	if n, err := ReadNotes(filepath.Join(b.Dir(), first)); err != nil || n.Student != "Ada Example" {
		t.Errorf("%+v, %v", n, err)
	}
}

// A remark is on a leg that was flown, is not endless, and there are not endlessly many.
func TestRemarkBounds(t *testing.T) {
	b := open(t)
	id := entered(t, b, began, "")
	empty := entered(t, b, began.Add(time.Hour), "")
	must(t, b.Keep(id, sitting(id, flight(1, coach.Finished, coach.Met, coach.Good, 90, ""), flight(2, coach.Finished, coach.Met, coach.Good, 90, ""))))
	for _, c := range []struct {
		id, want string
		r        Remark
	}{
		{id, "no leg 3; its last one is leg 2", Remark{Leg: 3, Words: "x"}},
		{empty, "has no legs", Remark{Leg: 1, Words: "x"}},
		{id, "legs count from 1", Remark{Leg: -1, Words: "x"}},
		{id, "U+001B", Remark{Words: "late\x1b[31m"}},
		{id, "U+009B", Remark{Words: "late\u009b31m"}},
		{id, "U+202E", Remark{Words: "\u202eetal"}},
		{id, "U+0007", Remark{Words: "x", By: "B.\x07"}},
		{id, "4001 letters", Remark{Words: strings.Repeat("x", MaxWords+1)}},
		{id, "81 letters", Remark{Words: "x", By: strings.Repeat("x", names.Longest+1)}},
		{id, "no words", Remark{Words: " \n\t"}},
	} {
		_, err := b.Remark(c.id, c.r)
		if _, ok := err.(*Refused); !ok || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: %v, want %q", c.r, err, c.want)
		}
	}
	for _, leg := range []int{0, 1, 2} {
		if _, err := b.Remark(id, Remark{Leg: leg, Words: "x"}); err != nil {
			t.Errorf("leg %d: %v", leg, err)
		}
	}
	must(t, b.change(func(tx *sql.Tx) error {
		key, _, err := find(tx, id)
		for n := 4; n <= MaxRemarks && err == nil; n++ {
			err = insertRemark(tx, key, &Remark{ID: n, Words: "x"})
		}
		return err
	}))
	if _, err := b.Remark(id, Remark{Words: "one more"}); err == nil || !strings.Contains(err.Error(), "500 remarks, as many as are kept") {
		t.Errorf("%v", err)
	}
	if _, err := b.Remark(empty, Remark{Words: "another session"}); err != nil {
		t.Error(err)
	}
}

// A part of a change that cannot be made leaves no trace, and the parts before and after it stand.
func TestApart(t *testing.T) {
	b := open(t)
	add := func(tx *sql.Tx, name string) error {
		_, err := studentKey(tx, name, 1)
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
