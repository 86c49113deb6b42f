// Package store keeps people in tables, in one SQL that SQLite and PostgreSQL both understand, as package
// coach/logbook/tables says; packages sqlite and postgres bring the tables and the connections to them. Nothing is kept
// in memory: what one program changes holds for the next question of another.
package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"

	"halfturn/coach/logbook/tables"
	"halfturn/coach/names"
	"halfturn/coach/people"
)

// A store is a list of people in a database.
type store struct {
	tables.Database
	close func() error
}

var _ people.Store = store{}

// Of is the list of people in a database that has the tables for it. It is closed by a function.
func Of(d tables.Database, close func() error) people.Store { return store{d, close} }

// Close closes the database.
func (s store) Close() error { return s.close() }

// none makes an error of a missing row.
func none(err error, what string) error {
	if errors.Is(err, sql.ErrNoRows) {
		return &people.NotFound{What: what}
	}
	return err
}

// one makes an error of a change that met nothing.
func one(r sql.Result, err error, what string) error {
	if err != nil {
		return err
	}
	if n, err := r.RowsAffected(); err != nil || n > 0 {
		return err
	}
	return &people.NotFound{What: what}
}

// room refuses one more where there are as many as there may be.
func room(tx *tables.Tx, what string, most int, query string, args ...any) error {
	var n int
	if err := tx.QueryRow(query, args...).Scan(&n); err != nil {
		return err
	}
	if n >= most {
		return &people.Full{What: what, Most: most}
	}
	return nil
}

// taken refuses a name that a row of a table has.
func taken(tx *tables.Tx, table, what, name string) error {
	var is string
	err := tx.QueryRow(`SELECT name FROM `+table+` WHERE fold = ?`, names.Key(name)).Scan(&is)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return nil
	case err != nil:
		return err
	}
	return &people.Taken{What: what, Name: is}
}

// text is a value as JSON.
func text(v any) string {
	b, _ := json.Marshal(v) // of names alone
	return string(b)
}

// ask reads rows.
func ask[T any](
	ctx context.Context, s store, read func(scan func(...any) error) (T, error), query string, args ...any,
) ([]T, error) {
	all := []T{}
	err := s.Ask(ctx, func(tx *tables.Tx) error {
		rows, err := tx.QueryContext(ctx, query, args...)
		return tables.Each(rows, err, func() error {
			v, err := read(rows.Scan)
			all = append(all, v)
			return err
		})
	})
	return all, err
}
