package access

import (
	"errors"
	"net/http"
	"strings"
	"time"

	"halfturn/coach/ids"
	"halfturn/coach/names"
	"halfturn/coach/people"
	"halfturn/coach/people/secret"
	"halfturn/coach/permit"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
	"halfturn/web/guard"
)

// A People is the answer to GET /api/people.
type People struct {
	Version     int                 `json:"version"`
	Users       []people.User       `json:"users"`
	Stations    []people.Station    `json:"stations"`
	Invitations []people.Invitation `json:"invitations"`
	Log         []people.Entry      `json:"log"` // the newest
}

// shownEntries is how much of the log a page shows.
const shownEntries = 50

// People lists who may use this Halfturn, and what was asked for last.
func (a *Access) People(w http.ResponseWriter, r *http.Request) error {
	ctx := r.Context()
	users, err1 := a.cfg.Store.Users(ctx)
	stations, err2 := a.cfg.Store.Stations(ctx)
	links, err3 := a.cfg.Store.Invitations(ctx, time.Now())
	log, err4 := a.cfg.Store.Entries(ctx, "", shownEntries)
	if err := errors.Join(err1, err2, err3, err4); err != nil {
		return err
	}
	return guard.WriteJSON(w, People{1, users, stations, links, log})
}

// A userForm is the body of POST /api/people: a new user.
type userForm struct {
	Name     string   `json:"name"`
	Role     string   `json:"role"`
	Stations []string `json:"stations"`
	Group    string   `json:"group"`
}

// A madeUser is the answer: the password is told once.
type madeUser struct {
	User     people.User `json:"user"`
	Password string      `json:"password"`
}

// NewUser makes a user of what somebody wrote. The error is in words for them.
func NewUser(name, role, group string, stations []string, now time.Time) (u people.User, err error) {
	u = people.User{ID: ids.New(now), Made: now.Truncate(time.Millisecond).UTC(), Group: strings.TrimSpace(group)}
	if u.Name, err = names.Person(name); err != nil {
		return u, err
	}
	if u.Name == "" {
		return u, phrase.UserNameEmpty.Error()
	}
	if u.Role, err = who.RoleNamed(role); err != nil {
		return u, err
	}
	if u.Role == who.RoleViewer {
		return u, phrase.ViewerByLink.Error()
	}
	for _, s := range stations {
		s, err := names.Station(s)
		if err != nil {
			return u, err
		}
		u.Stations = append(u.Stations, s)
	}
	if u.Role == who.RoleStudent && u.Group == "" && len(u.Stations) == 0 {
		return u, phrase.StudentPlaceless.Error()
	}
	return u, nil
}

// AddUser adds a user and tells the first password, which they change after their first login.
func (a *Access) AddUser(w http.ResponseWriter, r *http.Request) error {
	var f userForm
	form := `{"name": NAME, "role": "owner", "instructor" or "student", "stations": [NAME], "group": NAME or ""}`
	if err := guard.Body(guard.MaxBody, w, r, &f, form); err != nil {
		return err
	}
	u, err := NewUser(f.Name, f.Role, f.Group, f.Stations, time.Now())
	if err != nil {
		return refused(err)
	}
	all, err := a.cfg.Store.Users(r.Context())
	if err != nil {
		return err
	}
	if len(all) == 0 && u.Role != who.RoleOwner {
		return &guard.Problem{Status: http.StatusConflict, Phrase: phrase.OwnerFirst.Of()}
	}
	return a.withPassword(w, r, u, func(hash string) error { return a.cfg.Store.AddUser(u, hash) })
}

// withPassword makes a password, has its hash kept, and tells it.
func (a *Access) withPassword(w http.ResponseWriter, r *http.Request, u people.User, keep func(string) error) error {
	password := secret.Made()
	var hash string
	err := a.hashing.Few(func(http.ResponseWriter, *http.Request) (err error) {
		hash, err = secret.Password(password)
		return err
	})(w, r)
	if err == nil {
		err = keep(hash)
	}
	a.forget()
	if err != nil {
		return refused(err)
	}
	return guard.WriteJSON(w, madeUser{u, password})
}

// refused makes a Problem of an error about what somebody wrote.
func refused(err error) error {
	var none *people.NotFound
	var taken *people.Taken
	var full *people.Full
	switch {
	case errors.As(err, &none):
		return &guard.Problem{Status: http.StatusNotFound, Phrase: phrase.OfError(err)}
	case errors.As(err, &taken), errors.As(err, &full):
		return &guard.Problem{Status: http.StatusConflict, Phrase: phrase.OfError(err)}
	}
	return &guard.Problem{Status: http.StatusUnprocessableEntity, Phrase: phrase.OfError(err)}
}

