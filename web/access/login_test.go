package access

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/rs/zerolog"

	"halfturn/coach/people"
	"halfturn/coach/people/secret"
	"halfturn/coach/people/sqlite"
	"halfturn/coach/permit"
	"halfturn/coach/who"
	"halfturn/web/guard"
)

const right = "correct horse battery staple"

// hashed is the hash of that password, computed once.
var hashed = sync.OnceValue(func() string {
	h, err := secret.Password(right)
	if err != nil {
		panic(err)
	}
	return h
})

// house is an Access with these users, all with the same password.
func house(t *testing.T, cfg Config, users ...people.User) *Access {
	t.Helper()
	store, err := sqlite.Open(filepath.Join(t.TempDir(), "people.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := store.Close(); err != nil {
			t.Error(err)
		}
	})
	for _, u := range users {
		if err := store.AddUser(u, hashed()); err != nil {
			t.Fatal(err)
		}
	}
	cfg.Store, cfg.Log = store, zerolog.Nop()
	return New(cfg)
}

var (
	ada = people.User{ID: "1", Name: "Ada Example", Role: who.RoleStudent, Stations: []string{"Seat 3"}, Made: noon}
	bo  = people.User{ID: "2", Name: "Bo Example", Role: who.RoleOwner, Made: noon}
)

// from is a request of an address, with these cookies.
func from(address, path, body string, cookies ...*http.Cookie) *http.Request {
	r := httptest.NewRequest("POST", path, strings.NewReader(body))
	r.Header.Set("Content-Type", "application/json")
	r.RemoteAddr = address
	for _, c := range cookies {
		r.AddCookie(c)
	}
	return r
}

// login tries a name and a password, and returns the cookie that comes of it; nil with the status of a refusal.
func login(a *Access, address, name, password string, cookies ...*http.Cookie) (*http.Cookie, int) {
	w := httptest.NewRecorder()
	body := fmt.Sprintf(`{"name": %q, "password": %q}`, name, password)
	err := a.Login(w, from(address, "/api/login", body, cookies...))
	if err != nil {
		return nil, status(err)
	}
	return w.Result().Cookies()[0], http.StatusOK
}

func status(err error) int {
	var p *guard.Problem
	if errors.As(err, &p) {
		return p.Status
	}
	return http.StatusInternalServerError
}

// is tells who a request with a cookie is.
func is(t *testing.T, a *Access, c ...*http.Cookie) permit.Caller {
	t.Helper()
	k, err := a.Who(from("192.0.2.7:9", "/", "", c...))
	if err != nil {
		t.Fatal(err)
	}
	return k.Caller
}

func TestLogin(t *testing.T) {
	a := house(t, Config{}, ada, bo)
	c, code := login(a, "192.0.2.7:9", " ada  EXAMPLE ", right)
	if code != http.StatusOK {
		t.Fatal(code)
	}
	if c.Name != "halfturn-login" || !c.HttpOnly || c.SameSite != http.SameSiteStrictMode || c.Secure ||
		c.Path != "/" || c.Domain != "" {
		t.Errorf("the cookie is %v", c)
	}
	if me := is(t, a, c); me.ID != "1" || me.Role != who.RoleStudent || !me.MayAt(permit.Fly, "Seat 3") ||
		me.MayAt(permit.Watch, "Seat 4") {
		t.Errorf("logged in is %+v", me)
	}
	tampered := *c
	tampered.Value = c.Value + "A"
	for what, bad := range map[string]*http.Cookie{
		"none": {Name: "halfturn-login"}, "tampered": &tampered, "of another name": {Name: "login", Value: c.Value},
		"long": {Name: "halfturn-login", Value: strings.Repeat("x", 10_000)},
	} {
		if me := is(t, a, bad); me.Known() {
			t.Errorf("a cookie that is %s: %+v", what, me)
		}
	}
	for _, bad := range [][2]string{{"Ada Example", "wrong"}, {"Ada Example", ""}, {"Nobody", right}, {"", right}} {
		if c, code := login(a, "192.0.2.8:9", bad[0], bad[1]); c != nil || code != http.StatusForbidden {
			t.Errorf("%q: %d, %v", bad, code, c)
		}
	}
}

