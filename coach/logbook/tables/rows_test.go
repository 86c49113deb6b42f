package tables_test

import (
	"errors"
	"path/filepath"
	"testing"
	"time"

	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite/db"
	"halfturn/coach/logbook/tables"
)

func must(t *testing.T, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

func opened(t *testing.T) tables.Database {
	t.Helper()
	f, err := db.Open(filepath.Join(t.TempDir(), "logbook.db"), false)
	must(t, err)
	t.Cleanup(func() { must(t, f.Close()) })
	return db.Tables{File: f}
}

// TestEach passes on what goes wrong, and reads no further.
func TestEach(t *testing.T) {
	f, stop := opened(t), errors.New("stop")
	must(t, f.Ask(t.Context(), func(tx *tables.Tx) error {
		if err := tables.Each(nil, stop, nil); !errors.Is(err, stop) {
			t.Errorf("a query that failed: %v", err)
		}
		n := 0
		rows, err := tx.Query(`VALUES (1), (2), (3)`)
		if err := tables.Each(rows, err, func() error { n++; return stop }); !errors.Is(err, stop) || n != 1 {
			t.Errorf("%d rows after an error, %v", n, err)
		}
		return nil
	}))
}

// TestTimes come back to the millisecond, and the zero time as none.
func TestTimes(t *testing.T) {
	at := time.Date(2031, 5, 4, 11, 0, 7, 123_456_789, time.FixedZone("east", 2*3600))
	back := tables.MomentOr(tables.Stamp(at))
	if !back.Equal(at.Truncate(time.Millisecond)) || back.Location() != time.UTC {
		t.Errorf("%v comes back as %v", at, back)
	}
	if s := tables.Stamp(time.Time{}); s.Valid || !tables.MomentOr(s).IsZero() {
		t.Errorf("no time is %+v", s)
	}
}

// TestFind: a change of a session that is not there is told so.
func TestFind(t *testing.T) {
	f := opened(t)
	var none *logbook.NotFound
	err := f.Change(func(tx *tables.Tx) error {
		_, _, err := tables.Find(tx, "x")
		return err
	})
	if !errors.As(err, &none) || none.ID != "x" {
		t.Errorf("looked for: %v", err)
	}
	err = f.Change(func(tx *tables.Tx) error {
		return tables.One("x")(tx.Exec(`DELETE FROM sessions WHERE id = 'x'`))
	})
	if !errors.As(err, &none) || none.ID != "x" {
		t.Errorf("changed: %v", err)
	}
	fails := errors.New("failed")
	if err := tables.One("x")(nil, fails); err != fails {
		t.Errorf("a change that failed: %v", err)
	}
}
