package change

import "database/sql"

// Forget removes all rows of a session. The student stays, as spelled.
func (b Changes) Forget(id string) error {
	return b.Change(func(tx *sql.Tx) error {
		return all(tx, id,
			`DELETE FROM remarks WHERE session = (SELECT key FROM sessions WHERE id = ?1)`,
			`DELETE FROM sessions WHERE id = ?1`,
			`DELETE FROM cards WHERE hash NOT IN (SELECT card FROM graded_by) AND ?1 <> ''`)
	})
}

// Undo removes a session as if it had never been entered, with a student who flew no other session.
func (b Changes) Undo(id string) error {
	return b.Change(func(tx *sql.Tx) error {
		return all(tx, id,
			`DELETE FROM remarks WHERE session = (SELECT key FROM sessions WHERE id = ?1)`,
			`UPDATE students SET flew = -1 WHERE key = (SELECT student FROM sessions WHERE id = ?1)
				AND (SELECT count(*) FROM sessions WHERE student = students.key) = 1`,
			`DELETE FROM sessions WHERE id = ?1`,
			`DELETE FROM students WHERE flew = -1 AND ?1 <> ''`,
			`DELETE FROM cards WHERE hash NOT IN (SELECT card FROM graded_by) AND ?1 <> ''`)
	})
}

// all runs statements that take the id of a session.
func all(tx *sql.Tx, id string, statements ...string) error {
	for _, q := range statements {
		if _, err := tx.Exec(q, id); err != nil {
			return err
		}
	}
	return nil
}
