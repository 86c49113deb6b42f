package change

import (
	"context"
	"errors"
	"fmt"
	"iter"

	"halfturn/coach/logbook"
	"halfturn/coach/logbook/tables"
)

// Rebuild replaces everything by the sessions it is given.
func (b Changes) Rebuild(ctx context.Context, all iter.Seq[*logbook.Stored], tell func(string, error)) (n int,
	err error) {
	err = b.ChangeAlone(func(tx *tables.Tx) error {
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
	err = b.change(s.Entry.ID, func(tx *tables.Tx) (err error) {
		why, err = take(tx, s)
		return err
	})
	return why, err
}

// take enters one session, whole or not at all: one that cannot be entered is noted as left out, unless it is in the
// logbook already. The error is of the database.
func take(tx *tables.Tx, s *logbook.Stored) (why, err error) {
	why, err = apart(tx, func() error {
		if s.Why != nil {
			return s.Why
		}
		return restore(tx, s)
	})
	if why == nil || err != nil {
		return nil, err
	}
	if _, _, err = tables.Find(tx, s.Entry.ID); err == nil { // it is in the logbook, as it was
		return why, nil
	}
	var none *logbook.NotFound
	if !errors.As(err, &none) {
		return nil, err
	}
	_, err = tx.Exec(`INSERT INTO left_out (id, why) VALUES (?, ?) ON CONFLICT (id) DO UPDATE SET why = excluded.why`,
		s.Entry.ID, why.Error())
	return why, err
}

// apart makes a part of a change whole or not at all, and says why it could not be made. The error is of the database,
// with which the whole change fails.
func apart(tx *tables.Tx, f func() error) (why, err error) {
	if _, err := tx.Exec("SAVEPOINT apart"); err != nil {
		return nil, err
	}
	if why = f(); why != nil {
		if ofDatabase(tx, why) {
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
func ofDatabase(tx *tables.Tx, err error) bool {
	return errors.Is(err, context.Canceled) || !tx.OfInput(err)
}

// restore writes the rows of a session.
func restore(tx *tables.Tx, s *logbook.Stored) error {
	e := &s.Entry
	key, err := begin(tx, e, 0)
	if err != nil {
		return err
	}
	began := e.Began.UnixMilli()
	if _, err := tx.Exec(`UPDATE sessions SET began = ?, ended = ? WHERE key = ?`, began, tables.Stamp(e.Ended),
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
