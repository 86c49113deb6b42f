package storage

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"halfturn/coach/archive"
	"halfturn/coach/logbook"
	pgbook "halfturn/coach/logbook/postgres"
	"halfturn/coach/logbook/postgres/db"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/people"
	pgpeople "halfturn/coach/people/postgres"
	sqlitepeople "halfturn/coach/people/sqlite"
)

// A Place is where the logbook and the list of people are kept.
type Place struct {
	dir string // a data directory; "" for a database
	dsn string // a connection string of PostgreSQL; "" for a directory
}

// Directory is a data directory.
func Directory(dir string) Place { return Place{dir: dir} }

// At is the place of a connection string, such as "postgres://halfturn@db.example/halfturn" or "host=/run/postgresql
// dbname=halfturn", and of a data directory otherwise.
func At(text string) Place {
	for _, begins := range []string{"postgres://", "postgresql://", "host=", "dbname=", "service="} {
		if strings.HasPrefix(text, begins) {
			return Place{dsn: text}
		}
	}
	return Place{dir: text}
}

// Dir is the data directory; "" for a database.
func (p Place) Dir() string { return p.dir }

// String names the place, without a password.
func (p Place) String() string {
	if p.dsn == "" {
		return p.dir
	}
	return db.Where(p.dsn)
}

// Database is the address and the name of the database, for words of another language; both are "" for a directory.
func (p Place) Database() (address, name string) {
	if p.dsn == "" {
		return "", ""
	}
	return db.Parts(p.dsn)
}

// Engine opens the logbook there, whatever file it is given by whoever keeps recordings in a directory of their own.
func (p Place) Engine() logbook.Engine {
	if p.dsn == "" {
		return sqlite.Engine{}
	}
	return pgbook.Engine{DSN: p.dsn}
}

// People opens the list of people, and makes one where there is none.
func (p Place) People() (people.Store, error) {
	if p.dsn == "" {
		return sqlitepeople.Open(filepath.Join(p.dir, sqlitepeople.FileName))
	}
	return pgpeople.Open(p.dsn)
}

// Stores are what is kept in a place.
type Stores struct {
	Book   logbook.Book
	People people.Store
}

// Open opens both stores, and makes what is not there. In a database that cannot be reached the error is
// [logbook.ErrAway].
func (p Place) Open() (*Stores, error) {
	book, err := p.Engine().Open(filepath.Join(p.dir, archive.IndexFile), true)
	if err != nil {
		return nil, err
	}
	list, err := p.People()
	if err != nil {
		return nil, errors.Join(err, book.Close())
	}
	return &Stores{book, list}, nil
}

// A Found is what is found of a database.
type Found struct{ Logbook, People db.Found }

// Look finds out what there is in the database of a place, and changes nothing. The error says why it cannot be used.
func (p Place) Look(ctx context.Context) (f Found, err error) {
	if f.Logbook, err = pgbook.Look(ctx, p.dsn); err == nil {
		f.People, err = pgpeople.Look(ctx, p.dsn)
	}
	return f, err
}

// Close closes both.
func (s *Stores) Close() error { return errors.Join(s.Book.Close(), s.People.Close()) }

// has reports whether there is something to be taken from a place; a database says so when it is opened.
func (p Place) has() error {
	if p.dsn != "" {
		return nil
	}
	_, err := os.Stat(filepath.Join(p.dir, archive.IndexFile))
	if errors.Is(err, fs.ErrNotExist) {
		return &NoLogbook{p}
	}
	return err
}