// Over TLS the cookie is the host's alone and never sent without TLS.
func TestCookieOverTLS(t *testing.T) {
	a := house(t, Config{TLS: true}, bo)
	c, _ := login(a, "192.0.2.7:9", bo.Name, right)
	if c == nil || c.Name != "__Host-halfturn-login" || !c.Secure || c.Path != "/" || c.Domain != "" || !c.HttpOnly {
		t.Fatalf("the cookie is %v", c)
	}
	if me := is(t, a, &http.Cookie{Name: "halfturn-login", Value: c.Value}); me.Known() {
		t.Error("a cookie that any host of the domain can set is taken")
	}
}

// A token that somebody else chose, or had before, never becomes that of a login.
func TestFixation(t *testing.T) {
	a := house(t, Config{}, ada, bo)
	planted := &http.Cookie{Name: "halfturn-login", Value: secret.New()}
	c, _ := login(a, "192.0.2.7:9", bo.Name, right, planted)
	if c == nil || c.Value == planted.Value || is(t, a, planted).Known() {
		t.Fatal("the planted token is that of the login")
	}
	adas, _ := login(a, "192.0.2.7:9", ada.Name, right)
	bos, _ := login(a, "192.0.2.7:9", bo.Name, right, adas)
	if is(t, a, adas).Known() {
		t.Error("the login of before goes on in the browser where somebody else has logged in")
	}
	if me := is(t, a, bos); me.ID != bo.ID {
		t.Errorf("logged in is %+v", me)
	}
	again, _ := login(a, "192.0.2.7:9", bo.Name, right, bos)
	if again.Value == bos.Value || is(t, a, bos).Known() || !is(t, a, again).Known() {
		t.Error("a further login keeps the token")
	}
}

// A cookie that was stolen is good for nothing once its owner logs out, and its sockets are closed at once.
func TestLogout(t *testing.T) {
	a := house(t, Config{}, ada)
	c, _ := login(a, "192.0.2.7:9", ada.Name, right)
	k, err := a.Who(from("198.51.100.9:9", "/", "", c)) // the thief, who watches
	if err != nil || !k.Known() {
		t.Fatalf("%+v, %v", k, err)
	}
	closed := 0
	remove := a.Watches(k, func() { closed++ })
	w := httptest.NewRecorder()
	if err := a.Logout(w, from("192.0.2.7:9", "/api/logout", "{}", c)); err != nil {
		t.Fatal(err)
	}
	if is(t, a, c).Known() || closed != 1 {
		t.Errorf("after the logout it is known: %v; %d sockets were closed", is(t, a, c).Known(), closed)
	}
	if gone := w.Result().Cookies()[0]; gone.Value != "" || gone.MaxAge >= 0 {
		t.Errorf("the browser keeps %v", gone)
	}
	remove()
	if err := a.Logout(httptest.NewRecorder(), from("192.0.2.7:9", "/api/logout", "{}", c)); err != nil {
		t.Errorf("a second logout: %v", err)
	}
}

// Guessing is slowed down for the account and the address, the right password too; others are not held up.
func TestBruteForce(t *testing.T) {
	a := house(t, Config{}, ada, bo)
	for n := range freePerPair {
		if _, code := login(a, "192.0.2.7:9", ada.Name, fmt.Sprint("guess ", n)); code != http.StatusForbidden {
			t.Fatalf("guess %d: %d", n, code)
		}
	}
	_, _ = login(a, "192.0.2.7:9", ada.Name, "one more") // after which each waits
	if _, code := login(a, "192.0.2.7:9", ada.Name, right); code != http.StatusTooManyRequests {
		t.Errorf("the right password after too many wrong ones: %d", code)
	}
	if _, code := login(a, "198.51.100.9:9", ada.Name, right); code != http.StatusOK {
		t.Errorf("Ada from elsewhere: %d", code)
	}
	if _, code := login(a, "192.0.2.7:10", bo.Name, right); code != http.StatusOK {
		t.Errorf("Bo from the same address: %d", code)
	}
	refused := 0
	for n := range 3 * freePerAddress {
		if _, code := login(a, "192.0.2.7:9", fmt.Sprint("name ", n), "x"); code == http.StatusTooManyRequests {
			refused++
		}
	}
	if refused < freePerAddress {
		t.Errorf("of %d names from one address %d are refused", 3*freePerAddress, refused)
	}
}

