package change

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"iter"

	lib "modernc.org/sqlite/lib"

	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite/db"
)

// Rebuild replaces everything by the sessions it is given.
func (b Changes) Rebuild(ctx context.Context, all iter.Seq[*logbook.Stored], tell func(string, error)) (n int,
	err error) {
	err = b.Change(func(tx *sql.Tx) error {
		for _, table := range []string{"remarks", "sessions", "students", "cards", "left_out"} {
			if _, err := tx.Exec("DELETE FROM " + table); err != nil {
				return err
			}
		}
		for s := range all {
			if err := ctx.Err(); err != nil {
				return fmt.Errorf("interrupted; the logbook is as it was: %w", err)
			}
			why, err := take(tx, s)
			if err != nil {
				return err
			}
			if why == nil {
				n++
				continue
			}
			tell(s.Entry.ID, why)
		}
		if err := ctx.Err(); err != nil {
			return fmt.Errorf("interrupted; the logbook is as it was: %w", err)
		}
		return nil
	})
	if err != nil {
		return 0, err
	}
	return n, nil
}

// Take enters all there is in the folder of a session.
func (b Changes) Take(s *logbook.Stored) (why, err error) {
	err = b.Change(func(tx *sql.Tx) (err error) {
		why, err = take(tx, s)
		return err
	})
	return why, err
}

// take enters one session, whole or not at all: one that cannot be entered is noted as left out, unless it is in the
// logbook already. The error is of the database.
func take(tx *sql.Tx, s *logbook.Stored) (why, err error) {
	why, err = apart(tx, func() error {
		if s.Why != nil {
			return s.Why
		}
		return restore(tx, s)
	})
	if why == nil || err != nil {
		return nil, err
	}
	_, err = tx.Exec(`INSERT OR REPLACE INTO left_out (id, why) SELECT ?1, ?2
		WHERE NOT EXISTS (SELECT 1 FROM sessions WHERE id = ?1)`, s.Entry.ID, why.Error())
	return why, err
}

// apart makes a part of a change whole or not at all, and tells why it could not be made. The error is of the database,
// with which the whole change fails.
func apart(tx *sql.Tx, f func() error) (why, err error) {
	if _, err := tx.Exec("SAVEPOINT apart"); err != nil {
		return nil, err
	}
	if why = f(); why != nil {
		if ofDatabase(why) {
			return nil, why
		}
		if _, err := tx.Exec("ROLLBACK TO apart"); err != nil {
			return nil, err
		}
	}
	_, err = tx.Exec("RELEASE apart")
	return why, err
}

// ofDatabase tells an error of the database, or an end of the rebuild, from one of what was to be put in.
func ofDatabase(err error) bool {
	if errors.Is(err, context.Canceled) {
		return true
	}
	switch db.Code(err) {
	case 0, lib.SQLITE_CONSTRAINT, lib.SQLITE_MISMATCH, lib.SQLITE_TOOBIG:
		return db.Damaged(err)
	}
	return true
}

// restore writes the rows of a session.
func restore(tx *sql.Tx, s *logbook.Stored) error {
	e := &s.Entry
	key, err := begin(tx, e)
	if err != nil {
		return err
	}
	began := e.Began.UnixMilli()
	if _, err := tx.Exec(`UPDATE sessions SET began = ?, ended = ? WHERE key = ?`, began, db.Stamp(e.Ended),
		key); err != nil {
		return err
	}
	if err := stand(tx, key, began, &s.Standing); err != nil {
		return err
	}
	if s.Report != nil {
		if err := keep(tx, e.ID, s.Report); err != nil {
			return err
		}
	}
	if _, err := tx.Exec(`DELETE FROM grades WHERE session = ? AND n > 1`, key); err != nil {
		return err
	}
	for i := range s.Regrades {
		if err := regrade(tx, key, &s.Regrades[i]); err != nil {
			return err
		}
	}
	return nil
}
