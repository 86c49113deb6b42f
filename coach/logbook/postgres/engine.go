// Package postgres keeps the logbook of many nodes in PostgreSQL. It keeps the tables that package tables knows, under
// the same verbs as SQLite does for one machine; connections and migrations are those of package db. Rebuilding alone
// keeps everybody else from changing anything.
//
// # A million sessions
//
// Questions take under 100 ms among a million sessions, because none of them reads more for more sessions. What EXPLAIN
// (ANALYZE) shows of testdata/million.sql, and TestLatency measures:
//
//   - A list walks sessions_began backward, or the index of the column it is filtered by, which each end in (began,
//     id): the page is the first rows of the index, and nothing is sorted. It counts matches up to a bound, under
//     LIMIT, which is lower for a maneuver under another filter: PostgreSQL would make a hash of the maneuver for more.
//   - A list of a maneuver probes flown by its primary key for each session of the walk; of a rare maneuver it begins
//     with flown_maneuver, and sorts the few. Statistics tell the two apart.
//   - A trend takes the latest sessions with the maneuver by the same walk (4,000 probes for 1,000 sessions of one
//     maneuver in four), and their things by the primary key. It is no sum over the table: counters kept in one row
//     would bring the changes of all stations in each other's way, as these are serializable.
//   - Words are looked up in remarks_found (GIN). Where few remarks match, their sessions are read by primary key;
//     where many do, sessions are walked, and remarks probed by (session, id). Left to itself PostgreSQL walks a
//     million sessions for a rare word, as it takes the beginning of a word for more frequent than it is.
//   - students_flew gives the students who flew last without counting the sessions of any: 500 probes of
//     sessions_student. Names of maneuvers and aircraft are the steps of flown_title and sessions_title.
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
		Names:  []string{"students", "sessions", "remarks", "stations"},
		Locked: []string{"students", "sessions", "remarks", "cards", "left_out", "stations"},
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
