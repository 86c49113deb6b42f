package store

import (
	"context"
	"encoding/json"
	"time"

	"halfturn/coach/logbook/tables"
	"halfturn/coach/people"
)

const invitationColumns = `id, station, whom, by, made, until`

func scanInvitation(scan func(...any) error) (i people.Invitation, err error) {
	var by string
	var made, until int64
	err = scan(&i.ID, &i.Station, &i.For, &by, &made, &until)
	i.Made, i.Until = tables.Moment(made), tables.Moment(until)
	if err == nil {
		err = json.Unmarshal([]byte(by), &i.By)
	}
	return i, err
}

// Invite adds a link, and clears away those that have ended.
func (s store) Invite(i people.Invitation, token people.Hash) error {
	return s.Change(func(tx *tables.Tx) error {
		if _, err := tx.Exec(`DELETE FROM invitations WHERE until <= ?`, i.Made.UnixMilli()); err != nil {
			return err
		}
		if err := room(tx, "links", people.MostInvitations, `SELECT count(*) FROM invitations`); err != nil {
			return err
		}
		_, err := tx.Exec(`INSERT INTO invitations (id, token, station, whom, by, made, until)
			VALUES (?, ?, ?, ?, ?, ?, ?)`, i.ID, token[:], i.Station, i.For, text(i.By), i.Made.UnixMilli(),
			i.Until.UnixMilli())
		return err
	})
}

// Invitations lists the links.
func (s store) Invitations(ctx context.Context, now time.Time) ([]people.Invitation, error) {
	return ask(ctx, s, scanInvitation, `SELECT `+invitationColumns+` FROM invitations WHERE until > ?
		ORDER BY made DESC, id DESC`, now.UnixMilli())
}

// Invited returns the link of a token.
func (s store) Invited(ctx context.Context, token people.Hash, now time.Time) (i people.Invitation, err error) {
	err = s.Ask(ctx, func(tx *tables.Tx) (err error) {
		i, err = scanInvitation(tx.QueryRow(`SELECT `+invitationColumns+` FROM invitations WHERE token = ?
			AND until > ?`, token[:], now.UnixMilli()).Scan)
		return none(err, "such link")
	})
	return i, err
}

// Revoke ends a link; its logins go with it.
func (s store) Revoke(id string) error {
	return s.Change(func(tx *tables.Tx) error {
		r, err := tx.Exec(`DELETE FROM invitations WHERE id = ?`, id)
		return one(r, err, "such link")
	})
}
