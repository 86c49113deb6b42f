package web

import (
	"context"
	"encoding/json"
	"errors"
	"io"
	"net/http"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/gorilla/websocket"
	"github.com/rs/zerolog"

	"halfturn/coach/people"
	"halfturn/coach/people/sqlite"
	"halfturn/coach/permit"
	"halfturn/stream/phrase"
	"halfturn/web/access"
)

// newPeople is a list of people that holds nobody.
func newPeople(t testing.TB) people.Store {
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
	return store
}

// newAccess lets in people of a list that holds nobody.
func newAccess(t testing.TB) *access.Access {
	return access.New(access.Config{Store: newPeople(t), Log: zerolog.Nop()})
}

// The owner adds, resets and removes users; a password is told once and works; the last owner stays.
func TestPeopleAPI(t *testing.T) {
	s := newSchool(t, Config{})
	bo := s.login(t, "Bo Example")
	for body, want := range map[string]int{
		`{"name": "Dee <b>", "role": "instructor"}`:             200,
		`{"name": "Eve", "role": "student"}`:                    422,
		`{"name": "Eve", "role": "viewer"}`:                     422,
		`{"name": "Eve", "role": "admin"}`:                      422,
		`{"name": "", "role": "owner"}`:                         422,
		`{"name": "Eve", "role": "owner", "password": "x"}`:     400,
		`{"name": "Eve", "role": "student", "stations": [" "]}`: 422,
	} {
		if a := s.ask(t, "POST", "/api/people", body, bo, nil); a.status != want {
			t.Errorf("%s: %d %s; must be %d", body, a.status, a.body, want)
		}
	}
	if a := s.ask(t, "POST", "/api/people", `{"name": "dee <B>", "role": "owner"}`, bo, nil); a.status != 409 {
		t.Errorf("a name that is taken: %d %s", a.status, a.body)
	}
	a := s.ask(t, "POST", "/api/people/1/password", "{}", bo, nil)
	var made struct{ Password string }
	if err := json.Unmarshal([]byte(a.body), &made); err != nil || a.status != 200 || made.Password == "" {
		t.Fatalf("%d %s", a.status, a.body)
	}
	login, _ := json.Marshal(map[string]string{"name": "Ada Example", "password": made.Password})
	if a := s.ask(t, "POST", "/api/login", string(login), "", nil); a.status != 200 {
		t.Errorf("with the new password: %d %s", a.status, a.body)
	}
	list := s.ask(t, "GET", "/api/people", "", bo, nil)
	if !strings.Contains(list.body, `"name":"Dee \u003cb\u003e"`) || strings.Contains(list.body, "argon2") ||
		strings.Contains(list.body, made.Password) {
		t.Errorf("the list is %s", list.body)
	}
	for _, c := range []struct {
		path string
		want int
	}{{"/api/people/2", 422}, {"/api/people/nobody", 404}, {"/api/people/1", 200}, {"/api/people/1", 404}} {
		if a := s.ask(t, "DELETE", c.path, "", bo, nil); a.status != c.want {
			t.Errorf("DELETE %s: %d %s; must be %d", c.path, a.status, a.body, c.want)
		}
	}
}

