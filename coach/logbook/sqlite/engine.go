// Package sqlite keeps a logbook in one SQLite file, through a driver that needs no cgo. The file itself (connections,
// migrations, failures) is in package db; what changes and reads its tables is in package tables.
package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"time"

	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite/db"
	"halfturn/coach/logbook/tables/change"
	"halfturn/coach/logbook/tables/query"
)

// Engine keeps logbooks in SQLite files.
type Engine struct{}

var _ logbook.Engine = Engine{}

// A book is an open logbook.
type book struct {
	*db.File
	change.Changes
	query.Questions
}

var _ logbook.Book = (*book)(nil)

func bookIn(f *db.File) *book {
	d := db.Tables{File: f}
	return &book{f, change.To(d), query.Questions{Database: d}}
}

// Open opens a file for writing, and creates one that does not exist. With check, a file that was not closed properly
// is read through for damage.
func (Engine) Open(file string, check bool) (logbook.Book, error) {
	f, err := db.Open(file, check)
	if err != nil {
		return nil, err
	}
	return bookIn(f), nil
}

// OpenReadOnly opens a file that must not be changed, or that lies where nothing can be written.
func (Engine) OpenReadOnly(file string) (logbook.Book, error) {
	f, err := db.OpenReadOnly(file)
	if err != nil {
		return nil, err
	}
	return bookIn(f), nil
}

// MoveAside renames a damaged file, and the journal files that belong to it, and returns the new name.
func (Engine) MoveAside(file string, now time.Time) (string, error) {
	base := file + ".damaged-" + now.UTC().Format("2006-01-02T15-04-05Z")
	for n := 1; ; n++ {
		to := base
		if n > 1 {
			to = fmt.Sprintf("%s-%d", base, n)
		}
		if _, err := os.Lstat(to); err == nil {
			continue
		}
		if err := os.Rename(file, to); err != nil {
			return "", err
		}
		for _, tail := range []string{"-wal", "-shm"} {
			if err := os.Rename(file+tail, to+tail); err != nil && !errors.Is(err, fs.ErrNotExist) {
				return "", err
			}
		}
		return to, nil
	}
}

// Backup copies the database to a file that does not exist yet.
func (b *book) Backup(ctx context.Context, to string) error {
	// The copy has a connection of its own: those for queries may not copy, and the one that writes stays free.
	conns := b.Read
	if b.Write != nil {
		var err error
		if conns, err = sql.Open("sqlite", db.DSN(b.Name, "mode", "ro")); err != nil {
			return err
		}
		defer conns.Close()
	}
	_, err := conns.ExecContext(ctx, `VACUUM INTO ?`, to)
	return b.Plainly(err)
}
