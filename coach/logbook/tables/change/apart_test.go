package change

import (
	"errors"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite/db"
	"halfturn/coach/logbook/tables"
)

func opened(t *testing.T) db.Tables {
	t.Helper()
	f, err := db.Open(filepath.Join(t.TempDir(), "logbook.db"), false)
	must(t, err)
	t.Cleanup(func() { must(t, f.Close()) })
	return db.Tables{File: f}
}

func must(t *testing.T, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

// A part of a change that cannot be made leaves no trace, and the parts before and after it stand.
func TestApart(t *testing.T) {
	b := opened(t)
	add := func(tx *tables.Tx, name string) error {
		_, err := studentKey(tx, logbook.Student{Name: name}, "", 1)
		return err
	}
	must(t, b.Change(func(tx *tables.Tx) error {
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
		if why, err := apart(tx, func() error { return db.ErrDamaged }); why != nil || err == nil {
			t.Errorf("damaged: %v, %v", why, err)
		}
		return nil
	}))
	var left []string
	rows, err := b.Read.Query(`SELECT name FROM students ORDER BY key`)
	must(t, tables.Each(rows, err, func() error {
		var name string
		err := rows.Scan(&name)
		left = append(left, name)
		return err
	}))
	if d := cmp.Diff([]string{"one", "six"}, left); d != "" {
		t.Error(d)
	}
}
