package change

import (
	"encoding/json"

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
		return forgetStations(tx, name)
	})
	if err != nil {
		return err
	}
	return b.Rewrite()
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
