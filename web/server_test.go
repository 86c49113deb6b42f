package web

import (
	"context"
	"encoding/json"
	"errors"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/gorilla/websocket"
	"github.com/prometheus/client_golang/prometheus"
	"github.com/rs/zerolog"

	"halfturn/coach/session"
	"halfturn/web/internal/feed"
)

// A fakeDesk takes every maneuver but one.
type fakeDesk struct{ chosen []string }

func (d *fakeDesk) Cards() Cards {
	return Cards{Maneuvers: []Card{{Name: "wing-over", Title: "Wing-over"}}, Aircraft: []Card{}}
}

func (d *fakeDesk) Choose(station, maneuver, aircraft string) error {
	if maneuver == "loop" {
		return errors.New(`there is no maneuver card "loop": choose wing-over`)
	}
	d.chosen = []string{station, maneuver, aircraft}
	return nil
}

func (d *fakeDesk) Legs(station string) (any, bool) {
	return map[string]any{"station": station}, station == "Seat 3"
}

func newServer(t testing.TB, cfg Config) (*Server, *Hub, *fakeDesk) {
	t.Helper()
	h := NewHub("1.2.3", zerolog.Nop())
	d := &fakeDesk{}
	return New(cfg, h, d, prometheus.NewRegistry(), zerolog.Nop()), h, d
}

func request(s *Server, method, target, body string, header map[string]string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, target, strings.NewReader(body))
	r.Host = "127.0.0.1:7180"
	for k, v := range header {
		if k == "Host" {
			r.Host = v
			continue
		}
		r.Header.Set(k, v)
	}
	w := httptest.NewRecorder()
	s.Handler().ServeHTTP(w, r)
	return w
}

func TestHosts(t *testing.T) {
	s, _, _ := newServer(t, Config{Hosts: []string{"Tower.example"}})
	s.door.bound(&net.TCPAddr{IP: net.IPv4(192, 0, 2, 7), Port: 7180})
	tests := []struct {
		host string
		ok   bool
	}{
		{"127.0.0.1:7180", true},
		{"127.0.0.1", true},
		{"127.8.8.8:1", true},
		{"[::1]:7180", true},
		{"localhost:7180", true},
		{"LOCALHOST", true},
		{"localhost.:7180", true},
		{"tower.example:7180", true},
		{"192.0.2.7:7180", true},
		{"192.0.2.8:7180", false},
		{"evil.example:7180", false}, // a name made to point at 127.0.0.1
		{"localhost.evil.example", false},
		{"127.0.0.1.evil.example", false},
		{"0.0.0.0:7180", false},
		{"", false},
	}
	for _, tt := range tests {
		t.Run(tt.host, func(t *testing.T) {
			w := request(s, "GET", "/healthz", "", map[string]string{"Host": tt.host})
			if got := w.Code == http.StatusOK; got != tt.ok {
				t.Errorf("status %d, let in %v, want %v", w.Code, got, tt.ok)
			}
		})
	}
	s.door.bound(&net.TCPAddr{IP: net.IPv4zero, Port: 7180})
	if w := request(s, "GET", "/healthz", "", map[string]string{"Host": "198.51.100.2:7180"}); w.Code != http.StatusOK {
		t.Errorf("bound to all addresses, an address is answered with %d", w.Code)
	}
	if w := request(s, "GET", "/healthz", "", map[string]string{"Host": "evil.example"}); w.Code != http.StatusMisdirectedRequest {
		t.Errorf("bound to all addresses, a strange name is answered with %d", w.Code)
	}
}

