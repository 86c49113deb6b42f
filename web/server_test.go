package web

import (
	"context"
	"encoding/json"
	"errors"
	"net"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/coach/session"
	"halfturn/stream/phrase"
	"halfturn/web/internal/feed"
)

// A fakeDesk takes every maneuver but one.
type fakeDesk struct {
	chosen []string
	did    []string // of students and ends
}

func (d *fakeDesk) Cards() Cards {
	return Cards{Maneuvers: []Card{{Name: "wing-over", Title: "Wing-over"}}, Aircraft: []Card{}}
}

func (d *fakeDesk) Choose(_ context.Context, station string, c Choice) error {
	maneuver, aircraft := c.Maneuver, c.Aircraft
	if maneuver == "loop" {
		return errors.New(`there is no maneuver card "loop": choose wing-over`)
	}
	d.chosen = []string{station, maneuver, aircraft}
	return nil
}

func (d *fakeDesk) Legs(_ context.Context, station string) (any, bool) {
	return map[string]any{"station": station}, station == "Seat 3"
}

func (d *fakeDesk) Line(_ context.Context, station string, c coach.LineChoice) error {
	if c.Heading != nil && *c.Heading > 360 {
		return phrase.LineHeading.Error(phrase.Int("heading", 400))
	}
	return nil
}

func (d *fakeDesk) Student(_ context.Context, station, name string) error {
	if name == "nobody" {
		return errors.New("nobody is no name")
	}
	d.did = append(d.did, station+" student "+name)
	return nil
}

func (d *fakeDesk) End(_ context.Context, station string) error {
	if station == "Seat 4" {
		return errors.New("nothing was flown at Seat 4 yet; there is no session to end")
	}
	d.did = append(d.did, station+" end")
	return nil
}

func (d *fakeDesk) Brief(c Choice) (any, error) {
	if c.Maneuver != "wing-over" {
		return nil, errors.New(`there is no maneuver card "loop"`)
	}
	return map[string]any{"of": c}, nil
}

