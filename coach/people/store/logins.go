package store

import (
	"context"
	"database/sql"
	"strings"
	"time"

	"halfturn/coach/logbook/tables"
	"halfturn/coach/people"
	"halfturn/coach/permit"
)

// seenEvery is how exactly it is kept when a login was last used: not every request is a change.
const seenEvery = time.Hour

// alive is the condition of a login that has not ended; its parameters are now and the time before which one that was
// not used since has ended.
const alive = `until > ? AND seen > ?`

func aliveAt(now time.Time) []any {
	return []any{now.UnixMilli(), now.Add(-people.LoginIdle).UnixMilli()}
}

// AddLogin adds a login, and clears away those that have ended and the oldest where there are too many.
func (s store) AddLogin(l people.Login, token people.Hash) error {
	return s.Change(func(tx *tables.Tx) error {
		if _, err := tx.Exec(`DELETE FROM logins WHERE NOT (`+alive+`)`, aliveAt(l.Made)...); err != nil {
			return err
		}
		user, invitation := or(l.User), or(l.Invitation)
		_, err := tx.Exec(`INSERT INTO logins (id, token, "user", invitation, made, seen, until)
			VALUES (?, ?, ?, ?, ?, ?, ?)`, l.ID, token[:], user, invitation, l.Made.UnixMilli(), l.Made.UnixMilli(),
			l.Until.UnixMilli())
		if err != nil {
			return err
		}
		_, err = tx.Exec(`DELETE FROM logins WHERE "user" IS NOT DISTINCT FROM ?1
			AND invitation IS NOT DISTINCT FROM ?2 AND id NOT IN (SELECT id FROM logins
			WHERE "user" IS NOT DISTINCT FROM ?1 AND invitation IS NOT DISTINCT FROM ?2
			ORDER BY made DESC, id DESC LIMIT ?3)`,
			user, invitation, people.MostLogins)
		return err
	})
}

// or is NULL for nothing.
func or(id string) sql.NullString { return sql.NullString{String: id, Valid: id != ""} }

// Login returns a login and who it is. That it was used is noted where the database takes it: one that can only be read
// lets people in all the same.
func (s store) Login(ctx context.Context, token people.Hash, now time.Time) (
	l people.Login, c permit.Caller, err error,
) {
	err = s.Ask(ctx, func(tx *tables.Tx) error {
		var user, invitation sql.NullString
		var made, seen, until int64
		err := tx.QueryRow(`SELECT id, "user", invitation, made, seen, until FROM logins WHERE token = ? AND `+alive,
			append([]any{token[:]}, aliveAt(now)...)...).Scan(&l.ID, &user, &invitation, &made, &seen, &until)
		if err != nil {
			return none(err, "such login")
		}
		l.User, l.Invitation = user.String, invitation.String
		l.Made, l.Seen, l.Until = tables.Moment(made), tables.Moment(seen), tables.Moment(until)
		c, err = callerOf(tx, &l, now)
		return err
	})
	if err != nil || now.Sub(l.Seen) < seenEvery {
		return l, c, err
	}
	noted := s.Change(func(tx *tables.Tx) error {
		_, err := tx.Exec(`UPDATE logins SET seen = ? WHERE id = ?`, now.UnixMilli(), l.ID)
		return err
	})
	if noted == nil {
		l.Seen = now
	}
	return l, c, nil
}

// callerOf is who a login is.
func callerOf(tx *tables.Tx, l *people.Login, now time.Time) (permit.Caller, error) {
	if l.Invitation != "" {
		i, err := scanInvitation(tx.QueryRow(`SELECT `+invitationColumns+` FROM invitations WHERE id = ? AND until > ?`,
			l.Invitation, now.UnixMilli()).Scan)
		return i.Caller(), none(err, "such login")
	}
	u, err := scanUser(tx.QueryRow(`SELECT `+userColumns+` FROM users WHERE id = ?`, l.User).Scan)
	if err != nil || u.Group == "" {
		return u.Caller(nil), none(err, "such login")
	}
	var known []people.Station
	rows, err := tx.Query(`SELECT ` + stationColumns + ` FROM stations`)
	err = tables.Each(rows, err, func() error {
		station, err := scanStation(rows.Scan)
		known = append(known, station)
		return err
	})
	return u.Caller(known), err
}

// Alive reports which logins have not ended.
func (s store) Alive(ctx context.Context, ids []string, now time.Time) (map[string]bool, error) {
	there := map[string]bool{}
	if len(ids) == 0 {
		return there, nil
	}
	args := aliveAt(now)
	for _, id := range ids {
		args, there[id] = append(args, id), false
	}
	read := func(scan func(...any) error) (id string, err error) {
		err = scan(&id)
		return id, err
	}
	living, err := ask(ctx, s, read, `SELECT id FROM logins WHERE `+alive+` AND id IN (?`+
		strings.Repeat(", ?", len(ids)-1)+`)`, args...)
	for _, id := range living {
		there[id] = true
	}
	return there, err
}

// EndLogin ends a login.
func (s store) EndLogin(id string) error {
	return s.Change(func(tx *tables.Tx) error {
		_, err := tx.Exec(`DELETE FROM logins WHERE id = ?`, id)
		return err
	})
}

// EndLogins ends the logins of a user but one.
func (s store) EndLogins(user, but string) error {
	return s.Change(func(tx *tables.Tx) error { return endLogins(tx, user, but) })
}

func endLogins(tx *tables.Tx, user, but string) error {
	_, err := tx.Exec(`DELETE FROM logins WHERE "user" = ? AND id <> ?`, user, but)
	return err
}
