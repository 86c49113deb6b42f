package store

import (
	"cmp"
	"context"
	"database/sql"

	"halfturn/coach/logbook/tables"
	"halfturn/coach/names"
	"halfturn/coach/people"
)

// Held returns what is stored about a person.
func (s store) Held(ctx context.Context, name string) (h people.Held, err error) {
	if h.Users, err = s.Users(ctx); err != nil {
		return people.Held{}, err
	}
	h.Users = kept(h.Users, func(u people.User) bool { return names.Key(u.Name) == names.Key(name) })
	links := `SELECT ` + invitationColumns + ` FROM invitations ORDER BY made, id`
	if h.Links, err = ask(ctx, s, scanInvitation, links); err != nil {
		return people.Held{}, err
	}
	h.Links = kept(h.Links, func(i people.Invitation) bool {
		return names.Holds(i.For, name) || names.Holds(i.By.Name, name)
	})
	if h.Entries, err = s.Entries(ctx, "", people.MostEntries); err != nil {
		return people.Held{}, err
	}
	h.Entries = kept(h.Entries, func(e people.Entry) bool {
		return names.Holds(e.By.Name, name) || names.Holds(e.On, name)
	})
	for i := range h.Entries {
		if e := &h.Entries[i]; !names.Holds(e.By.Name, name) {
			e.Address = "" // it is another's
		}
	}
	h.Logins, err = s.loginsOf(ctx, &h, name)
	return h, err
}

// kept are the values that a condition holds for; never nil.
func kept[T any](all []T, holds func(T) bool) []T {
	some := []T{}
	for _, v := range all {
		if holds(v) {
			some = append(some, v)
		}
	}
	return some
}

// loginsOf are the logins of a person: of the user, and as the guest of links.
func (s store) loginsOf(ctx context.Context, h *people.Held, name string) ([]people.Login, error) {
	read := func(scan func(...any) error) (l people.Login, err error) {
		var user, invitation sql.NullString
		var made, seen, until int64
		err = scan(&l.ID, &user, &invitation, &made, &seen, &until)
		l.User, l.Invitation = user.String, invitation.String
		l.Made, l.Seen, l.Until = tables.Moment(made), tables.Moment(seen), tables.Moment(until)
		return l, err
	}
	all, err := ask(ctx, s, read, `SELECT id, "user", invitation, made, seen, until FROM logins ORDER BY made, id`)
	of := map[string]bool{}
	for _, u := range h.Users {
		of[u.ID] = true
	}
	for _, i := range h.Links {
		of[i.ID] = names.Holds(i.For, name)
	}
	return kept(all, func(l people.Login) bool { return of[cmp.Or(l.User, l.Invitation)] }), err
}
