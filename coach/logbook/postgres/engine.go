package postgres

import (
	"context"
	"embed"
	"errors"
	"time"

	"halfturn/coach/logbook"
	"halfturn/coach/logbook/postgres/db"
	"halfturn/coach/logbook/tables/change"
	"halfturn/coach/logbook/tables/query"
)

//go:embed migrations/*.sql
var migrations embed.FS

// schema is that of the logbook.
func schema() db.Schema {
	return db.Schema{
		Of:     "the logbook",
		Name:   "halfturn_logbook",
		Steps:  migrations,
		Names:  []string{"students", "sessions", "remarks", "stations", "courses"},
		Locked: []string{"students", "sessions", "remarks", "cards", "left_out", "stations", "courses"},
	}
}

// Engine keeps logbooks in the database of a connection string, such as "host=/run/postgresql user=halfturn" or
// "postgres://halfturn@db.example/halfturn?sslmode=verify-full". The names of files that it is given mean nothing.
type Engine struct{ DSN string }

var _ logbook.Engine = Engine{}

// A book is an open logbook.
type book struct {
	*db.Database
	change.Changes
	query.Questions
}

var (
	_ logbook.Book   = (*book)(nil)
	_ logbook.Locker = (*book)(nil)
)

func bookIn(d *db.Database, err error) (logbook.Book, error) {
	if err != nil {
		return nil, err
	}
	return &book{d, change.To(d), query.Questions{Database: d}}, nil
}

// Open connects to the database, and makes the tables where there are none.
func (e Engine) Open(string, bool) (logbook.Book, error) {
	return bookIn(schema().Open(context.Background(), e.DSN))
}

// Tables connects to the database as Open does, and returns the tables.
func Tables(dsn string) (*db.Database, error) { return schema().Open(context.Background(), dsn) }

// Look finds out what there is of the logbook in a database, and changes nothing.
func Look(ctx context.Context, dsn string) (db.Found, error) { return schema().Look(ctx, dsn) }

// OpenReadOnly connects to a database that has the tables already; the error is [io/fs.ErrNotExist] where it has none.
func (e Engine) OpenReadOnly(string) (logbook.Book, error) {
	return bookIn(schema().OpenReadOnly(context.Background(), e.DSN))
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
