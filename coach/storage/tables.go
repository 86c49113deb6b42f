package storage

import (
	"errors"
	"path/filepath"

	"halfturn/coach/archive"
	pgbook "halfturn/coach/logbook/postgres"
	"halfturn/coach/logbook/sqlite/db"
	"halfturn/coach/logbook/tables"
	pgpeople "halfturn/coach/people/postgres"
	sqlitepeople "halfturn/coach/people/sqlite"
)

// A table is one of a store, and how its rows are told apart.
type table struct {
	name  string
	key   string // the column that the database numbers; "" where there is none
	owner string // the session that a row t belongs to, by its id; "" where it belongs to none
	joins string // what the owner needs
	skip  map[string]bool
}

const session = "s.id"

// logbookTables are those of the logbook, each after those that it refers to.
var logbookTables = []table{
	{name: "students", key: "key"},
	{name: "sessions", key: "key", owner: "t.id"},
	{name: "cards"},
	{name: "grades", key: "key", owner: session, joins: `JOIN sessions s ON s.key = t.session`},
	{name: "graded_by", owner: session, joins: `JOIN grades g ON g.key = t.grade JOIN sessions s ON s.key = g.session`},
	{name: "series", key: "key", owner: session,
		joins: `JOIN grades g ON g.key = t.grade JOIN sessions s ON s.key = g.session`},
	{name: "legs", key: "key", owner: session, joins: `JOIN sessions s ON s.key = t.session`},
	{name: "points", owner: session, joins: `JOIN legs l ON l.key = t.leg JOIN sessions s ON s.key = l.session`},
	{name: "checks", key: "key", owner: session, joins: ofLegOrSeries},
	{name: "causes", key: "key", owner: session, joins: ofLegOrSeries},
	{name: "flown", owner: session, joins: `JOIN sessions s ON s.key = t.session`},
	{name: "measured", owner: session, joins: `JOIN sessions s ON s.key = t.session`},
	{name: "things", owner: session, joins: `JOIN sessions s ON s.key = t.session`},
	{name: "remarks", key: "key", owner: session, joins: `JOIN sessions s ON s.key = t.session`,
		skip: map[string]bool{"found": true}}, // by which PostgreSQL searches
	{name: "stations"},
	{name: "courses"},
	{name: "left_out"},
}

const ofLegOrSeries = `LEFT JOIN legs l ON l.key = t.leg LEFT JOIN series x ON x.key = t.series
	LEFT JOIN grades g ON g.key = x.grade JOIN sessions s ON s.key = coalesce(l.session, g.session)`

// peopleTables are those of the list of people.
var peopleTables = []table{
	{name: "users"},
	{name: "invitations"},
	{name: "logins"},
	{name: "stations"},
	{name: "log", key: "n"},
}

// A store is the tables of one in a place.
type store struct {
	tables.Database
	list  []table
	close func() error
}

// stores opens the tables of the logbook and of people.
func (p Place) stores() (all [2]store, err error) {
	all[0].list, all[1].list = logbookTables, peopleTables
	if p.dsn == "" {
		book, err := db.Open(filepath.Join(p.dir, archive.IndexFile), true)
		if err != nil {
			return all, err
		}
		all[0].Database, all[0].close = db.Tables{File: book}, book.Close
		list, err := sqlitepeople.Tables(filepath.Join(p.dir, sqlitepeople.FileName))
		if err != nil {
			return all, errors.Join(err, book.Close())
		}
		all[1].Database, all[1].close = list, list.Close
		return all, nil
	}
	book, err := pgbook.Tables(p.dsn)
	if err != nil {
		return all, err
	}
	all[0].Database, all[0].close = book, book.Close
	list, err := pgpeople.Tables(p.dsn)
	if err != nil {
		return all, errors.Join(err, book.Close())
	}
	all[1].Database, all[1].close = list, list.Close
	return all, nil
}

func closeAll(all [2]store) error { return errors.Join(all[0].close(), all[1].close()) }
