package access

import (
	"context"
	"errors"
	"net/http"
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

// A loginForm is the body of POST /api/login.
type loginForm struct {
	Name     string `json:"name"`
	Password string `json:"password"`
}

// Login lets somebody in by name and password, with a new token whatever the browser brings.
func (a *Access) Login(w http.ResponseWriter, r *http.Request) error {
	var f loginForm
	if err := guard.Body(guard.MaxBody, w, r, &f, `{"name": NAME, "password": TEXT}`); err != nil {
		return err
	}
	u, err := a.check(w, r, f)
	if err != nil {
		return err
	}
	l := people.Login{ID: ids.New(time.Now()), User: u.ID, Made: time.Now()}
	l.Until = l.Made.Add(people.LoginLasts)
	if err := a.admit(w, r, l); err != nil {
		return err
	}
	a.note(r, u.Who(), "log in", "", http.StatusOK)
	return guard.WriteJSON(w, a.self(Known{Caller: u.Caller(nil), Login: l.ID, User: u.ID}))
}

// An attempt is counted in a table.
type attempt struct {
	table *attempts
	key   string
}

// count counts an attempt in each table, or in none where one of them says to wait.
func count(now time.Time, all []attempt) error {
	for i, c := range all {
		wait := c.table.begin(c.key, now)
		if wait <= 0 {
			continue
		}
		for _, before := range all[:i] {
			before.table.right(before.key, false)
		}
		seconds := (wait + time.Second - 1).Truncate(time.Second).Seconds()
		return &guard.Problem{
			Status: http.StatusTooManyRequests,
			Phrase: phrase.LoginTooOften.Of(phrase.Number("wait", seconds, 0, "s")),
		}
	}
	return nil
}

// check finds out whose name and password they are. The attempt is counted first, so that many at once are no way
// around the count, and before it waits for its turn, so that attempts that are refused take nobody's.
func (a *Access) check(w http.ResponseWriter, r *http.Request, f loginForm) (people.User, error) {
	name, source := names.Key(f.Name), sourceOf(r)
	counted := []attempt{{&a.pairs, name + "\x00" + source}, {&a.sources, source}, {&a.names, name}}
	if err := count(time.Now(), counted); err != nil {
		return people.User{}, err
	}
	u, hash, err := a.cfg.Store.UserNamed(r.Context(), f.Name)
	var none *people.NotFound
	if err != nil && !errors.As(err, &none) {
		return people.User{}, a.unasked(r, err)
	}
	right := false
	busy := a.hashing.Few(func(http.ResponseWriter, *http.Request) error {
		right = secret.Right(f.Password, hash)
		return nil
	})(w, r)
	if busy != nil {
		return people.User{}, busy
	}
	if !right || err != nil {
		a.cfg.Log.Warn().Stringer("from", addressOf(r)).Msg("a login failed")
		if err == nil {
			a.note(r, u.Who(), "log in", "", http.StatusForbidden)
		}
		return people.User{}, &guard.Problem{Status: http.StatusForbidden, Phrase: phrase.LoginWrong.Of()}
	}
	a.pairs.right(counted[0].key, true)
	a.sources.right(counted[1].key, false)
	a.names.right(counted[2].key, false)
	return u, nil
}

// admit adds a login and hands its token to the browser. The login that the browser brings ends.
func (a *Access) admit(w http.ResponseWriter, r *http.Request, l people.Login) error {
	if err := a.endBrought(r); err != nil {
		return err
	}
	token := secret.New()
	if err := a.cfg.Store.AddLogin(l, secret.Hash(token)); err != nil {
		return err
	}
	a.setCookie(w, token, l.Until)
	return nil
}

// endBrought ends the login that a request brings, if any.
func (a *Access) endBrought(r *http.Request) error {
	token := a.token(r)
	if token == "" {
		return nil
	}
	l, _, err := a.cfg.Store.Login(r.Context(), secret.Hash(token), time.Now())
	var none *people.NotFound
	if errors.As(err, &none) {
		return nil
	}
	if err == nil {
		err = a.cfg.Store.EndLogin(l.ID)
		a.sockets.end(l.ID)
	}
	return err
}

// Logout ends the login of a request, with its live sockets.
func (a *Access) Logout(w http.ResponseWriter, r *http.Request) error {
	k, err := a.Who(r)
	if err == nil {
		err = a.endBrought(r)
	}
	if err != nil {
		return err
	}
	a.setCookie(w, "", time.Unix(0, 0))
	if k.Login != "" {
		a.note(r, k.Caller.Who, "log out", "", http.StatusOK)
	}
	return guard.WriteJSON(w, struct{}{})
}

// A passwordForm is the body of POST /api/password.
type passwordForm struct {
	Old string `json:"old"`
	New string `json:"new"`
}

// Password changes the password of whoever is logged in. All their logins end; this browser gets a new one.
func (a *Access) Password(w http.ResponseWriter, r *http.Request) error {
	var f passwordForm
	if err := guard.Body(guard.MaxBody, w, r, &f, `{"old": TEXT, "new": TEXT}`); err != nil {
		return err
	}
	k, err := a.Who(r)
	if err != nil {
		return err
	}
	if k.User == "" {
		return &guard.Problem{Status: http.StatusConflict, Phrase: phrase.PasswordNone.Of()}
	}
	if _, err := a.check(w, r, loginForm{k.Name, f.Old}); err != nil {
		return err
	}
	var hash string
	err = a.hashing.Few(func(http.ResponseWriter, *http.Request) error {
		var err error
		hash, err = secret.Password(f.New)
		if err != nil {
			return &guard.Problem{Status: http.StatusUnprocessableEntity, Phrase: phrase.PasswordLength.Of(
				phrase.Int("least", secret.ShortestPassword), phrase.Int("most", secret.LongestPassword))}
		}
		return nil
	})(w, r)
	if err != nil {
		return err
	}
	if err := a.cfg.Store.SetPassword(k.User, hash); err != nil {
		return err
	}
	a.sockets.end(k.Login)
	l := people.Login{ID: ids.New(time.Now()), User: k.User, Made: time.Now()}
	l.Until = l.Made.Add(people.LoginLasts)
	if err := a.admit(w, r, l); err != nil {
		return err
	}
	a.note(r, k.Caller.Who, "change the password", "", http.StatusOK)
	return guard.WriteJSON(w, struct{}{})
}

// Accept lets a guest in by the link of an invitation. Somebody who is logged in stays who they are.
func (a *Access) Accept(w http.ResponseWriter, r *http.Request) error {
	var f struct {
		Link string `json:"link"`
	}
	if err := guard.Body(guard.MaxBody, w, r, &f, `{"link": TOKEN}`); err != nil {
		return err
	}
	now, source := time.Now(), sourceOf(r)
	if err := count(now, []attempt{{&a.sources, source}}); err != nil {
		return err
	}
	i, err := a.cfg.Store.Invited(r.Context(), secret.Hash(f.Link), now)
	var none *people.NotFound
	switch {
	case errors.As(err, &none):
		return &guard.Problem{Status: http.StatusForbidden, Phrase: phrase.LinkWrong.Of()}
	case err != nil:
		return err
	}
	a.sources.right(source, false)
	k, err := a.Who(r)
	if err != nil {
		return err
	}
	if !k.Known() || k.Role == who.RoleViewer {
		l := people.Login{ID: ids.New(now), Invitation: i.ID, Made: now, Until: i.Until}
		if err := a.admit(w, r, l); err != nil {
			return err
		}
		a.note(r, i.Caller().Who, "come by a link", i.Station, http.StatusOK)
	}
	return guard.WriteJSON(w, map[string]string{"station": i.Station})
}

// A Self is the answer to GET /api/me.
type Self struct {
	Version  int      `json:"version"`
	Name     string   `json:"name"`
	Role     who.Role `json:"role"`
	Login    bool     `json:"login"`    // they can log out
	User     bool     `json:"user"`     // they have a password
	All      bool     `json:"all"`      // all stations are theirs
	Stations []string `json:"stations"` // else these
	Users    bool     `json:"users"`    // users are set up
	Many     bool     `json:"many"`     // there is more than one station that they may see
	Rights   []string `json:"rights"`   // what the pages may offer
}

// SelfOf says who somebody is; users is whether users are set up.
func SelfOf(k Known, users bool) Self {
	s := Self{
		Version:  1,
		Name:     k.Name,
		Role:     k.Role,
		Login:    k.Login != "",
		User:     k.User != "",
		All:      k.Everywhere(permit.Enter),
		Stations: []string{},
		Users:    users,
		Rights:   []string{},
	}
	if !s.All {
		s.Stations = append(s.Stations, k.Stations.Names...)
	}
	for _, r := range permit.Rights() {
		if k.May(r) {
			s.Rights = append(s.Rights, string(r))
		}
	}
	return s
}

func (a *Access) self(k Known) Self { return SelfOf(k, a.AnyUsers(context.Background())) }
