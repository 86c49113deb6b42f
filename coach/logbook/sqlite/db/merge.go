package db

import (
	"database/sql"

	"halfturn/coach/logbook/tables"
	"halfturn/coach/names"
)

// mergeNames brings the names of a logbook that was kept before there was one rule for them under that rule: what is
// One name by names.Key becomes one student, with the spelling that came first.
func mergeNames(tx *sql.Tx) error {
	type student struct {
		key, flew int64
		name      string
	}
	var all []student
	rows, err := tx.Query(`SELECT key, name, flew FROM students ORDER BY key`)
	err = tables.Each(rows, err, func() error {
		var s student
		err := rows.Scan(&s.key, &s.name, &s.flew)
		all = append(all, s)
		return err
	})
	if err != nil {
		return err
	}
	first := map[string]int64{}
	for _, s := range all {
		name := names.Tidy(s.name)
		fold := names.Key(name)
		to, doubled := first[fold]
		switch {
		case name == "":
			err = mergeStudent(tx, s.key, sql.NullInt64{}, 0)
		case doubled:
			err = mergeStudent(tx, s.key, sql.NullInt64{Int64: to, Valid: true}, s.flew)
		default:
			first[fold] = s.key
			_, err = tx.Exec(`UPDATE students SET fold = ? WHERE key = ?`, fold, s.key)
		}
		if err != nil {
			return err
		}
	}
	for _, s := range all { // once none of the merged is in the way
		if name := names.Tidy(s.name); name != s.name {
			if _, err := tx.Exec(`UPDATE students SET name = ? WHERE key = ?`, name, s.key); err != nil {
				return err
			}
		}
	}
	if err := tidyStations(tx); err != nil {
		return err
	}
	_, err = tx.Exec(`CREATE UNIQUE INDEX students_fold ON students (fold)`)
	return err
}

// mergeStudent gives the sessions of one student to another, NULL for nobody named, and removes the first.
func mergeStudent(tx *sql.Tx, from int64, to sql.NullInt64, flew int64) error {
	if _, err := tx.Exec(`UPDATE sessions SET student = ? WHERE student = ?`, to, from); err != nil {
		return err
	}
	if _, err := tx.Exec(`UPDATE students SET flew = max(flew, ?) WHERE key = ?`, flew, to); err != nil {
		return err
	}
	_, err := tx.Exec(`DELETE FROM students WHERE key = ?`, from)
	return err
}

// tidyStations does for the names of stations what mergeNames does for students.
func tidyStations(tx *sql.Tx) error {
	var all []string
	rows, err := tx.Query(`SELECT station FROM sessions UNION SELECT name FROM stations`)
	err = tables.Each(rows, err, func() error {
		var name string
		err := rows.Scan(&name)
		all = append(all, name)
		return err
	})
	if err != nil {
		return err
	}
	for _, was := range all {
		is := names.Tidy(was)
		if is == was {
			continue
		}
		for _, q := range []string{
			`UPDATE sessions SET station = ?1 WHERE station = ?2`,
			`UPDATE OR REPLACE stations SET name = ?1 WHERE name = ?2`,
		} {
			if _, err := tx.Exec(q, is, was); err != nil {
				return err
			}
		}
	}
	return nil
}
