package sqlite

import (
	"context"
	"database/sql"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"halfturn/coach/logbook"
	"halfturn/coach/logbook/booktest"
	"halfturn/coach/logbook/sqlite/db"
)

// open opens a new book.
func open(t testing.TB) *book {
	t.Helper()
	b, err := Engine{}.Open(filepath.Join(t.TempDir(), "logbook.db"), true)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := b.Close(); err != nil {
			t.Error(err)
		}
	})
	return b.(*book)
}

// TestBook: the engine keeps a logbook as the interface says.
func TestBook(t *testing.T) {
	booktest.Run(t, func(t *testing.T) logbook.Book { return open(t) })
}

func must(t *testing.T, errs ...error) {
	t.Helper()
	for _, err := range errs {
		if err != nil {
			t.Fatal(err)
		}
	}
}

// count asks for one number.
func count(t *testing.T, b *book, q string, args ...any) (n int) {
	t.Helper()
	if err := b.Read.QueryRow(q, args...).Scan(&n); err != nil {
		t.Fatalf("%s: %v", q, err)
	}
	return n
}

func TestMigrations(t *testing.T) {
	b := open(t)
	names, err := os.ReadDir("db/migrations")
	must(t, err)
	if n := count(t, b, "PRAGMA user_version"); n != len(names) {
		t.Errorf("version %d, want %d", n, len(names))
	}
	for pragma, want := range map[string]string{
		"journal_mode":   "wal",
		"foreign_keys":   "1",
		"synchronous":    "2",
		"busy_timeout":   "10000",
		"application_id": "1213484098",
	} {
		for _, db := range []*sql.DB{b.Read, b.Write} {
			var got string
			if err := db.QueryRow("PRAGMA " + pragma).Scan(&got); err != nil || got != want {
				t.Errorf("%s is %s, want %s; %v", pragma, got, want, err)
			}
		}
	}
	var said string
	if err := b.Read.QueryRow("PRAGMA integrity_check").Scan(&said); err != nil || said != "ok" {
		t.Error(said, err)
	}
}

// A file that cannot be written is told in plain words, once SQLite refuses it.
func TestFileReadOnly(t *testing.T) {
	b := open(t)
	_, err := b.Write.Exec("PRAGMA query_only = 1") // refuses as a read-only file does, for root too
	must(t, err)
	err = b.Begin(booktest.Entry("x", booktest.Began, ""))
	failure, ok := err.(*logbook.Failure)
	if !ok || !failure.Lost || !failure.Unwritable || !strings.Contains(err.Error(), "read-only") ||
		!strings.Contains(err.Error(), "--data") {
		t.Errorf("%+v", err)
	}
}

// A full disk is told in plain words, changes nothing, and is over when there is room again.
func TestDiskFull(t *testing.T) {
	b := open(t)
	const id = "2031-05-04T09-00-07Z_seat"
	must(t, b.Begin(booktest.Entry(id, booktest.Began, "")))
	var pages int
	must(t, b.Write.QueryRow("PRAGMA page_count").Scan(&pages))
	// No page more: SQLITE_FULL, as on a full disk.
	_, err := b.Write.Exec("PRAGMA max_page_count = " + strconv.Itoa(pages))
	must(t, err)
	s := &logbook.Standing{Remarks: []logbook.Remark{{ID: 1, Words: strings.Repeat("x ", 20_000), At: booktest.Began}}}
	err = b.Act(id, s)
	failure, ok := err.(*logbook.Failure)
	if !ok || !failure.Unwritable || failure.Damaged || !strings.Contains(err.Error(), "disk is full") {
		t.Fatalf("%+v", err)
	}
	if n := count(t, b, "SELECT count(*) FROM remarks"); n != 0 {
		t.Errorf("%d remarks", n)
	}
	_, err = b.Write.Exec("PRAGMA max_page_count = 1000000")
	must(t, err, b.Act(id, s))
}

// No search makes an error, whatever it holds.
func FuzzText(f *testing.F) {
	b := open(f)
	for _, s := range []string{"nose", `"`, "a OR", "NEAR(", "*", "col:x", "^a", "-a", "é", "\xff", "a\x00b", "+", "{}",
		"座席"} {
		f.Add(s, "1_x")
	}
	f.Fuzz(func(t *testing.T, text, after string) {
		if _, err := b.List(context.Background(), logbook.Filter{Text: text}); err != nil {
			t.Errorf("%q: %v", text, err)
		}
		if _, err := b.List(context.Background(), logbook.Filter{After: after}); err != nil {
			if _, ok := err.(*logbook.Refused); !ok {
				t.Errorf("after %q: %v", after, err)
			}
		}
	})
}

// TestMany: answers about many sessions are bounded.
func TestMany(t *testing.T) {
	b := open(t)
	booktest.RunMany(t, b, db.Tables{File: b.File})
}
