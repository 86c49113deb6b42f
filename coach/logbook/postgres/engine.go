// Package postgres keeps the logbook of many nodes in PostgreSQL. It keeps the tables that package tables knows, under
// the same verbs as SQLite does for one machine.
//
// Changes are serializable transactions: two nodes that change the same rows at once do so as if one came after the
// other, and a change that is in the way of another is made again. Rebuilding alone keeps everybody else from changing
// anything. Tables are made and brought to the newest shape by whoever opens the logbook first, behind an advisory lock.
package postgres

import (
	"context"
	"errors"
	"io/fs"
	"time"

	"halfturn/coach/logbook"
	"halfturn/coach/logbook/tables/change"
	"halfturn/coach/logbook/tables/query"
)

// Engine keeps logbooks in the database of a connection string, such as "host=/run/postgresql user=halfturn" or
// "postgres://halfturn@db.example/halfturn?sslmode=verify-full". The names of files that it is given mean nothing.
type Engine struct{ DSN string }

var _ logbook.Engine = Engine{}

// A book is an open logbook.
type book struct {
	*database
	change.Changes
	query.Questions
}

var _ logbook.Book = (*book)(nil)

// Open connects to the database, and makes the tables where there are none.
func (e Engine) Open(string, bool) (logbook.Book, error) {
	d, err := open(context.Background(), e.DSN)
	if err != nil {
		return nil, err
	}
	if err := d.migrate(context.Background()); err != nil {
		return nil, errors.Join(d.plainly(err), d.Close())
	}
	return bookIn(d), nil
}

func bookIn(d *database) *book {
	return &book{d, change.Changes{Database: d}, query.Questions{Database: d}}
}

// OpenReadOnly connects to a database that has the tables already; the error is [fs.ErrNotExist] where it has none.
func (e Engine) OpenReadOnly(string) (logbook.Book, error) {
	d, err := open(context.Background(), e.DSN)
	if err != nil {
		return nil, err
	}
	shape, err := d.shape(context.Background(), d.pool)
	if err == nil && shape == 0 {
		err = fs.ErrNotExist
	}
	if err != nil {
		return nil, errors.Join(d.plainly(err), d.Close())
	}
	d.readOnly = true
	return bookIn(d), nil
}

// MoveAside refuses: a database is not moved away, it is mended by who runs it.
func (e Engine) MoveAside(string, time.Time) (string, error) {
	return "", errors.New("a logbook in PostgreSQL is not moved aside: restore the database from its backup")
}

// Backup refuses: the database has its own.
func (b *book) Backup(context.Context, string) error {
	return &logbook.Failure{Words: "the logbook is in PostgreSQL: back it up with pg_dump, or copy it to a file with " +
		"halfturn logbook move"}
}
