package db_test

import (
	"database/sql"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite/db"
	"halfturn/coach/logbook/tables"
)

func openedAs(t *testing.T, name string) *db.File {
	t.Helper()
	f, err := db.Open(filepath.Join(t.TempDir(), name), true)
	must(t, err)
	t.Cleanup(func() { must(t, f.Close()) })
	return f
}

// TestNames: a data directory may be called anything that a file system takes.
func TestNames(t *testing.T) {
	for _, name := range []string{"logbook.db", "with space.db", "50%.db", "a?b.db", "a#b&c=d.db", "größe 座席.db"} {
		f := openedAs(t, name)
		if _, err := os.Stat(f.Name); err != nil || filepath.Base(f.Name) != name {
			t.Errorf("%q is not where it was asked for: %v", name, err)
		}
	}
}

// TestPlainly: what a damaged or missing file means is said in words; an error of the caller's own stays as it is.
func TestPlainly(t *testing.T) {
	f := openedAs(t, "logbook.db")
	other := errors.New("something else")
	if f.Plainly(nil) != nil || f.Plainly(other) != other {
		t.Error("an error that is none of the database's changes")
	}
	dir := t.TempDir()
	torn := filepath.Join(dir, "torn.db")
	must(t, os.WriteFile(torn, []byte(strings.Repeat("not a database ", 500)), 0o600))
	for file, c := range map[string]struct {
		says          string
		damaged, lost bool
	}{
		torn:                              {"rebuilds it", true, false},
		filepath.Join(dir, "no", "db.db"): {"--data", false, true},
	} {
		_, err := db.Open(file, false)
		var failure *logbook.Failure
		if !errors.As(err, &failure) {
			t.Errorf("%s: %v", file, err)
			continue
		}
		if !strings.Contains(err.Error(), c.says) || !strings.Contains(err.Error(), file) ||
			failure.Damaged != c.damaged || failure.Lost != c.lost || db.Damaged(failure.Err) != c.damaged {
			t.Errorf("%s: %v, %+v", file, err, failure)
		}
	}
	if _, err := db.OpenReadOnly(filepath.Join(dir, "none.db")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("to be read only, a file that is not there: %v", err)
	}
	if _, err := db.OpenReadOnly(torn); !db.Damaged(err) {
		t.Errorf("to be read only, a damaged file: %v", err)
	}
}

// TestChange: a change is made whole or not at all, and none where the file is read only.
func TestChange(t *testing.T) {
	f := openedAs(t, "logbook.db")
	fails := errors.New("the second step fails")
	add := func(tx *sql.Tx, name string) error {
		_, err := tx.Exec(`INSERT INTO stations (name, choice, at) VALUES (?, '{}', 0)`, name)
		return err
	}
	must(t, f.Change(func(tx *sql.Tx) error { return add(tx, "one") }))
	err := f.Change(func(tx *sql.Tx) error { return errors.Join(add(tx, "two"), fails) })
	if !errors.Is(err, fails) {
		t.Errorf("%v; must be %v", err, fails)
	}
	var names []string
	must(t, f.Ask(t.Context(), func(tx *sql.Tx) error {
		rows, err := tx.Query(`SELECT name FROM stations`)
		return tables.Each(rows, err, func() error {
			names = append(names, "")
			return rows.Scan(&names[len(names)-1])
		})
	}))
	if len(names) != 1 || names[0] != "one" {
		t.Errorf("the stations are %q", names)
	}
	if err := f.Ask(t.Context(), func(tx *sql.Tx) error { return add(tx, "three") }); err == nil {
		t.Error("a question changes the book")
	}
	ro, err := db.OpenReadOnly(f.Name)
	must(t, err)
	defer ro.Close()
	var failure *logbook.Failure
	if err := ro.Change(func(*sql.Tx) error { return nil }); !errors.As(err, &failure) {
		t.Errorf("a file that is read only is changed: %v", err)
	}
}
