package web

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/rs/zerolog"

	"halfturn/coach/brief"
	"halfturn/coach/command"
	"halfturn/coach/ids"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/names"
	"halfturn/stream/phrase"
	"halfturn/web/guard"
	"halfturn/web/hub"
	"halfturn/web/internal/feed"
)

// A fakeDesk takes every maneuver but one.
type fakeDesk struct {
	chosen []string
	did    []string // of students and ends
}

func (d *fakeDesk) Cards() Cards {
	return Cards{Maneuvers: []brief.Title{{Name: "wing-over", Title: "Wing-over"}}, Aircraft: []AircraftTitle{}}
}

func (d *fakeDesk) Do(_ context.Context, c command.Command) error {
	if !ids.Valid(c.ID) || c.By.Role == "" || c.At.IsZero() {
		return fmt.Errorf("it is not known what was asked, by whom and when: %+v", c)
	}
	switch a := c.Action.(type) {
	case command.Choose:
		if a.Maneuver == "loop" {
			return errors.New(`there is no maneuver card "loop": choose wing-over`)
		}
		d.chosen = []string{c.Station, a.Maneuver, a.Aircraft}
	case command.Line:
		if a.Heading != nil && *a.Heading > 360 {
			return phrase.LineHeading.Error(phrase.Int("heading", 400))
		}
	case command.Student:
		if a.Name == "nobody" {
			return errors.New("nobody is no name")
		}
		d.did = append(d.did, c.Station+" student "+a.Name)
	case command.Mark:
		d.did = append(d.did, c.Station+" mark "+a.Words)
	case command.Stop:
		d.did = append(d.did, c.Station+" stop")
	case command.About:
		d.did = append(d.did, c.Station+" about "+a.Where)
	case command.Step:
		d.did = append(d.did, c.Station+" step "+a.Task.Course+" "+a.Task.Step+" in "+a.Aircraft)
	case command.Say:
		if _, err := names.Spoken(a.Words); err != nil {
			return err
		}
		d.did = append(d.did, c.Station+" say "+a.Words)
	case command.End:
		if c.Station == "Seat 4" {
			return errors.New("nothing was flown at Seat 4 yet; there is no session to end")
		}
		d.did = append(d.did, c.Station+" end")
	}
	return nil
}

func (d *fakeDesk) Legs(_ context.Context, station string) (any, bool) {
	return map[string]any{"station": station}, station == "Seat 3"
}

func (d *fakeDesk) Brief(c maneuver.Choice) (any, error) {
	if c.Maneuver != "wing-over" {
		return nil, errors.New(`there is no maneuver card "loop"`)
	}
	return map[string]any{"of": c}, nil
}

func (d *fakeDesk) Probe(_ context.Context, station string) (any, bool) {
	return map[string]any{"name": station}, station == "Seat 3"
}