// Many attempts at once are no way around the count.
func TestAtOnce(t *testing.T) {
	a := house(t, Config{}, ada)
	var wait sync.WaitGroup
	var mu sync.Mutex
	codes := map[int]int{}
	for range 60 {
		wait.Go(func() {
			_, code := login(a, "192.0.2.7:9", ada.Name, "guess")
			mu.Lock()
			defer mu.Unlock()
			codes[code]++
		})
	}
	wait.Wait()
	if tried := codes[http.StatusForbidden]; tried > freePerPair+2 || codes[http.StatusTooManyRequests] < 50 {
		t.Errorf("the answers are %v; at most %d may be looked at", codes, freePerPair+2)
	}
}

// Who is at the machine is its owner while no users are set up, and with the setting; not through a proxy.
func TestHome(t *testing.T) {
	for name, c := range map[string]struct {
		cfg    Config
		users  []people.User
		owners []bool // on loopback, through a proxy, from elsewhere
	}{
		"nobody set up":         {Config{}, nil, []bool{true, false, false}},
		"users":                 {Config{}, []people.User{bo}, []bool{false, false, false}},
		"users and the setting": {Config{Home: true}, []people.User{bo}, []bool{true, false, false}},
	} {
		a := house(t, c.cfg, c.users...)
		proxied := from("127.0.0.1:9", "/", "")
		proxied.Header.Set("X-Forwarded-For", "192.0.2.7")
		for i, r := range []*http.Request{from("[::1]:9", "/", ""), proxied, from("192.0.2.7:9", "/", "")} {
			k, err := a.Who(r)
			if err != nil || k.Known() != c.owners[i] || k.Known() && k.Role != who.RoleOwner {
				t.Errorf("%s, %d: %+v, %v", name, i, k, err)
			}
		}
	}
}

// A changed password ends all logins but the browser's own, which gets a new token.
func TestPassword(t *testing.T) {
	a := house(t, Config{}, ada)
	here, _ := login(a, "192.0.2.7:9", ada.Name, right)
	there, _ := login(a, "192.0.2.8:9", ada.Name, right)
	change := func(old, next string, c ...*http.Cookie) (*http.Cookie, int) {
		w := httptest.NewRecorder()
		body := fmt.Sprintf(`{"old": %q, "new": %q}`, old, next)
		if err := a.Password(w, from("192.0.2.7:9", "/api/password", body, c...)); err != nil {
			return nil, status(err)
		}
		return w.Result().Cookies()[0], http.StatusOK
	}
	if _, code := change("wrong", "another one", here); code != http.StatusForbidden {
		t.Errorf("with a wrong password: %d", code)
	}
	if _, code := change(right, "short", here); code != http.StatusUnprocessableEntity {
		t.Errorf("to a short one: %d", code)
	}
	if _, code := change(right, "another one"); code != http.StatusConflict {
		t.Errorf("by nobody: %d", code)
	}
	next, code := change(right, "another one", here)
	if code != http.StatusOK || is(t, a, here).Known() || is(t, a, there).Known() || !is(t, a, next).Known() {
		t.Errorf("%d; known are %v, %v, %v", code, is(t, a, here).Known(), is(t, a, there).Known(),
			is(t, a, next).Known())
	}
	if _, code := login(a, "192.0.2.9:9", ada.Name, "another one"); code != http.StatusOK {
		t.Errorf("the new password: %d", code)
	}
}

