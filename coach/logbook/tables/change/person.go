package change

import (
	"encoding/json"
	"errors"

	"halfturn/coach/logbook"
	"halfturn/coach/logbook/tables"
	"halfturn/coach/names"
	"halfturn/coach/who"
)

// ForgetStudent removes a student and the name from the file.
func (b Changes) ForgetStudent(name string) error {
	err := b.Change(func(tx *tables.Tx) error {
		fold := names.Key(name)
		if _, err := tx.Exec(`UPDATE sessions SET student = NULL
			WHERE student = (SELECT key FROM students WHERE fold = ?)`, fold); err != nil {
			return err
		}
		if _, err := tx.Exec(`DELETE FROM students WHERE fold = ?`, fold); err != nil {
			return err
		}
		if err := forgetCourses(tx, name); err != nil {
			return err
		}
		return forgetStations(tx, name)
	})
	if err != nil {
		return err
	}
	return b.Rewrite()
}

// forgetCourses forgets the course of a student, and who chose that of others.
func forgetCourses(tx *tables.Tx, name string) error {
	if _, err := tx.Exec(`DELETE FROM courses WHERE student = ?`, names.Key(name)); err != nil {
		return err
	}
	chosen := map[string]string{} // by somebody to be forgotten, without who that was
	rows, err := tx.Query(`SELECT student, choice FROM courses`)
	err = tables.Each(rows, err, func() error {
		var student, choice string
		err := rows.Scan(&student, &choice)
		var c struct {
			logbook.CourseChoice
			By who.Who `json:"by"`
		}
		if json.Unmarshal([]byte(choice), &c) != nil || !names.Holds(c.By.Name, name) {
			return err
		}
		text, wrong := json.Marshal(c.CourseChoice)
		chosen[student] = string(text)
		return errors.Join(err, wrong)
	})
	if err != nil {
		return err
	}
	for student, choice := range chosen {
		if _, err := tx.Exec(`UPDATE courses SET choice = ? WHERE student = ?`, choice, student); err != nil {
			return err
		}
	}
	return nil
}

// forgetStations forgets what was chosen at stations that are called by a name, or by whom.
func forgetStations(tx *tables.Tx, name string) error {
	var gone []string
	rows, err := tx.Query(`SELECT name, choice FROM stations`)
	err = tables.Each(rows, err, func() error {
		var station, choice string
		err := rows.Scan(&station, &choice)
		var c struct {
			By who.Who `json:"by"`
		}
		_ = json.Unmarshal([]byte(choice), &c) // else nobody is named in it
		if names.Holds(station, name) || names.Holds(c.By.Name, name) {
			gone = append(gone, station)
		}
		return err
	})
	if err != nil {
		return err
	}
	for _, station := range gone {
		if _, err := tx.Exec(`DELETE FROM stations WHERE name = ?`, station); err != nil {
			return err
		}
	}
	return nil
}
