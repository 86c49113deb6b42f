// Package sqlite keeps people in one SQLite file, as package coach/logbook/sqlite/db opens it.
package sqlite

import (
	"context"
	"database/sql"
	"embed"
	"encoding/json"
	"errors"
	"fmt"
	"os"

	"halfturn/coach/logbook/sqlite/db"
	"halfturn/coach/logbook/tables"
	"halfturn/coach/names"
	"halfturn/coach/people"
)

//go:embed migrations/*.sql
var migrations embed.FS

// FileName is the file's name in a data directory.
const FileName = "people.db"

// applicationID marks the file: "HTPP".
const applicationID = 0x48545050

// A store is an open file.
type store struct{ *db.File }

var _ people.Store = store{}

// Open opens a file, and creates one that does not exist, for its owner alone.
func Open(file string) (people.Store, error) {
	private, err := os.OpenFile(file, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return nil, fmt.Errorf("the list of people cannot be opened: %w", err)
	}
	if err := private.Close(); err != nil {
		return nil, err
	}
	f, err := db.Schema{
		Of:    "the list of people",
		ID:    applicationID,
		Mend:  "move it away, and set users, links and station keys up again",
		Steps: migrations,
	}.Open(file, true)
	if err != nil {
		return nil, err
	}
	return store{f}, nil
}

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
func room(tx *sql.Tx, what string, most int, query string, args ...any) error {
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
func taken(tx *sql.Tx, table, what, name string) error {
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
	err := s.Ask(ctx, func(tx *sql.Tx) error {
		rows, err := tx.QueryContext(ctx, query, args...)
		return tables.Each(rows, err, func() error {
			v, err := read(rows.Scan)
			all = append(all, v)
			return err
		})
	})
	return all, err
}