// A link lets a guest watch its station until it ends or is revoked; nothing else does.
func TestInvitation(t *testing.T) {
	a := house(t, Config{}, ada)
	accept := func(link string, c ...*http.Cookie) (*http.Cookie, int) {
		w := httptest.NewRecorder()
		r := from("198.51.100.9:9", "/api/invited", fmt.Sprintf(`{"link": %q}`, link), c...)
		if err := a.Accept(w, r); err != nil {
			return nil, status(err)
		}
		if all := w.Result().Cookies(); len(all) > 0 {
			return all[0], http.StatusOK
		}
		return nil, http.StatusOK
	}
	add := func(lasts time.Duration, at time.Time) (people.Invitation, string) {
		i, err := NewInvitation("Seat 3", "Cy", lasts, ada.Who(), at)
		if err != nil {
			t.Fatal(err)
		}
		token := secret.New()
		if err := a.cfg.Store.Invite(i, secret.Hash(token)); err != nil {
			t.Fatal(err)
		}
		return i, token
	}
	_, expired := add(time.Minute, time.Now().Add(-time.Hour))
	i, link := add(time.Hour, time.Now())
	cookie, _ := login(a, "192.0.2.7:9", ada.Name, right)
	for what, bad := range map[string]string{
		"wrong": secret.New(), "expired": expired, "empty": "", "a login": cookie.Value, "cut": link[1:],
	} {
		if c, code := accept(bad); c != nil || code != http.StatusForbidden {
			t.Errorf("a link that is %s: %d", what, code)
		}
	}
	guest, code := accept(link)
	if code != http.StatusOK {
		t.Fatal(code)
	}
	me := is(t, a, guest)
	if me.Role != who.RoleViewer || me.Name != "Cy" || !me.MayAt(permit.Watch, "Seat 3") ||
		me.MayAt(permit.Watch, "Seat 4") || me.May(permit.Read) || me.May(permit.Fly) {
		t.Errorf("the guest is %+v", me)
	}
	if c, code := accept(link, cookie); c != nil || code != http.StatusOK || is(t, a, cookie).ID != ada.ID {
		t.Errorf("a student who opens a link becomes a guest: %d", code)
	}
	if is(t, a, &http.Cookie{Name: "halfturn-login", Value: link}).Known() {
		t.Error("a link is a login")
	}
	if err := a.cfg.Store.Revoke(i.ID); err != nil {
		t.Fatal(err)
	}
	if _, code := accept(link); code != http.StatusForbidden || is(t, a, guest).Known() {
		t.Errorf("after it was revoked: %d, the guest is known: %v", code, is(t, a, guest).Known())
	}
	for _, lasts := range []time.Duration{0, -1, people.LongestInvitation + 1} {
		if _, err := NewInvitation("Seat 3", "", lasts, ada.Who(), noon); err == nil {
			t.Errorf("a link lasts %v", lasts)
		}
	}
}

// The log has who asked for what, and nothing of what was sent; logins that end elsewhere lose their sockets.
func TestRun(t *testing.T) {
	a := house(t, Config{}, ada)
	ctx, stop := context.WithCancel(t.Context())
	done := make(chan struct{})
	go func() { defer close(done); a.Run(ctx) }()
	c, _ := login(a, "192.0.2.7:9", ada.Name, right)
	_, _ = login(a, "192.0.2.7:9", ada.Name, "a wrong password")
	k, err := a.Who(from("192.0.2.7:9", "/", "", c))
	if err != nil {
		t.Fatal(err)
	}
	closed := make(chan struct{})
	defer a.Watches(k, func() { close(closed) })()
	a.Note(from("192.0.2.7:9", "/", ""), who.Who{}, "POST /x", "", http.StatusUnauthorized) // nobody known
	a.Note(from("192.0.2.7:9", "/", ""), k.Caller.Who, "POST /do/{act}", "mark", http.StatusOK)
	if err := a.cfg.Store.RemoveUser(ada.ID); err != nil { // as a command does
		t.Fatal(err)
	}
	<-closed
	stop()
	<-done
	all, err := a.cfg.Store.Entries(context.Background(), "", 10)
	if err != nil {
		t.Fatal(err)
	}
	text := fmt.Sprint(all)
	if len(all) != 3 || !strings.Contains(text, "log in") || !strings.Contains(text, "mark") ||
		!strings.Contains(text, "192.0.2.7") || all[1].Status != http.StatusForbidden {
		t.Errorf("the log is %+v", all)
	}
	for _, secret := range []string{right, "a wrong password", c.Value} {
		if strings.Contains(text, secret) {
			t.Errorf("the log holds %q", secret)
		}
	}
}
