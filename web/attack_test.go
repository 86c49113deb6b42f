package web

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/gorilla/websocket"
	"github.com/rs/zerolog"

	"halfturn/coach/message"
	"halfturn/coach/people"
	"halfturn/coach/people/secret"
	"halfturn/coach/who"
	"halfturn/web/access"
)

// A school is a server with users, at an address of its own: Ada is a student of Seat 3, Bo owns it.
type school struct {
	running
	store people.Store
	at    string // http://HOST:PORT
}

const password = "correct horse battery staple"

func newSchool(t *testing.T, cfg Config) *school {
	t.Helper()
	store := newPeople(t)
	hash, err := secret.Password(password)
	if err != nil {
		t.Fatal(err)
	}
	for _, u := range []people.User{
		{ID: "1", Name: "Ada Example", Role: who.RoleStudent, Stations: []string{"Seat 3"}, Made: flewAt},
		{ID: "2", Name: "Bo Example", Role: who.RoleOwner, Made: flewAt},
		{ID: "3", Name: "Cy Example", Role: who.RoleStudent, Stations: []string{"Seat 4", "Seat 5"}, Made: flewAt},
	} {
		if err := store.AddUser(u, hash); err != nil {
			t.Fatal(err)
		}
	}
	cfg.Access = access.New(access.Config{Store: store, Log: zerolog.Nop()})
	s := &school{running: run(t, cfg), store: store}
	s.at = "http" + strings.TrimSuffix(strings.TrimPrefix(s.url, "ws"), "/live")
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan struct{})
	go func() { defer close(done); cfg.Access.Run(ctx) }()
	t.Cleanup(func() { stop(); <-done; http.DefaultClient.CloseIdleConnections() })
	for _, name := range []string{"Seat 3", "Seat 4"} {
		s.hub.Event(station(name, "live"))
	}
	return s
}

// asked is one answer.
type asked struct {
	status int
	header http.Header
	body   string
}

// ask asks as a browser does that holds a cookie, and follows no redirect.
func (s *school) ask(t *testing.T, method, path, body, cookie string, header map[string]string) asked {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), method, s.at+path, strings.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Content-Type", "application/json")
	if cookie != "" {
		r.Header.Set("Cookie", cookie)
	}
	for name, value := range header {
		r.Header.Set(name, value)
		if name == "Host" {
			r.Host = value
		}
	}
	answer, err := http.DefaultTransport.RoundTrip(r)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return asked{answer.StatusCode, answer.Header, string(text)}
}

// login logs somebody in and returns the cookie.
func (s *school) login(t *testing.T, name string) string {
	t.Helper()
	body, _ := json.Marshal(map[string]string{"name": name, "password": password})
	a := s.ask(t, "POST", "/api/login", string(body), "", nil)
	if a.status != http.StatusOK {
		t.Fatalf("%s: %d %s", name, a.status, a.body)
	}
	cookie, _, _ := strings.Cut(a.header.Get("Set-Cookie"), ";")
	return cookie
}

// Once there are users, nobody gets in without a login, on this machine neither; a browser is led to where one begins.
func TestNobody(t *testing.T) {
	s := newSchool(t, Config{})
	for path, want := range map[string]int{
		"/api/stations": 401, "/api/me": 401, "/live": 401, "/metrics": 401, "/healthz": 200, "/main.js": 200,
		"/login": 200, "/api/people": 401, "/": 401, "/setup": 401, "/api/door": 200,
	} {
		if a := s.ask(t, "GET", path, "", "", nil); a.status != want {
			t.Errorf("%s: %d; must be %d", path, a.status, want)
		}
	}
	html := map[string]string{"Accept": "text/html"}
	a := s.ask(t, "GET", "/sessions?student=A", "", "", html)
	if a.status != http.StatusSeeOther || a.header.Get("Location") != "/login?to=%2Fsessions%3Fstudent%3DA" {
		t.Errorf("a page: %d, to %q", a.status, a.header.Get("Location"))
	}
	bo := s.login(t, "Bo Example")
	if a := s.ask(t, "GET", "/sessions", "", bo, html); a.status != http.StatusOK {
		t.Errorf("the owner: %d", a.status)
	}
}

