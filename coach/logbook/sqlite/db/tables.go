package db

import (
	"context"
	"database/sql"

	"halfturn/coach/logbook/tables"
)

// Tables is the file of a logbook as those know it who change and read its tables.
type Tables struct{ *File }

var _ tables.Database = Tables{}

// Change makes a change, whole or not at all.
func (d Tables) Change(f func(*tables.Tx) error) error {
	return d.File.Change(func(tx *sql.Tx) error { return f(tables.NewTx(context.Background(), tx, dialect{})) })
}

// ChangeAlone is Change: one connection writes at a time.
func (d Tables) ChangeAlone(f func(*tables.Tx) error) error { return d.Change(f) }

// Ask reads in one state of the database.
func (d Tables) Ask(ctx context.Context, f func(*tables.Tx) error) error {
	return d.File.Ask(ctx, func(tx *sql.Tx) error { return f(tables.NewTx(ctx, tx, dialect{})) })
}

// Rewrite writes the whole file again, and what is found by words.
func (d Tables) Rewrite() error {
	err := d.File.Change(func(tx *sql.Tx) error {
		_, err := tx.Exec(d.Index)
		return err
	})
	if err != nil {
		return err
	}
	return d.File.Rewrite()
}

// ShapeIs is the version of the tables as they are read.
func (d Tables) ShapeIs() int { return d.Shape }