func TestHeadersAreOnEveryAnswer(t *testing.T) {
	s, _, _ := newServer(t, Config{})
	want := map[string]string{
		"Content-Security-Policy": policy,
		"X-Content-Type-Options":  "nosniff",
		"Referrer-Policy":         "no-referrer",
	}
	for _, path := range []string{"/", "/main.js", "/api/stations", "/no-such-page", "/api/stations/none/legs", "/metrics"} {
		w := request(s, "GET", path, "", nil)
		for name, value := range want {
			if got := w.Header().Get(name); got != value {
				t.Errorf("%s: %s is %q, want %q", path, name, got, value)
			}
		}
	}
	for _, part := range []string{"default-src 'self'", "frame-ancestors 'none'"} {
		if !strings.Contains(policy, part) {
			t.Errorf("the policy lacks %s", part)
		}
	}
	if strings.Contains(policy, "unsafe") {
		t.Error("the policy allows what is unsafe")
	}
}

func TestAnswers(t *testing.T) {
	s, h, d := newServer(t, Config{Listen: []string{"127.0.0.1:7181"}})
	h.Event(session.Message{Type: session.TypeStation, Station: "Seat 3", Body: feed.Station("Seat 3", "live")})
	asJSON := map[string]string{"Content-Type": "application/json"}
	with := func(k, v string) map[string]string {
		return map[string]string{"Content-Type": "application/json", k: v}
	}
	good := `{"maneuver":"wing-over","aircraft":""}`
	const choose = "/api/stations/Seat%203/choose"
	tests := []struct {
		name, method, target, body string
		header                     map[string]string
		code                       int
		says                       string
	}{
		{"health", "GET", "/healthz", "", nil, 200, "ok\n"},
		{"panel", "GET", "/", "", nil, 200, "<!doctype html>"},
		{"script", "GET", "/main.js", "", nil, 200, "register()"},
		{"no page", "GET", "/nothing", "", nil, 404, `there is no page /nothing`},
		{"no source", "GET", "/server.go", "", nil, 404, `no page`},
		{"stations", "GET", "/api/stations", "", nil, 200, `"listen":["127.0.0.1:7181"],"stations":[{"name":"Seat 3"`},
		{"cards", "GET", "/api/cards", "", nil, 200, `{"maneuvers":[{"name":"wing-over","title":"Wing-over"}],"aircraft":[]}`},
		{"legs", "GET", "/api/stations/Seat%203/legs", "", nil, 200, `{"station":"Seat 3"}`},
		{"legs of none", "GET", "/api/stations/x/legs", "", nil, 404, `there is no station \"x\"`},
		{"metrics", "GET", "/metrics", "", nil, 200, ""},
		{"choose", "POST", choose, good, asJSON, 200, `{"maneuver":"wing-over","aircraft":""}`},
		{"choose from the panel", "POST", choose, good, with("Origin", "http://127.0.0.1:7180"), 200, "wing-over"},
		{"choose from elsewhere", "POST", choose, good, with("Origin", "https://evil.example"), 403, "another site"},
		{"choose from another port", "POST", choose, good, with("Origin", "http://127.0.0.1:9999"), 403, "another site"},
		{"choose across sites", "POST", choose, good, with("Sec-Fetch-Site", "cross-site"), 403, "another site"},
		{"choose as a form", "POST", choose, good, map[string]string{"Content-Type": "text/plain"}, 415, "application/json"},
		{"choose as nothing", "POST", choose, good, nil, 415, "application/json"},
		{"choose for none", "POST", "/api/stations/x/choose", good, asJSON, 404, "no station"},
		{"choose badly", "POST", choose, `{"maneuver":`, asJSON, 400, "not as expected"},
		{"choose too much", "POST", choose, `{"maneuver":"wing-over","power":1}`, asJSON, 400, `unknown field`},
		{"choose nothing", "POST", choose, `{}`, asJSON, 400, "names no maneuver"},
		{"choose at length", "POST", choose, `{"maneuver":"` + strings.Repeat("x", maxBody) + `"}`, asJSON, 413, "longer than"},
		{"choose what is not there", "POST", choose, `{"maneuver":"loop"}`, asJSON, 422, `there is no maneuver card \"loop\"`},
		{"get choose", "GET", choose, "", nil, 404, "no page"},
		{"bad since", "GET", "/live?since=x", "", nil, 400, `since=\"x\"`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			w := request(s, tt.method, tt.target, tt.body, tt.header)
			if w.Code != tt.code {
				t.Errorf("status %d, want %d", w.Code, tt.code)
			}
			if !strings.Contains(w.Body.String(), tt.says) {
				t.Errorf("says %q, want %q in it", w.Body, tt.says)
			}
			var problem struct{ Error string }
			if tt.code >= 400 && (json.Unmarshal(w.Body.Bytes(), &problem) != nil || problem.Error == "") {
				t.Errorf("a problem should be JSON with an error, is %q", w.Body)
			}
		})
	}
	if len(d.chosen) != 3 || d.chosen[0] != "Seat 3" || d.chosen[1] != "wing-over" {
		t.Errorf("chosen: %q", d.chosen)
	}
}