// A page of another site has the browser's cookie, and gets nothing by it: no change, no live socket.
func TestCrossSite(t *testing.T) {
	s := newSchool(t, Config{})
	bo := s.login(t, "Bo Example")
	for _, header := range []map[string]string{
		{"Origin": "http://evil.example"},
		{"Origin": "null"},
		{"Sec-Fetch-Site": "cross-site"},
		{"Sec-Fetch-Site": "same-site", "Origin": "http://127.0.0.1:1"},
	} {
		if a := s.ask(t, "POST", "/api/stations/Seat%203/end", "{}", bo, header); a.status != http.StatusForbidden {
			t.Errorf("a command from %v: %d", header, a.status)
		}
		body := fmt.Sprintf(`{"name": "Bo Example", "password": %q}`, password)
		if a := s.ask(t, "POST", "/api/login", body, "", header); a.status != http.StatusForbidden {
			t.Errorf("a login from %v: %d", header, a.status)
		}
		if header["Origin"] == "" {
			continue
		}
		_, answer, err := dial(t, s.url, http.Header{"Origin": {header["Origin"]}, "Cookie": {bo}})
		if err == nil || answer.StatusCode != http.StatusForbidden {
			t.Errorf("a socket from %v: %v", header, err)
		}
	}
	if _, _, err := dial(t, s.url, http.Header{"Origin": {s.at}, "Cookie": {bo}}); err != nil {
		t.Errorf("a socket of an own page: %v", err)
	}
	own := map[string]string{"Origin": s.at}
	if a := s.ask(t, "POST", "/api/stations/Seat%203/end", "{}", bo, own); a.status != http.StatusOK {
		t.Errorf("a command of an own page: %d %s", a.status, a.body)
	}
}

// A name of somebody else's that leads here (DNS rebinding) is not answered, whoever asks.
func TestFalseHost(t *testing.T) {
	s := newSchool(t, Config{})
	bo := s.login(t, "Bo Example")
	for _, host := range []string{"evil.example", "evil.example:7180", "127.0.0.1.evil.example", "192.0.2.7"} {
		if a := s.ask(t, "GET", "/api/stations", "", bo, map[string]string{"Host": host}); a.status != 421 {
			t.Errorf("%s: %d", host, a.status)
		}
	}
}

// Nobody sees more than the stations that they have to do with: by their sockets, in their lists, by any path.
func TestOwnStations(t *testing.T) {
	s := newSchool(t, Config{})
	ada, cy := s.login(t, "Ada Example"), s.login(t, "Cy Example")
	for cookie, own := range map[string]string{ada: "Seat 3", cy: "Seat 4"} {
		a := s.ask(t, "GET", "/api/stations", "", cookie, nil)
		var list StationList
		if err := json.Unmarshal([]byte(a.body), &list); err != nil || len(list.Stations) != 1 ||
			list.Stations[0].Name != own {
			t.Errorf("the list for %s: %v, %s", own, err, a.body)
		}
		c, _, err := dial(t, s.url, http.Header{"Cookie": {cookie}})
		if err != nil {
			t.Fatal(err)
		}
		hello := next(t, c)
		if hello.Station != own || len(hello.Body.(*message.Hello).Stations) != 1 {
			t.Errorf("the socket for %s begins with %+v of %v", own, hello, hello.Body)
		}
	}
	for path, status := range map[string]int{
		"?station=Seat+4": 403, "?station=Nowhere": 403, "?station=Seat+3%00": 403,
	} {
		_, answer, err := dial(t, s.url+path, http.Header{"Cookie": {ada}})
		if err == nil || answer.StatusCode != status {
			t.Errorf("a socket of %s: %v", path, err)
		}
	}
	if a := s.ask(t, "POST", "/api/stations/Seat%204/end", "{}", ada, nil); a.status != http.StatusForbidden {
		t.Errorf("the end of another's session: %d", a.status)
	}
	if a := s.ask(t, "POST", "/do/mute?station=Seat+4", "", ada, nil); a.status != http.StatusForbidden {
		t.Errorf("a button of another's: %d", a.status)
	}
	// A station that comes goes to those who may see it, and to nobody else.
	socket, _, err := dial(t, s.url, http.Header{"Cookie": {ada}})
	if err != nil {
		t.Fatal(err)
	}
	next(t, socket)
	s.hub.Event(station("Seat 3", message.LinkGone))
	s.hub.Event(station("Seat 5", "live"))
	s.hub.Event(station("Seat 3", "live"))
	for {
		m := next(t, socket)
		if m.Station != "Seat 3" {
			t.Fatalf("Ada sees %+v", m)
		}
		if info, ok := m.Body.(*message.Station); ok && info.Link == "live" {
			break
		}
	}
}

// When a login ends, so do its live sockets, at once, with a code that tells the page to ask who one is.
func TestLogoutEndsSockets(t *testing.T) {
	s := newSchool(t, Config{})
	ada := s.login(t, "Ada Example")
	c, _, err := dial(t, s.url, http.Header{"Cookie": {ada}})
	if err != nil {
		t.Fatal(err)
	}
	next(t, c)
	if a := s.ask(t, "POST", "/api/logout", "{}", ada, nil); a.status != http.StatusOK {
		t.Fatal(a.status)
	}
	_, _, err = c.ReadMessage()
	var closed *websocket.CloseError
	if !errors.As(err, &closed) || closed.Code != websocket.ClosePolicyViolation {
		t.Errorf("the socket ends with %v", err)
	}
	if a := s.ask(t, "GET", "/api/me", "", ada, nil); a.status != http.StatusUnauthorized {
		t.Errorf("the cookie that was stolen: %d", a.status)
	}
	if _, answer, err := dial(t, s.url, http.Header{"Cookie": {ada}}); err == nil || answer.StatusCode != 401 {
		t.Errorf("a socket with it: %v", err)
	}
}

