package db

import (
	"database/sql"

	"halfturn/coach/logbook/tables"
	"halfturn/coach/logbook/tables/query"
)

// plainRemarks fills in the words of remarks as they are searched, and makes them findable.
func plainRemarks(tx *sql.Tx) error {
	all := map[int64]string{}
	rows, err := tx.Query(`SELECT key, words FROM remarks`)
	err = tables.Each(rows, err, func() error {
		var key int64
		var words string
		err := rows.Scan(&key, &words)
		all[key] = words
		return err
	})
	if err != nil {
		return err
	}
	set, err := tx.Prepare(`UPDATE remarks SET plain = ? WHERE key = ?`)
	if err != nil {
		return err
	}
	defer set.Close()
	for key, words := range all {
		if _, err := set.Exec(query.Plain(words), key); err != nil {
			return err
		}
	}
	_, err = tx.Exec(indexWords)
	return err
}
