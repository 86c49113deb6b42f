package take_test

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"testing"
)

// TestImportCut: a capture that breaks off is taken in as far as it goes.
func TestImportCut(t *testing.T) {
	b := newBook(t)
	c := newTape()
	c.level(1, 0, 20)
	c.Truncate(c.Len() - 10)
	taken, err := importer(t, b).Receive(t.Context(), bytes.NewReader(c.Bytes()), "x")
	if err != nil || len(taken.Sessions) != 1 || taken.Damage == nil || !strings.Contains(taken.Damage.Error(),
		"cut off after 399 packets") {
		t.Errorf("%+v, %v", taken, err)
	}
}

// A stopping reader ends a context after some bytes.
type stopping struct {
	r    io.Reader
	n    int
	stop func()
}

func (s *stopping) Read(p []byte) (int, error) {
	if s.n -= len(p); s.n < 0 {
		s.stop()
	}
	return s.r.Read(p[:min(len(p), 4096)])
}

// TestImportAborted: one that is stopped, that its sender breaks off, or whose last session cannot be entered, leaves
// nothing, also of those before.
func TestImportAborted(t *testing.T) {
	b := newBook(t)
	c := newTape()
	for i := range 5 {
		c.level(1, float64(i)*300, 5)
	}
	t.Run("stopped", func(t *testing.T) {
		unchanged(t, b, func() {
			ctx, cancel := context.WithCancel(t.Context())
			defer cancel()
			if _, err := importer(t, b).Receive(ctx, &stopping{bytes.NewReader(c.Bytes()), c.Len() / 2, cancel},
				"x"); !errors.Is(err, context.Canceled) {
				t.Error(err)
			}
			if _, err := importer(t, b).Import(ctx, c.file(t), "x"); !errors.Is(err, context.Canceled) {
				t.Error(err)
			}
		})
	})
	t.Run("broken off", func(t *testing.T) {
		unchanged(t, b, func() {
			broken := errors.New("the sender has gone")
			r := io.MultiReader(io.LimitReader(bytes.NewReader(c.Bytes()), int64(c.Len()/2)), &failing{broken})
			if _, err := importer(t, b).Receive(t.Context(), r, "x"); !errors.Is(err, broken) {
				t.Error(err)
			}
		})
	})
	t.Run("cannot be entered", func(t *testing.T) {
		db, err := sql.Open("sqlite", filepath.Join(filepath.Dir(b.Dir()), "logbook.db"))
		if err != nil {
			t.Fatal(err)
		}
		defer db.Close()
		// The last of the five begins 1,200 s after the first.
		if _, err := db.Exec(fmt.Sprintf(`CREATE TRIGGER full BEFORE INSERT ON sessions WHEN new.began = %d
			BEGIN SELECT raise(ABORT, 'no room'); END`, int64(began+1200)*1000)); err != nil {
			t.Fatal(err)
		}
		unchanged(t, b, func() {
			if _, err := importer(t, b).Import(t.Context(), c.file(t), "x"); err == nil ||
				!strings.Contains(err.Error(), "no room") {
				t.Error(err)
			}
		})
		if _, err := db.Exec(`DROP TRIGGER full`); err != nil {
			t.Fatal(err)
		}
	})
	if taken, err := importer(t, b).Import(t.Context(), c.file(t), "x"); err != nil || len(taken.Sessions) != 5 {
		t.Errorf("afterwards: %+v, %v", taken, err)
	}
}

type failing struct{ err error }

func (f *failing) Read([]byte) (int, error) { return 0, f.err }
