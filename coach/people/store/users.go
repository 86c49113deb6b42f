package store

import (
	"context"
	"encoding/json"
	"errors"

	"halfturn/coach/logbook/tables"
	"halfturn/coach/names"
	"halfturn/coach/people"
)

const userColumns = `id, name, role, stations, grp, made`

// scanUser reads userColumns, and more behind them.
func scanUser(scan func(...any) error, more ...any) (u people.User, err error) {
	var stations string
	var made int64
	err = scan(append([]any{&u.ID, &u.Name, &u.Role, &stations, &u.Group, &made}, more...)...)
	u.Made = tables.Moment(made)
	if err == nil {
		err = json.Unmarshal([]byte(stations), &u.Stations)
	}
	return u, err
}

// AddUser adds a user.
func (s store) AddUser(u people.User, password string) error {
	return s.Change(func(tx *tables.Tx) error {
		err := errors.Join(
			taken(tx, "users", "a user", u.Name),
			room(tx, "users", people.MostUsers, `SELECT count(*) FROM users`),
		)
		if err != nil {
			return err
		}
		_, err = tx.Exec(`INSERT INTO users (id, name, fold, role, stations, grp, password, made)
			VALUES (?, ?, ?, ?, ?, ?, ?, ?)`, u.ID, u.Name, names.Key(u.Name), u.Role, text(u.Stations), u.Group,
			password, u.Made.UnixMilli())
		return err
	})
}

// Users lists the users by name.
func (s store) Users(ctx context.Context) ([]people.User, error) {
	read := func(scan func(...any) error) (people.User, error) { return scanUser(scan) }
	return ask(ctx, s, read, `SELECT `+userColumns+` FROM users ORDER BY fold`)
}

// UserNamed looks a user up for a login.
func (s store) UserNamed(ctx context.Context, name string) (u people.User, password string, err error) {
	err = s.Ask(ctx, func(tx *tables.Tx) (err error) {
		row := tx.QueryRow(`SELECT `+userColumns+`, password FROM users WHERE fold = ?`, names.Key(name))
		u, err = scanUser(row.Scan, &password)
		return none(err, `user "`+name+`"`)
	})
	return u, password, err
}

// ChangeUser changes what a user may do, where, and ends their logins.
func (s store) ChangeUser(u people.User) error {
	return s.Change(func(tx *tables.Tx) error {
		r, err := tx.Exec(`UPDATE users SET role = ?, stations = ?, grp = ? WHERE id = ?`, u.Role, text(u.Stations),
			u.Group, u.ID)
		if err := one(r, err, "such user"); err != nil {
			return err
		}
		return endLogins(tx, u.ID, "")
	})
}

// SetPassword changes a password and ends the logins of the user.
func (s store) SetPassword(id, password string) error {
	return s.Change(func(tx *tables.Tx) error {
		r, err := tx.Exec(`UPDATE users SET password = ? WHERE id = ?`, password, id)
		if err := one(r, err, "such user"); err != nil {
			return err
		}
		return endLogins(tx, id, "")
	})
}

// RemoveUser removes a user; the logins go with them.
func (s store) RemoveUser(id string) error {
	return s.Change(func(tx *tables.Tx) error {
		r, err := tx.Exec(`DELETE FROM users WHERE id = ?`, id)
		return one(r, err, "such user")
	})
}
