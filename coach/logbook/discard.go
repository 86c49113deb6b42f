package logbook

import (
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
)

// Discard takes back a session that was begun and shall not be: its entry, if there is one, and its folder.
func (b *Book) Discard(id string) error {
	if !IsID(id) {
		return &NotFound{ID: id}
	}
	err := b.change(func(tx *sql.Tx) error {
		for _, do := range []string{
			`DELETE FROM remarks WHERE session = (SELECT key FROM sessions WHERE id = ?1)`,
			`UPDATE students SET flew = -1 WHERE key = (SELECT student FROM sessions WHERE id = ?1)
				AND (SELECT count(*) FROM sessions WHERE student = students.key) = 1`,
			`DELETE FROM sessions WHERE id = ?1`,
			`DELETE FROM students WHERE flew = -1 AND ?1 <> ''`,
			`DELETE FROM cards WHERE hash NOT IN (SELECT card FROM graded_by) AND ?1 <> ''`,
		} {
			if _, err := tx.Exec(do, id); err != nil {
				return err
			}
		}
		return nil
	})
	if failed := os.RemoveAll(filepath.Join(b.dir, id)); failed != nil {
		err = errors.Join(err, fmt.Errorf("the folder of session %s cannot be removed: %w", id, failed))
	}
	return err
}