func newServer(t testing.TB, cfg Config) (*Server, *hub.Hub, *fakeDesk) {
	t.Helper()
	h := hub.New("1.2.3", zerolog.Nop())
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

func TestHeadersAreOnEveryAnswer(t *testing.T) {
	s, _, _ := newServer(t, Config{})
	pages := []string{"/", "/main.js", "/api/stations", "/no-such-page", "/api/stations/none/legs", "/metrics"}
	for _, path := range pages {
		w := request(s, "GET", path, "", nil)
		if !strings.Contains(w.Header().Get("Content-Security-Policy"), "default-src 'self'") {
			t.Errorf("%s: the headers are %v", path, w.Header())
		}
	}
}

// A compressed body is refused: what it expands to would have no limit.
func TestBodyEncoding(t *testing.T) {
	s, _, d := newServer(t, Config{Captures: captures{}})
	for path, kind := range map[string]string{
		"/api/stations/Seat%203/choose": asJSON,
		"/api/sessions/import":          asStream,
	} {
		header := map[string]string{"Content-Type": kind, "Content-Encoding": "gzip"}
		w := request(s, "POST", path, `{"maneuver":"wing-over"}`, header)
		if w.Code != 415 || !strings.Contains(w.Body.String(), "Content-Encoding") {
			t.Errorf("%s: %d, %s", path, w.Code, w.Body)
		}
	}
	if d.chosen != nil {
		t.Errorf("chosen: %q", d.chosen)
	}
}

func TestAnswers(t *testing.T) {
	s, h, d := newServer(t, Config{Listen: []string{"127.0.0.1:7181"}})
	h.Event(message.Message{Station: "Seat 3", Body: feed.Station("Seat 3", "live")})
	h.Event(message.Message{Station: "Seat 4", Body: feed.Station("Seat 4", "live")})
	page := map[string]string{"Content-Type": "application/json"}
	with := func(k, v string) map[string]string {
		return map[string]string{"Content-Type": "application/json", k: v}
	}
	good := `{"maneuver":"wing-over","standard":"","aircraft":""}`
	const line = "/api/stations/Seat%203/line"
	const student = "/api/stations/Seat%203/student"
	const prompts = "/api/stations/Seat%203/prompts"
	const again = "/api/stations/Seat%203/again"
	const end = "/api/stations/Seat%203/end"
	const choose = "/api/stations/Seat%203/choose"
	tests := []struct {
		name, method, target, body string
		header                     map[string]string
		code                       int
		says                       string
	}{
		{"health", "GET", "/healthz", "", nil, 200, "ok\n"}, // package live has a server that is degraded
		{"panel", "GET", "/", "", nil, 200, "<!doctype html>"},
		{"script", "GET", "/main.js", "", nil, 200, "register()"},
		{"no page", "GET", "/nothing", "", nil, 404, `there is no page \"/nothing\"`},
		{"no source", "GET", "/server.go", "", nil, 404, `no page`},
		{"stations", "GET", "/api/stations", "", nil, 200, `"listen":["127.0.0.1:7181"],"stations":[{"name":"Seat 3"`},
		{
			"cards",
			"GET",
			"/api/cards",
			"",
			nil,
			200,
			`{"maneuvers":[{"name":"wing-over","title":"Wing-over"}],"auto":{"name":"","title":""},` +
				`"standards":null,"aircraft":[]}`,
		},
		{"legs", "GET", "/api/stations/Seat%203/legs", "", nil, 200, `{"station":"Seat 3"}`},
		{"legs of none", "GET", "/api/stations/x/legs", "", nil, 404, `there is no station \"x\"`},
		{"metrics", "GET", "/metrics", "", nil, 200, ""},
		{"choose", "POST", choose, good, page, 200, `{"maneuver":"wing-over","standard":"","aircraft":""}`},
		{"choose from the panel", "POST", choose, good, with("Origin", "http://127.0.0.1:7180"), 200, "wing-over"},
		{"choose from elsewhere", "POST", choose, good, with("Origin", "https://evil.example"), 403, "another site"},
		{
			"choose from another port",
			"POST",
			choose,
			good,
			with("Origin", "http://127.0.0.1:9999"),
			403,
			"another site",
		},
		{"choose across sites", "POST", choose, good, with("Sec-Fetch-Site", "cross-site"), 403, "another site"},
		{
			"choose as a form",
			"POST",
			choose,
			good,
			map[string]string{"Content-Type": "text/plain"},
			415,
			"application/json",
		},
		{"choose as nothing", "POST", choose, good, nil, 415, "application/json"},
		{"choose for none", "POST", "/api/stations/x/choose", good, page, 404, "no station"},
		{"choose badly", "POST", choose, `{"maneuver":`, page, 400, "not as expected"},
		{"choose too much", "POST", choose, `{"maneuver":"wing-over","power":1}`, page, 400, `unknown field`},
		{"choose nothing", "POST", choose, `{}`, page, 400, "names no maneuver"},
		{
			"choose at length",
			"POST",
			choose,
			`{"maneuver":"` + strings.Repeat("x", guard.MaxBody) + `"}`,
			page,
			413,
			"longer than",
		},
		{
			"choose what is not there",
			"POST",
			choose,
			`{"maneuver":"loop"}`,
			page,
			422,
			`there is no maneuver card \"loop\"`,
		},
		{"get choose", "GET", choose, "", nil, 404, "no page"},
		{"line", "POST", line, `{"side":"right"}`, page, 200, `{"heading":null,"side":"right","distance":null}`},
		{"line cleared", "POST", line, `{"clear":true}`, page, 200, `"clear":true`},
		{"no such command", "POST", "/api/stations/Seat%203/fly", `{}`, page, 404, "no page"},
		{"line that is none", "POST", line, `{"heading":400}`, page, 422, "heading is 400; must be between 0 and 360"},
		{"line badly", "POST", line, `{"heading":"north"}`, page, 400, `DEGREES or null`},
		{"about", "POST", "/api/stations/Seat%203/about", `{"where":"left"}`, page, 200,
			`{"where":"left","distance":null}`},
		{"line for none", "POST", "/api/stations/x/line", `{}`, page, 404, "no station"},
		{"line from elsewhere", "POST", line, `{}`, with("Origin", "https://evil.example"), 403, "another site"},
		{"prompts", "POST", prompts, `{"prompts":"fade"}`, page, 200, `{"prompts":"fade"}`},
		{"prompts badly", "POST", prompts, `{"prompts":1}`, page, 400, `\"card\", \"all\", \"fade\" or \"off\"`},
		{"prompts otherwise", "POST", prompts, `{"how":"all"}`, page, 400, "unknown field"},
		{"prompts for none", "POST", "/api/stations/x/prompts", `{"prompts":"all"}`, page, 404, "no station"},
		{"prompts from elsewhere", "POST", prompts, `{}`, with("Origin", "https://evil.example"), 403, "another site"},
		{"get prompts", "GET", prompts, "", nil, 404, "no page"},
		{"again", "POST", again, "{}", page, 200, "{}"},
		{"again and more", "POST", again, `{"words":"Good"}`, page, 400, "unknown field"},
		{"again for none", "POST", "/api/stations/x/again", "{}", page, 404, "no station"},
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
		{
			"student at length",
			"POST",
			student,
			`{"student":"` + strings.Repeat("x", guard.MaxBody) + `"}`,
			page,
			413,
			"longer than",
		},
		{"student as nothing", "POST", student, `{"student":"Ada"}`, nil, 415, "application/json"},
		{"student for none", "POST", "/api/stations/x/student", `{"student":"Ada"}`, page, 404, "no station"},
		{
			"student from elsewhere",
			"POST",
			student,
			`{"student":"Ada"}`,
			with("Origin", "https://evil.example"),
			403,
			"another site",
		},
		{"get student", "GET", student, "", nil, 404, "no page"},
		{"end", "POST", end, "{}", page, 200, "{}"},
		{"end of nothing", "POST", "/api/stations/Seat%204/end", "{}", page, 422, "there is no session to end"},
		{"end for none", "POST", "/api/stations/x/end", "{}", page, 404, "no station"},
		{"end from elsewhere", "POST", end, "{}", with("Sec-Fetch-Site", "cross-site"), 403, "another site"},
		{"end as a form", "POST", end, "", map[string]string{"Content-Type": "text/plain"}, 415, "application/json"},
		{"get end", "GET", end, "", nil, 404, "no page"},
		{
			"brief",
			"GET",
			"/api/brief?maneuver=wing-over&standard=check&aircraft=x",
			"",
			nil,
			200,
			`{"of":{"maneuver":"wing-over","standard":"check","aircraft":"x"}}`,
		},
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
	want := []string{"Seat 3 about left", "Seat 3 student Ada Example", "Seat 3 student ", "Seat 3 end"}
	if !slices.Equal(d.did, want) {
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
	if again := request(s, "GET", "/main.js", "",
		map[string]string{"If-None-Match": tag}); again.Code != http.StatusNotModified ||
		again.Body.Len() != 0 {
		t.Errorf("status %d and %d bytes, want 304 and none", again.Code, again.Body.Len())
	}
}