// ResetUser gives the user {id} of the path a new password; their logins end.
func (a *Access) ResetUser(w http.ResponseWriter, r *http.Request) error {
	u, err := a.user(r)
	if err != nil {
		return err
	}
	return a.withPassword(w, r, u, func(hash string) error { return a.cfg.Store.SetPassword(u.ID, hash) })
}

// user is the one that the path names.
func (a *Access) user(r *http.Request) (people.User, error) {
	all, err := a.cfg.Store.Users(r.Context())
	if err != nil {
		return people.User{}, err
	}
	for _, u := range all {
		if u.ID == r.PathValue("user") {
			return u, nil
		}
	}
	return people.User{}, refused(&people.NotFound{What: "such user"})
}

// RemoveUser removes the user of the path. The last owner stays: with users and no owner, nobody could manage them.
func (a *Access) RemoveUser(w http.ResponseWriter, r *http.Request) error {
	u, err := a.user(r)
	if err != nil {
		return err
	}
	all, err := a.cfg.Store.Users(r.Context())
	if err != nil {
		return err
	}
	if err := MayRemove(u, all); err != nil {
		return refused(err)
	}
	if err := a.cfg.Store.RemoveUser(u.ID); err != nil {
		return refused(err)
	}
	a.forget()
	return guard.WriteJSON(w, struct{}{})
}

// MayRemove says why a user must stay: without an owner nobody could manage the others.
func MayRemove(u people.User, all []people.User) error {
	owners := 0
	for _, other := range all {
		if other.Role == who.RoleOwner {
			owners++
		}
	}
	if u.Role == who.RoleOwner && owners == 1 && len(all) > 1 {
		return phrase.OwnerLast.Error()
	}
	return nil
}

// An inviteForm is the body of POST /api/stations/{name}/invite.
type inviteForm struct {
	For   string  `json:"for"`
	Hours float64 `json:"hours"`
}

// An Invited is the answer: the token of the link is told once.
type Invited struct {
	Invitation people.Invitation `json:"invitation"`
	Path       string            `json:"path"` // of the link, after the address of the pages
}

// LinkPath is the path of the link of an invitation. The token stands behind the #, which no browser sends to a server
// and no log holds.
func LinkPath(token string) string { return "invited#" + token }

// NewInvitation makes an invitation of what somebody wrote. The error is in words for them.
func NewInvitation(station, whom string, lasts time.Duration, by who.Who, now time.Time) (people.Invitation, error) {
	whom, err := names.Person(whom)
	if err != nil {
		return people.Invitation{}, err
	}
	if lasts <= 0 || lasts > people.LongestInvitation {
		return people.Invitation{}, phrase.LinkLasts.Error()
	}
	now = now.Truncate(time.Millisecond).UTC()
	return people.Invitation{
		ID: ids.New(now), Station: station, For: whom, By: by, Made: now, Until: now.Add(lasts),
	}, nil
}

// Invite makes a link for the station {name} of the path.
func (a *Access) Invite(by permit.Caller, w http.ResponseWriter, r *http.Request) error {
	f := inviteForm{Hours: 24}
	if err := guard.Body(guard.MaxBody, w, r, &f, `{"for": NAME or "", "hours": NUMBER}`); err != nil {
		return err
	}
	lasts := time.Duration(f.Hours * float64(time.Hour))
	i, err := NewInvitation(r.PathValue("name"), f.For, lasts, by.Who, time.Now())
	if err != nil {
		return refused(err)
	}
	token := secret.New()
	if err := a.cfg.Store.Invite(i, secret.Hash(token)); err != nil {
		return refused(err)
	}
	return guard.WriteJSON(w, Invited{i, LinkPath(token)})
}

// Revoke ends the link {link} of the path: one of a station where the caller may invite.
func (a *Access) Revoke(by permit.Caller, w http.ResponseWriter, r *http.Request) error {
	all, err := a.cfg.Store.Invitations(r.Context(), time.Now())
	if err != nil {
		return err
	}
	for _, i := range all {
		if i.ID == r.PathValue("link") && by.MayAt(permit.Invite, i.Station) {
			if err := a.cfg.Store.Revoke(i.ID); err != nil {
				return refused(err)
			}
			return guard.WriteJSON(w, struct{}{})
		}
	}
	return refused(&people.NotFound{What: "such link"})
}

// Invitations lists the links of the stations where the caller may invite.
func (a *Access) Invitations(by permit.Caller, w http.ResponseWriter, r *http.Request) error {
	all, err := a.cfg.Store.Invitations(r.Context(), time.Now())
	if err != nil {
		return err
	}
	mine := []people.Invitation{}
	for _, i := range all {
		if by.MayAt(permit.Invite, i.Station) {
			mine = append(mine, i)
		}
	}
	return guard.WriteJSON(w, map[string]any{"version": 1, "invitations": mine})
}