func (d *fakeDesk) Probe(_ context.Context, station string) (any, bool) {
	return map[string]any{"name": station}, station == "Seat 3"
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

// TestHosts asks by names and addresses, at an address of the server's: one where it listens, or one of all.
func TestHosts(t *testing.T) {
	tests := []struct {
		host        string
		alone, open bool // let in when it listens at 192.0.2.7 alone, and when at all addresses
	}{
		{"127.0.0.1:7180", true, true},
		{"127.0.0.1", true, true},
		{"127.8.8.8:1", true, true},
		{"[::1]:7180", true, true},
		{"localhost:7180", true, true},
		{"LOCALHOST", true, true},
		{"localhost.:7180", true, true},
		{"tower.example:7180", true, true},
		{"198.51.100.9", true, true}, // named in the configuration
		{"[2001:db8::9]:7180", true, true},
		{"192.0.2.7:7180", true, true}, // where the request came in
		{"[::ffff:192.0.2.7]:7180", true, true},
		{"simpc:7180", true, true}, // the machine's own name
		{"SimPC.local", true, true},
		{"simpc.example", false, false},
		{"192.0.2.8:7180", false, false},
		{"[2001:db8::8]:7180", false, false},
		{"8.8.8.8", false, false},
		{"evil.example:7180", false, false}, // a name made to point at 127.0.0.1
		{"localhost.evil.example", false, false},
		{"127.0.0.1.evil.example", false, false},
		{"0.0.0.0:7180", false, false},
		{"[::]:7180", false, false},
		{"", false, false},
	}
	at := &net.TCPAddr{IP: net.IPv4(192, 0, 2, 7), Port: 7180}
	for _, tt := range tests {
		for bound, want := range map[string]bool{"192.0.2.7": tt.alone, "0.0.0.0": tt.open, "::": tt.open} {
			t.Run(tt.host+" at "+bound, func(t *testing.T) {
				s, _, _ := newServer(t, Config{Hosts: []string{"Tower.example", "198.51.100.9", "2001:db8::9"}})
				s.door.bound(&net.TCPAddr{IP: net.ParseIP(bound), Port: 7180}, "SimPC")
				r := httptest.NewRequestWithContext(context.WithValue(t.Context(), http.LocalAddrContextKey, at), "GET", "/healthz", nil)
				r.Host = tt.host
				w := httptest.NewRecorder()
				s.Handler().ServeHTTP(w, r)
				if got := w.Code == http.StatusOK; got != want || !got && w.Code != http.StatusMisdirectedRequest {
					t.Errorf("status %d, let in %v, want %v", w.Code, got, want)
				}
			})
		}
	}
	s, _, _ := newServer(t, Config{})
	s.door.bound(&net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 7180}, "SimPC")
	if w := request(s, "GET", "/healthz", "", map[string]string{"Host": "simpc"}); w.Code != http.StatusMisdirectedRequest {
		t.Errorf("at loopback alone the machine's name is answered with %d", w.Code)
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
	h.Event(session.Message{Type: session.TypeStation, Station: "Seat 4", Body: feed.Station("Seat 4", "live")})
	page := map[string]string{"Content-Type": "application/json"}
	with := func(k, v string) map[string]string {
		return map[string]string{"Content-Type": "application/json", k: v}
	}
	good := `{"maneuver":"wing-over","standard":"","aircraft":""}`
	const line = "/api/stations/Seat%203/line"
	const student = "/api/stations/Seat%203/student"
	const end = "/api/stations/Seat%203/end"
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
		{"no page", "GET", "/nothing", "", nil, 404, `there is no page \"/nothing\"`},
		{"no source", "GET", "/server.go", "", nil, 404, `no page`},
		{"stations", "GET", "/api/stations", "", nil, 200, `"listen":["127.0.0.1:7181"],"stations":[{"name":"Seat 3"`},
		{"cards", "GET", "/api/cards", "", nil, 200, `{"maneuvers":[{"name":"wing-over","title":"Wing-over"}],"auto":{"name":"","title":""},"standards":null,"aircraft":[]}`},
		{"legs", "GET", "/api/stations/Seat%203/legs", "", nil, 200, `{"station":"Seat 3"}`},
		{"legs of none", "GET", "/api/stations/x/legs", "", nil, 404, `there is no station \"x\"`},
		{"metrics", "GET", "/metrics", "", nil, 200, ""},
		{"choose", "POST", choose, good, page, 200, `{"maneuver":"wing-over","standard":"","aircraft":""}`},
		{"choose from the panel", "POST", choose, good, with("Origin", "http://127.0.0.1:7180"), 200, "wing-over"},
		{"choose from elsewhere", "POST", choose, good, with("Origin", "https://evil.example"), 403, "another site"},
		{"choose from another port", "POST", choose, good, with("Origin", "http://127.0.0.1:9999"), 403, "another site"},
		{"choose across sites", "POST", choose, good, with("Sec-Fetch-Site", "cross-site"), 403, "another site"},
		{"choose as a form", "POST", choose, good, map[string]string{"Content-Type": "text/plain"}, 415, "application/json"},
		{"choose as nothing", "POST", choose, good, nil, 415, "application/json"},
		{"choose for none", "POST", "/api/stations/x/choose", good, page, 404, "no station"},
		{"choose badly", "POST", choose, `{"maneuver":`, page, 400, "not as expected"},
		{"choose too much", "POST", choose, `{"maneuver":"wing-over","power":1}`, page, 400, `unknown field`},
		{"choose nothing", "POST", choose, `{}`, page, 400, "names no maneuver"},
		{"choose at length", "POST", choose, `{"maneuver":"` + strings.Repeat("x", maxBody) + `"}`, page, 413, "longer than"},
		{"choose what is not there", "POST", choose, `{"maneuver":"loop"}`, page, 422, `there is no maneuver card \"loop\"`},
		{"get choose", "GET", choose, "", nil, 404, "no page"},
		{"line", "POST", line, `{"heading":null,"side":"right","distance":null}`, page, 200, "{}"},
		{"line cleared", "POST", line, `{"clear":true}`, page, 200, "{}"},
		{"line that is none", "POST", line, `{"heading":400}`, page, 422, "heading is 400; must be between 0 and 360"},
		{"line badly", "POST", line, `{"heading":"north"}`, page, 400, `DEGREES or null`},
		{"line for none", "POST", "/api/stations/x/line", `{}`, page, 404, "no station"},
		{"line from elsewhere", "POST", line, `{}`, with("Origin", "https://evil.example"), 403, "another site"},
		{"student", "POST", student, `{"student":"Ada Example"}`, page, 200, `{"student":"Ada Example"}`},
		{"nobody named", "POST", student, `{"student":""}`, page, 200, `{"student":""}`},
		{"student refused", "POST", student, `{"student":"nobody"}`, page, 422, "nobody is no name"},
		{"student not said", "POST", student, `{}`, page, 400, "says nothing"},
		{"student null", "POST", student, `{"student":null}`, page, 400, "says nothing"},
		{"end of null", "POST", end, "null", page, 400, "is not a JSON object"},
		{"end and more", "POST", end, `{"now":true}`, page, 400, "unknown field"},
		{"end with nothing", "POST", end, "", page, 400, "is empty"},
		{"student badly", "POST", student, `{"student":7}`, page, 400, `NAME or empty`},
		{"student otherwise", "POST", student, `{"name":"Ada"}`, page, 400, "unknown field"},
		{"student at length", "POST", student, `{"student":"` + strings.Repeat("x", maxBody) + `"}`, page, 413, "longer than"},
		{"student as nothing", "POST", student, `{"student":"Ada"}`, nil, 415, "application/json"},
		{"student for none", "POST", "/api/stations/x/student", `{"student":"Ada"}`, page, 404, "no station"},
		{"student from elsewhere", "POST", student, `{"student":"Ada"}`, with("Origin", "https://evil.example"), 403, "another site"},
		{"get student", "GET", student, "", nil, 404, "no page"},
		{"end", "POST", end, "{}", page, 200, "{}"},
		{"end of nothing", "POST", "/api/stations/Seat%204/end", "{}", page, 422, "there is no session to end"},
		{"end for none", "POST", "/api/stations/x/end", "{}", page, 404, "no station"},
		{"end from elsewhere", "POST", end, "{}", with("Sec-Fetch-Site", "cross-site"), 403, "another site"},
		{"end as a form", "POST", end, "", map[string]string{"Content-Type": "text/plain"}, 415, "application/json"},
		{"get end", "GET", end, "", nil, 404, "no page"},
		{"brief", "GET", "/api/brief?maneuver=wing-over&standard=check&aircraft=x", "", nil, 200, `{"of":{"maneuver":"wing-over","standard":"check","aircraft":"x"}}`},
		{"brief of nothing", "GET", "/api/brief", "", nil, 400, "maneuver=NAME"},
		{"brief of what is not there", "GET", "/api/brief?maneuver=loop", "", nil, 404, `no maneuver card`},
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
	if want := []string{"Seat 3 student Ada Example", "Seat 3 student ", "Seat 3 end"}; !slices.Equal(d.did, want) {
		t.Errorf("done: %q, want %q", d.did, want)
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
