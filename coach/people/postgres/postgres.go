// Package postgres keeps people in PostgreSQL for many nodes, as package coach/logbook/postgres/db connects to it. A
// login is valid on every node, and ends on all of them at once: each question is asked of the database.
package postgres

import (
	"context"
	"embed"

	"halfturn/coach/logbook/postgres/db"
	"halfturn/coach/people"
	"halfturn/coach/people/store"
)

//go:embed migrations/*.sql
var migrations embed.FS

// schema is that of people.
func schema() db.Schema {
	return db.Schema{
		Of:     "the list of people",
		Name:   "halfturn_people",
		Steps:  migrations,
		Names:  []string{"users", "invitations", "logins", "stations", "log"},
		Locked: []string{"users", "invitations", "logins", "stations", "log"},
	}
}

// Tables connects to the database of a connection string, and makes the tables where there are none.
func Tables(dsn string) (*db.Database, error) { return schema().Open(context.Background(), dsn) }

// Look finds out what there is of the list of people in a database, and changes nothing.
func Look(ctx context.Context, dsn string) (db.Found, error) { return schema().Look(ctx, dsn) }

// Open opens the list of people in the database of a connection string. While that is away each call says so.
func Open(dsn string) (people.Store, error) {
	d, err := schema().OpenLater(context.Background(), dsn)
	if err != nil {
		return nil, err
	}
	return store.Of(d, d.Close), nil
}