func TestUnchangedPagesAreNotSentAgain(t *testing.T) {
	s, _, _ := newServer(t, Config{})
	first := request(s, "GET", "/main.js", "", nil)
	tag := first.Header().Get("ETag")
	if tag == "" || first.Header().Get("Cache-Control") != "no-cache" {
		t.Fatalf("ETag %q, Cache-Control %q", tag, first.Header().Get("Cache-Control"))
	}
	if again := request(s, "GET", "/main.js", "", map[string]string{"If-None-Match": tag}); again.Code != http.StatusNotModified || again.Body.Len() != 0 {
		t.Errorf("status %d and %d bytes, want 304 and none", again.Code, again.Body.Len())
	}
}

// running is a server on a port of its own.
type running struct {
	url  string
	hub  *Hub
	stop func() error
}

func run(t testing.TB, cfg Config) running {
	t.Helper()
	s, h, _ := newServer(t, cfg)
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	served := make(chan error, 1)
	go func() { served <- s.Serve(ctx, l) }()
	stopped := false
	stop := func() error {
		if stopped {
			return nil
		}
		stopped = true
		cancel()
		return <-served
	}
	t.Cleanup(func() {
		if err := stop(); err != nil {
			t.Error(err)
		}
	})
	return running{url: "ws://" + l.Addr().String() + "/live", hub: h, stop: stop}
}

func dial(t testing.TB, url string, header http.Header) (*websocket.Conn, *http.Response, error) {
	t.Helper()
	c, resp, err := websocket.DefaultDialer.Dial(url, header)
	if err == nil {
		_ = c.SetReadDeadline(time.Now().Add(10 * time.Second))
		t.Cleanup(func() { _ = c.Close() })
	}
	return c, resp, err
}

func next(t testing.TB, c *websocket.Conn) said {
	t.Helper()
	var s said
	if err := c.ReadJSON(&s); err != nil {
		t.Fatal(err)
	}
	return s
}

func TestLiveSocket(t *testing.T) {
	r := run(t, Config{})
	r.hub.Event(station("Seat 3", "live"))
	c, _, err := dial(t, r.url, nil)
	if err != nil {
		t.Fatal(err)
	}
	hello := next(t, c)
	if hello.Type != "hello" || hello.Station != "Seat 3" || hello.Seq != 1 {
		t.Fatalf("first came %+v, want a hello", hello)
	}
	r.hub.Frame("Seat 3", feed.At(1, 20, 0))
	if got := next(t, c); got.Type != "frame" || got.Seq != 0 {
		t.Errorf("got %+v, want a frame without a number", got)
	}
	if err := c.WriteMessage(websocket.TextMessage, []byte("chatter")); err != nil {
		t.Fatal(err)
	}
	r.hub.Event(callout("Seat 3", 1))
	if got := next(t, c); got.Type != "callout" || got.Seq != 2 {
		t.Errorf("got %+v, want the callout, whatever the viewer said", got)
	}
}

