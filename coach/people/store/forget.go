package store

import (
	"encoding/json"
	"errors"

	"halfturn/coach/logbook/tables"
	"halfturn/coach/names"
	"halfturn/coach/people"
	"halfturn/coach/who"
)

// errCounted takes back what was only to be counted.
var errCounted = errors.New("counted")

// Forget removes a person.
func (s store) Forget(name string) (people.Forgotten, error) {
	f, err := s.forget(name, nil)
	if err != nil {
		return people.Forgotten{}, err
	}
	return f, s.Rewrite()
}

// About counts what Forget would remove, by removing it and taking that back.
func (s store) About(name string) (people.Forgotten, error) {
	f, err := s.forget(name, errCounted)
	if !errors.Is(err, errCounted) {
		return people.Forgotten{}, err
	}
	return f, nil
}

// forget removes a person, and ends with an error that takes it back, or with nil.
func (s store) forget(name string, end error) (f people.Forgotten, err error) {
	err = s.Change(func(tx *tables.Tx) (err error) {
		r, err := tx.Exec(`DELETE FROM users WHERE fold = ?`, names.Key(name))
		if err != nil {
			return err
		}
		users, err := r.RowsAffected()
		f.Users = int(users)
		if err != nil {
			return err
		}
		if f.Links, err = forgetLinks(tx, name); err != nil {
			return err
		}
		if f.Entries, err = forgetEntries(tx, name); err != nil {
			return err
		}
		return end
	})
	return f, err
}

// forgetLinks removes the links made for a person, and the name from those that they made.
func forgetLinks(tx *tables.Tx, name string) (removed int, err error) {
	type link struct {
		id   string
		ends bool
	}
	var links []link
	rows, err := tx.Query(`SELECT id, whom, by FROM invitations`)
	err = tables.Each(rows, err, func() error {
		var id, whom, by string
		if err := rows.Scan(&id, &whom, &by); err != nil {
			return err
		}
		var made who.Who
		_ = json.Unmarshal([]byte(by), &made) // else nobody is named in it
		if ends := names.Holds(whom, name); ends || names.Holds(made.Name, name) {
			links = append(links, link{id, ends})
		}
		return nil
	})
	if err != nil {
		return 0, err
	}
	for _, l := range links {
		if l.ends {
			removed++
			_, err = tx.Exec(`DELETE FROM invitations WHERE id = ?`, l.id)
		} else {
			_, err = tx.Exec(`UPDATE invitations SET by = ? WHERE id = ?`, text(who.Who{}), l.id)
		}
		if err != nil {
			return removed, err
		}
	}
	return removed, nil
}

// forgetEntries removes a name from the log: as whoever asked, and as what was asked about.
func forgetEntries(tx *tables.Tx, name string) (entries int, err error) {
	type entry struct {
		n          int
		by, target bool
	}
	var held []entry
	rows, err := tx.Query(`SELECT n, name, target FROM log`)
	err = tables.Each(rows, err, func() error {
		var n int
		var by, target string
		if err := rows.Scan(&n, &by, &target); err != nil {
			return err
		}
		if e := (entry{n, names.Holds(by, name), names.Holds(target, name)}); e.by || e.target {
			held = append(held, e)
		}
		return nil
	})
	if err != nil {
		return 0, err
	}
	for _, e := range held {
		if _, err := tx.Exec(`UPDATE log SET
			"user" = CASE WHEN ?2 THEN '' ELSE "user" END,
			name = CASE WHEN ?2 THEN '' ELSE name END,
			target = CASE WHEN ?3 THEN '' ELSE target END WHERE n = ?1`, e.n, e.by, e.target); err != nil {
			return 0, err
		}
	}
	return len(held), nil
}
