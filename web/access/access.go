package access

import (
	"context"
	"errors"
	"net"
	"net/http"
	"net/netip"
	"sync"
	"time"

	"github.com/rs/zerolog"

	"halfturn/coach/people"
	"halfturn/coach/people/secret"
	"halfturn/coach/permit"
	"halfturn/stream/phrase"
	"halfturn/web/guard"
)

// Config says how people are let in.
type Config struct {
	Store people.Store
	Home  bool // whoever is at the machine is its owner, also when users are set up
	TLS   bool // the pages are served over TLS alone
	Log   zerolog.Logger
}

// An Access lets people in. It is safe for concurrent use.
type Access struct {
	cfg     Config
	hashing *guard.Gate // passwords being looked at
	pairs   attempts    // by account and address
	sources attempts    // by address
	names   attempts    // by account
	sockets sockets
	journal journal

	mu      sync.Mutex
	anybody bool      // there are users
	asked   time.Time // when that was looked up
}

// Free attempts, before each has to wait.
const (
	freePerPair    = 5
	freePerAddress = 20
	freePerAccount = 100
)

// Passwords are looked at two at a time: each takes 19 MiB.
const (
	mostHashing = 2
	hashingWait = 5 * time.Second
)

// New makes an Access. [Access.Run] does its work in the background.
func New(cfg Config) *Access {
	busy := &guard.Problem{Status: http.StatusServiceUnavailable, Phrase: phrase.Busy.Of()}
	return &Access{
		cfg:     cfg,
		hashing: guard.NewGate(mostHashing, hashingWait, busy),
		pairs:   attempts{free: freePerPair},
		sources: attempts{free: freePerAddress},
		names:   attempts{free: freePerAccount},
		journal: newJournal(),
	}
}

// usersFor is how long it is taken for known whether there are users.
const usersFor = time.Second

// anyUsers reports whether users are set up. The error is that of the store.
func (a *Access) anyUsers(ctx context.Context, now time.Time) (bool, error) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if now.Sub(a.asked).Abs() < usersFor {
		return a.anybody, nil
	}
	all, err := a.cfg.Store.Users(ctx)
	if err != nil {
		return true, err
	}
	a.anybody, a.asked = len(all) > 0, now
	return a.anybody, nil
}

// forget looks it up at once the next time.
func (a *Access) forget() {
	a.mu.Lock()
	defer a.mu.Unlock()
	a.asked = time.Time{}
}

// AnyUsers reports whether users are set up, so that somebody can log in; a store that does not answer is taken for one
// with users.
func (a *Access) AnyUsers(ctx context.Context) bool {
	anybody, err := a.anyUsers(ctx, time.Now())
	return anybody || err != nil
}

// unasked is the answer where the list of people cannot be asked: a problem that passes, and not of whoever asks.
func (a *Access) unasked(r *http.Request, err error) error {
	if r.Context().Err() == nil {
		a.cfg.Log.Error().Err(err).Msg("the list of people cannot be asked; nobody is let in who has to be looked up")
	}
	return Unasked()
}

// Unasked is the answer to who cannot be looked up in the list of people now.
func Unasked() *guard.Problem {
	return &guard.Problem{Status: http.StatusServiceUnavailable, Phrase: phrase.PeopleAway.Of()}
}

// A Known is who makes a request, and by which login.
type Known struct {
	permit.Caller
	Login string // the id of the login; "" without one
	User  string // the id of the user; "" for a guest, a device, or the owner at home
	Away  bool   // it may be anybody: the list of people could not be asked
}

// Who finds out who makes a request. The zero value is nobody known. The error is that of [Unasked].
func (a *Access) Who(r *http.Request) (Known, error) {
	if token := a.token(r); token != "" {
		l, c, err := a.cfg.Store.Login(r.Context(), secret.Hash(token), time.Now())
		var none *people.NotFound
		switch {
		case err == nil:
			return Known{Caller: c, Login: l.ID, User: l.User}, nil
		case !errors.As(err, &none):
			return Known{}, a.unasked(r, err)
		}
	}
	switch {
	case !AtHome(r):
		return Known{}, nil
	case a.cfg.Home:
		return Known{Caller: permit.Owner()}, nil
	}
	switch anybody, err := a.anyUsers(r.Context(), time.Now()); {
	case err != nil:
		return Known{}, a.unasked(r, err)
	case !anybody:
		return Known{Caller: permit.Owner()}, nil
	}
	return Known{}, nil
}

// AtHome reports whether a request was made on this machine: it came over loopback, and no proxy says that it passed it
// on for somebody else.
func AtHome(r *http.Request) bool {
	for _, header := range []string{"Forwarded", "X-Forwarded-For", "X-Real-Ip", "Via"} {
		if r.Header.Get(header) != "" {
			return false
		}
	}
	ip := addressOf(r)
	return ip.IsValid() && ip.IsLoopback()
}

// addressOf is the address that a request came from.
func addressOf(r *http.Request) netip.Addr {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		host = r.RemoteAddr
	}
	ip, _ := netip.ParseAddr(host)
	return ip.Unmap().WithZone("")
}

// sourceOf is the key that attempts of an address are counted by: of an IPv6 address the network, for one machine has
// all addresses of it (RFC 4291, 2.5.4).
func sourceOf(r *http.Request) string {
	ip := addressOf(r)
	if ip.Is6() {
		if p, err := ip.Prefix(64); err == nil {
			return p.String()
		}
	}
	return ip.String()
}

// The names of the cookie. A browser takes one with the prefix only from this very host, over TLS (RFC 6265bis,
// 4.1.3.2).
const (
	cookieName = "halfturn-login"
	hostPrefix = "__Host-"
)

func (a *Access) cookie() string {
	if a.cfg.TLS {
		return hostPrefix + cookieName
	}
	return cookieName
}

// token is what a request brings as its login; "" is nothing.
func (a *Access) token(r *http.Request) string {
	c, err := r.Cookie(a.cookie())
	if err != nil {
		return ""
	}
	return c.Value
}

// setCookie hands a token to the browser, until a time; "" takes it back.
func (a *Access) setCookie(w http.ResponseWriter, token string, until time.Time) {
	c := &http.Cookie{
		Name:     a.cookie(),
		Value:    token,
		Path:     "/",
		Expires:  until,
		HttpOnly: true,
		Secure:   a.cfg.TLS,
		SameSite: http.SameSiteStrictMode,
	}
	if token == "" {
		c.MaxAge = -1
	}
	http.SetCookie(w, c)
}
