package store

import (
	"context"

	"halfturn/coach/logbook/tables"
	"halfturn/coach/people"
)

// Note adds entries to the log, and takes the oldest out where there are too many.
func (s store) Note(entries ...people.Entry) error {
	return s.Change(func(tx *tables.Tx) error {
		add := tx.Into("log", "at", `"user"`, "name", "role", "address", "what", "target", "status")
		for _, e := range entries {
			add.Row(e.At.UnixMilli(), e.By.ID, e.By.Name, string(e.By.Role), e.Address, e.What, e.On, e.Status)
		}
		if err := add.Flush(); err != nil {
			return err
		}
		_, err := tx.Exec(`DELETE FROM log WHERE n <= (SELECT max(n) FROM log) - ?`, people.MostEntries)
		return err
	})
}

// Entries lists the newest entries.
func (s store) Entries(ctx context.Context, user string, most int) ([]people.Entry, error) {
	read := func(scan func(...any) error) (e people.Entry, err error) {
		var at int64
		err = scan(&at, &e.By.ID, &e.By.Name, &e.By.Role, &e.Address, &e.What, &e.On, &e.Status)
		e.At = tables.Moment(at)
		return e, err
	}
	return ask(ctx, s, read, `SELECT at, "user", name, role, address, what, target, status FROM log
		WHERE ?1 = '' OR "user" = ?1 ORDER BY n DESC LIMIT ?2`, user, most)
}