// A student invites to watch their own station, sees their own links, and ends no other's.
func TestInvitationsAPI(t *testing.T) {
	s := newSchool(t, Config{})
	ada, cy := s.login(t, "Ada Example"), s.login(t, "Cy Example")
	if a := s.ask(t, "POST", "/api/stations/Seat%204/invite", "{}", ada, nil); a.status != 403 {
		t.Errorf("to another's station: %d", a.status)
	}
	for _, bad := range []string{`{"hours": 0}`, `{"hours": 721}`, `{"hours": -1}`, `{"for": "a\u0000b"}`} {
		if a := s.ask(t, "POST", "/api/stations/Seat%203/invite", bad, ada, nil); a.status != 422 {
			t.Errorf("%s: %d %s", bad, a.status, a.body)
		}
	}
	a := s.ask(t, "POST", "/api/stations/Seat%203/invite", `{"for": "Fay", "hours": 2}`, ada, nil)
	var made access.Invited
	if err := json.Unmarshal([]byte(a.body), &made); err != nil || a.status != 200 {
		t.Fatalf("%d %s", a.status, a.body)
	}
	_, token, _ := strings.Cut(made.Path, "#")
	link, _ := json.Marshal(map[string]string{"link": token})
	in := s.ask(t, "POST", "/api/invited", string(link), "", nil)
	guest, _, _ := strings.Cut(in.header.Get("Set-Cookie"), ";")
	c, _, err := dial(t, s.url+"?station=Seat+3", http.Header{"Cookie": {guest}})
	if err != nil {
		t.Fatal(err)
	}
	next(t, c)
	if a := s.ask(t, "GET", "/api/invitations", "", cy, nil); strings.Contains(a.body, made.Invitation.ID) {
		t.Errorf("Cy sees Ada's link: %s", a.body)
	}
	path := "/api/invitations/" + made.Invitation.ID
	for _, end := range []struct {
		cookie string
		want   int
	}{{cy, 404}, {guest, 403}, {ada, 200}, {ada, 404}} {
		if a := s.ask(t, "DELETE", path, "", end.cookie, nil); a.status != end.want {
			t.Errorf("ended: %d %s; must be %d", a.status, a.body, end.want)
		}
	}
	for err == nil { // it ends within seconds
		_, _, err = c.ReadMessage()
	}
	if !websocket.IsCloseError(err, websocket.ClosePolicyViolation) {
		t.Errorf("the guest's socket ends with %v", err)
	}
}

// An absent store answers no question.
type absentStore struct {
	people.Store
	gone bool
}

var errGone = errors.New("the database does not answer")

func (a *absentStore) Users(ctx context.Context) ([]people.User, error) {
	if a.gone {
		return nil, errGone
	}
	return a.Store.Users(ctx)
}

func (a *absentStore) UserNamed(ctx context.Context, name string) (people.User, string, error) {
	if a.gone {
		return people.User{}, "", errGone
	}
	return a.Store.UserNamed(ctx, name)
}

func (a *absentStore) Login(ctx context.Context, h people.Hash, at time.Time) (people.Login, permit.Caller, error) {
	if a.gone {
		return people.Login{}, permit.Caller{}, errGone
	}
	return a.Store.Login(ctx, h, at)
}

// While the list of people cannot be asked, who would have to be looked up is told so, and not to log in; what
// everybody may see is shown.
func TestPeopleAway(t *testing.T) {
	store := &absentStore{Store: newPeople(t)}
	s := run(t, Config{Access: access.New(access.Config{Store: store, Log: zerolog.Nop()})})
	home := "http" + strings.TrimSuffix(strings.TrimPrefix(s.url, "ws"), "/live")
	ask := func(method, path, token string) (int, http.Header, string) {
		t.Helper()
		r, err := http.NewRequestWithContext(t.Context(), method, home+path, strings.NewReader(
			`{"name": "Ada Example", "password": "correct horse"}`))
		if err != nil {
			t.Fatal(err)
		}
		r.Header.Set("Content-Type", "application/json")
		if token != "" {
			r.AddCookie(&http.Cookie{Name: "halfturn-login", Value: token})
		}
		answer, err := http.DefaultTransport.RoundTrip(r)
		if err != nil {
			t.Fatal(err)
		}
		defer answer.Body.Close()
		body, err := io.ReadAll(answer.Body)
		if err != nil {
			t.Fatal(err)
		}
		return answer.StatusCode, answer.Header, string(body)
	}
	store.gone = true
	for _, c := range []struct {
		method, path, token string
		want                int
	}{
		{"GET", "/api/stations", "", 503},
		{"GET", "/api/stations", "any", 503},
		{"GET", "/", "", 503},
		{"GET", "/live", "", 503},
		{"POST", "/api/login", "", 503},
		{"GET", "/login", "any", 200},
		{"GET", "/healthz", "any", 200},
	} {
		status, header, body := ask(c.method, c.path, c.token)
		if status != c.want || c.want == 503 &&
			(!strings.Contains(body, phrase.PeopleAway.Of().String()) || header.Get("Retry-After") == "") {
			t.Errorf("%s %s with %q: %d %s; must be %d", c.method, c.path, c.token, status, body, c.want)
		}
	}
	store.gone = false
	if status, _, body := ask("GET", "/api/stations", ""); status != 200 {
		t.Errorf("once it is back: %d %s", status, body)
	}
}
