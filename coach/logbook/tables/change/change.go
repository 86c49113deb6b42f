// Package change writes the tables of a logbook. Every change is one transaction: made whole or not at all.
package change

import (
	"database/sql"
	"errors"

	"halfturn/coach/logbook"
	"halfturn/coach/logbook/tables"
)

// Changes is the part of logbook.Book that writes.
type Changes struct {
	tables.Database

	fence uint64 // of the lease under which a session is changed; 0: none is looked at
}

// To is what changes a database.
func To(d tables.Database) Changes { return Changes{Database: d} }

// Under changes sessions under the fence of a lease: see [logbook.Fencer].
func (b Changes) Under(fence uint64) logbook.Changes {
	b.fence = fence
	return b
}

// change makes a change of a session under the fence.
func (b Changes) change(id string, f func(*tables.Tx) error) error {
	return b.Change(func(tx *tables.Tx) error {
		if err := b.hold(tx, id); err != nil {
			return err
		}
		return f(tx)
	})
}

// hold raises the fence of a session to that of the change. The row is locked until the change is made: of two holders
// the one with the smaller fence comes before the other, or is refused.
func (b Changes) hold(tx *tables.Tx, id string) error {
	if b.fence == 0 {
		return nil
	}
	r, err := tx.Exec(`UPDATE sessions SET fence = ?1 WHERE id = ?2 AND fence <= ?1`, int64(b.fence), id)
	if err != nil {
		return err
	}
	if n, err := r.RowsAffected(); err != nil || n > 0 {
		return err
	}
	var is int64
	err = tx.QueryRow(`SELECT fence FROM sessions WHERE id = ?`, id).Scan(&is)
	switch {
	case errors.Is(err, sql.ErrNoRows): // it is to be entered
		return nil
	case err != nil:
		return err
	}
	return &logbook.Fenced{ID: id, Fence: b.fence, Is: uint64(is)}
}