// No path leads out of what is served.
func TestTraversal(t *testing.T) {
	b, id := filled(t)
	s := newSchool(t, Config{Logbook: b, Captures: captures{}, Flights: pictured{}})
	bo := s.login(t, "Bo Example")
	for _, path := range []string{
		"/../go.mod", "/..%2f..%2fgo.mod", "/%2e%2e/%2e%2e/etc/passwd", "/static/../server.go", "/css/../../server.go",
		"/api/sessions/..%2f..%2fpeople.db", "/api/sessions/%2e%2e", "/api/guides/x/files/..%2f..%2fhalfturn.toml",
		"/api/guides/../files/halfturn.toml", "/people.db", "//etc/passwd", "/api/sessions/" + id + "%00",
		"/\\..\\server.go",
	} {
		c, err := net.Dial("tcp", strings.TrimPrefix(s.at, "http://"))
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(c, "GET %s HTTP/1.1\r\nHost: localhost\r\nCookie: %s\r\nConnection: close\r\n\r\n", path, bo)
		answer, err := http.ReadResponse(bufio.NewReader(c), nil)
		if err != nil {
			t.Fatalf("%s: %v", path, err)
		}
		body, _ := io.ReadAll(answer.Body)
		c.Close()
		if answer.StatusCode == http.StatusOK || bytes.Contains(body, []byte("module halfturn")) {
			t.Errorf("%s: %d %.80s", path, answer.StatusCode, body)
		}
	}
}

// What somebody writes never becomes a header of an answer.
func TestHeaderInjection(t *testing.T) {
	s := newSchool(t, Config{})
	const evil = "%0d%0aSet-Cookie:%20halfturn-login=x%0d%0a"
	for _, path := range []string{
		"/setup?to=" + evil, "/" + evil, "/sessions/" + evil, "/api/stations/" + evil + "/legs", "/do/" + evil,
	} {
		a := s.ask(t, "GET", path, "", "", map[string]string{"Accept": "text/html"})
		if a.header.Get("Set-Cookie") != "" || strings.ContainsAny(a.header.Get("Location"), "\r\n") {
			t.Errorf("%s: %v", path, a.header)
		}
	}
	body, _ := json.Marshal(map[string]string{"name": "x\r\nSet-Cookie: a=b", "password": "\r\n"})
	if a := s.ask(t, "POST", "/api/login", string(body), "", nil); a.status != 403 || a.header.Get("Set-Cookie") != "" {
		t.Errorf("a login: %d %v", a.status, a.header)
	}
}

// Ten thousand connections that do nothing: as many as may be are held, the others are turned away, little memory is
// used, and whoever is let in is served.
func TestTenThousandConnections(t *testing.T) {
	const most = 200
	attempts := 10_000 // fewer where it takes long: what is held is cut off after the time in which a request must come
	s := newSchool(t, Config{MaxOpen: most})
	ada := s.login(t, "Ada Example")
	socket, _, err := dial(t, s.url, http.Header{"Cookie": {ada}})
	if err != nil {
		t.Fatal(err)
	}
	next(t, socket)
	http.DefaultClient.CloseIdleConnections()
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	began, refused := time.Now(), 0
	var held []net.Conn
	defer func() {
		for _, c := range held {
			c.Close()
		}
	}()
	var buffer [256]byte
	for n := range attempts {
		if time.Since(began) > 4*time.Second {
			attempts = n
			break
		}
		c, err := net.Dial("tcp", strings.TrimPrefix(s.at, "http://"))
		if err != nil {
			t.Fatal(err)
		}
		if len(held) < 3*most/4 { // what one address may have
			held = append(held, c)
			continue
		}
		_ = c.SetReadDeadline(time.Now().Add(5 * time.Second))
		if _, err := c.Read(buffer[:]); err == nil || errors.Is(err, io.EOF) || strings.Contains(err.Error(), "reset") {
			refused++
		}
		c.Close()
	}
	took := time.Since(began)
	runtime.GC()
	runtime.ReadMemStats(&after)
	grown := int64(after.HeapAlloc) - int64(before.HeapAlloc)
	t.Logf("%d attempts in %v: %d refused, the heap grew by %d kB", attempts, took, refused, grown>>10)
	if attempts < 2*most || refused < attempts-most || grown > 32<<20 {
		t.Errorf("%d refused, the heap grew by %d kB", refused, grown>>10)
	}
	s.hub.Event(callout("Seat 3", 1))
	if m := next(t, socket); m.Type() != "callout" {
		t.Errorf("who was there gets %+v", m)
	}
}
