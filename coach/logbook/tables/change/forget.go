package change

import "halfturn/coach/logbook/tables"

// Forget removes all rows of a session. The student stays, as spelled.
func (b Changes) Forget(id string) error {
	return b.change(id, func(tx *tables.Tx) error { return forget(tx, id) })
}

// forget removes the rows of a session, and the cards that graded no other.
func forget(tx *tables.Tx, id string) error {
	var cards []string
	rows, err := tx.Query(`SELECT DISTINCT b.card FROM graded_by b JOIN grades g ON g.key = b.grade
		JOIN sessions s ON s.key = g.session WHERE s.id = ?`, id)
	err = tables.Each(rows, err, func() error {
		var hash string
		err := rows.Scan(&hash)
		cards = append(cards, hash)
		return err
	})
	if err != nil {
		return err
	}
	for _, q := range []string{
		`DELETE FROM remarks WHERE session = (SELECT key FROM sessions WHERE id = ?)`,
		`DELETE FROM sessions WHERE id = ?`,
	} {
		if _, err := tx.Exec(q, id); err != nil {
			return err
		}
	}
	for _, hash := range cards {
		_, err := tx.Exec(`DELETE FROM cards WHERE hash = ?1 AND NOT EXISTS (SELECT 1 FROM graded_by WHERE card = ?1)`,
			hash)
		if err != nil {
			return err
		}
	}
	return nil
}

// Undo removes a session as if it had never been entered, with a student who flew no other session.
func (b Changes) Undo(id string) error {
	return b.change(id, func(tx *tables.Tx) error {
		_, err := tx.Exec(`UPDATE students SET flew = -1 WHERE key = (SELECT student FROM sessions WHERE id = ?)
			AND (SELECT count(*) FROM sessions WHERE student = students.key) = 1`, id)
		if err != nil {
			return err
		}
		if err := forget(tx, id); err != nil {
			return err
		}
		_, err = tx.Exec(`DELETE FROM students WHERE flew = -1`)
		return err
	})
}