func TestLiveSocketResumes(t *testing.T) {
	r := run(t, Config{})
	r.hub.Event(station("Seat 3", "live"))
	c, _, err := dial(t, r.url, nil)
	if err != nil {
		t.Fatal(err)
	}
	hello := next(t, c)
	_ = c.Close()
	for i := range 3 {
		r.hub.Event(callout("Seat 3", float64(i)))
	}
	c, _, err = dial(t, r.url+"?since=1&run="+hello.Run, nil)
	if err != nil {
		t.Fatal(err)
	}
	for want := uint64(2); want <= 4; want++ {
		if got := next(t, c); got.Seq != want {
			t.Errorf("event %d, want %d", got.Seq, want)
		}
	}
}

func TestOrigins(t *testing.T) {
	r := run(t, Config{})
	host := strings.TrimSuffix(strings.TrimPrefix(r.url, "ws://"), "/live")
	tests := []struct {
		origin string
		ok     bool
	}{
		{"", true},
		{"http://" + host, true},
		{"http://evil.example", false},
		{"http://localhost:1", false},
		{"null", false},
		{"http://" + host + ".evil.example", false},
	}
	for _, tt := range tests {
		t.Run(tt.origin, func(t *testing.T) {
			header := http.Header{}
			if tt.origin != "" {
				header.Set("Origin", tt.origin)
			}
			_, resp, err := dial(t, r.url, header)
			if (err == nil) != tt.ok {
				t.Errorf("let in %v, want %v", err == nil, tt.ok)
			}
			if !tt.ok && resp.StatusCode != http.StatusForbidden {
				t.Errorf("status %d, want 403", resp.StatusCode)
			}
		})
	}
	header := http.Header{}
	header.Set("Host", "evil.example")
	if _, resp, err := dial(t, r.url, header); err == nil || resp.StatusCode != http.StatusMisdirectedRequest {
		t.Error("a socket for a strange host was let in")
	}
}

func TestStoppingClosesTheSockets(t *testing.T) {
	r := run(t, Config{})
	r.hub.Event(station("Seat 3", "live"))
	sockets := []*websocket.Conn{}
	for range 5 {
		c, _, err := dial(t, r.url, nil)
		if err != nil {
			t.Fatal(err)
		}
		next(t, c)
		sockets = append(sockets, c)
	}
	codes := make(chan error, len(sockets))
	for _, c := range sockets {
		go func() {
			_, _, err := c.ReadMessage()
			codes <- err
		}()
	}
	begin := time.Now()
	if err := r.stop(); err != nil {
		t.Errorf("stopping: %v", err)
	}
	if took := time.Since(begin); took > 2*time.Second {
		t.Errorf("stopping took %v", took)
	}
	for range sockets {
		var closed *websocket.CloseError
		if err := <-codes; !errors.As(err, &closed) || closed.Code != websocket.CloseGoingAway || closed.Text != "the server is stopping" {
			t.Errorf("a socket ended with %v, want going away (1001)", err)
		}
	}
	if n := len(r.hub.viewers); n != 0 {
		t.Errorf("%d viewers left", n)
	}
	if r.hub.join(newViewer(), wish{}, 10) {
		t.Error("a stopped hub lets viewers in")
	}
}

func TestViewersAreBounded(t *testing.T) {
	r := run(t, Config{MaxViewers: 2})
	for range 2 {
		c, _, err := dial(t, r.url, nil)
		if err != nil {
			t.Fatal(err)
		}
		next(t, c)
	}
	_, resp, err := dial(t, r.url, nil)
	if err == nil || resp.StatusCode != http.StatusServiceUnavailable {
		t.Fatalf("the third of two viewers: %v", err)
	}
	if body, _ := io.ReadAll(resp.Body); !strings.Contains(string(body), "no more viewers") {
		t.Errorf("it hears %q", body)
	}
}

func TestLongMessagesEndASocket(t *testing.T) {
	r := run(t, Config{})
	c, _, err := dial(t, r.url, nil)
	if err != nil {
		t.Fatal(err)
	}
	next(t, c)
	_ = c.WriteMessage(websocket.TextMessage, make([]byte, 10*readLimit)) // may be cut short
	if _, _, err := c.ReadMessage(); err == nil {
		t.Error("the socket lives on")
	}
}
