package web

import (
	"bytes"
	"context"
	"errors"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"halfturn/coach/maneuver"
	"halfturn/coach/measure"
	"halfturn/configs"
	"halfturn/web/finder"
	"halfturn/web/show"
)

// A first is all that the first page asks for.
type first struct {
	asked, stopped string
	open, on       bool
	pace           float64
	wrong          error
}

func (f *first) Status() finder.Status {
	return finder.Status{Port: 7181, Open: f.open, Machine: []string{"192.168.1.20"}}
}
func (f *first) Ask(_ context.Context, a string) error        { f.asked = a; return f.wrong }
func (f *first) StopAsking(_ context.Context, a string) error { f.stopped = a; return f.wrong }
func (f *first) Open(_ context.Context, open bool) error      { f.open = open; return f.wrong }

func (f *first) Begin(c maneuver.Choice, pace float64) (show.Showing, error) {
	f.on, f.pace = f.wrong == nil, pace
	return show.Showing{Station: "Demonstration", Choice: c}, f.wrong
}
func (f *first) End() { f.on = false }
func (f *first) Now() (show.Showing, bool) {
	if !f.on {
		return show.Showing{}, false
	}
	return show.Showing{Station: "Demonstration"}, true
}

func (f *first) Progress(context.Context, string) (p measure.Progress, ok bool, err error) {
	return measure.NewGuide().Progress(), f.on, f.wrong
}

func (f *first) Step(_ context.Context, _, step string) (p measure.Progress, ok bool, err error) {
	return measure.NewGuide().Progress(), step != "stop", f.wrong
}

func (f *first) Write(_ context.Context, _, title string) (name, file string, err error) {
	return "my-" + title, "/cards/my-" + title + ".toml", f.wrong
}

// TestFirstAPI asks for each thing, well and badly.
func TestFirstAPI(t *testing.T) {
	f := &first{}
	s, _, _ := newServer(t, Config{Finder: f, Show: f, Measuring: f})
	srv := httptest.NewServer(s.Handler())
	defer srv.Close()
	for _, c := range []struct {
		method, path, body string
		code               int
		has                string
	}{
		{"GET", "/api/find", "", 200, `"port":7181`},
		{"POST", "/api/find", `{"ask":"192.168.1.31"}`, 200, `"machine":["192.168.1.20"]`},
		{"POST", "/api/find", `{"stop":"192.168.1.31:49000"}`, 200, `"port":7181`},
		{"POST", "/api/find", `{"open":true}`, 200, `"open":true`},
		{"POST", "/api/find", `{"open":false}`, 200, `"open":false`},
		{"POST", "/api/find", `{}`, 400, "asks for nothing"},
		{"POST", "/api/find", `{"scan":true}`, 400, "error"},
		{"POST", "/api/find", `{"ask":"` + strings.Repeat("x", 1<<20) + `"}`, 413, "error"},
		{"GET", "/api/demonstration", "", 200, `"station":""`},
		{"POST", "/api/demonstration", `{"maneuver":"wing-over","pace":4}`, 200, `"station":"Demonstration"`},
		{"GET", "/api/demonstration", "", 200, `"station":"Demonstration"`},
		{"GET", "/api/stations/seat/measure", "", 200, `"task":"level"`},
		{"DELETE", "/api/demonstration", "", 200, `"station":""`},
		{"GET", "/api/stations/seat/measure", "", 200, `"progress":null`},
		{"POST", "/api/stations/seat/measure", `{"step":"begin"}`, 200, `"hold":6`},
		{"POST", "/api/stations/seat/measure", `{"step":"stop"}`, 200, `"progress":null`},
		{"POST", "/api/stations/seat/measure", `{"step":"land"}`, 400, "names no step"},
		{"POST", "/api/stations/seat/card", `{"title":"plane"}`, 200, `"name":"my-plane"`},
		{"POST", "/api/demonstration", `[]`, 400, "error"},
		{"POST", "/api/demonstration", `{"maneuver":"wing-over","pace":9}`, 400, "between 0.25 and 8"},
	} {
		code, text := call(t, c.method, srv.URL+c.path, c.body)
		if code != c.code || !strings.Contains(text, c.has) {
			t.Errorf("%s %s %.60s: %d %s; must be %d with %s", c.method, c.path, c.body, code, text, c.code, c.has)
		}
	}
	if f.asked != "192.168.1.31" || f.stopped != "192.168.1.31:49000" {
		t.Errorf("asked %q, stopped %q", f.asked, f.stopped)
	}
	if f.pace != 4 {
		t.Errorf("flown at a pace of %g; must be 4", f.pace)
	}
	f.wrong = errors.New("no")
	for path, c := range map[string]struct {
		body string
		code int
	}{
		"/api/find":                  {`{"ask":"a"}`, 422},
		"/api/demonstration":         {`{"maneuver":"x"}`, 422},
		"/api/stations/seat/measure": {`{"step":"next"}`, 404},
		"/api/stations/seat/card":    {`{"title":"x"}`, 422},
	} {
		if code, text := call(t, "POST", srv.URL+path, c.body); code != c.code {
			t.Errorf("%s: %d %s; must be %d", path, code, text, c.code)
		}
	}
}

// Another machine's page may not have simulators asked, whatever address the pages are served at.
func TestFindFromElsewhere(t *testing.T) {
	f := &first{}
	s, _, _ := newServer(t, Config{Finder: f})
	for from, want := range map[string]int{
		"127.0.0.1:5000": 200, "[::1]:5000": 200, "192.168.1.50:5000": 403, "": 403, "no address": 403,
	} {
		r := httptest.NewRequest("POST", "http://localhost/api/find", strings.NewReader(`{"ask":"a"}`))
		r.Header.Set("Content-Type", "application/json")
		r.RemoteAddr = from
		w := httptest.NewRecorder()
		s.Handler().ServeHTTP(w, r)
		if w.Code != want {
			t.Errorf("from %q: %d %s; must be %d", from, w.Code, w.Body, want)
		}
	}
}

// Where a server does none of it, there are no such paths; the files of guides are always there.
func TestGuideFiles(t *testing.T) {
	s, _, _ := newServer(t, Config{})
	srv := httptest.NewServer(s.Handler())
	defer srv.Close()
	for path, want := range map[string]int{
		"/api/find": 200, "/api/demonstration": 404, "/api/guides/bridge/files/bridge/bridge.mjs": 200,
		"/api/guides/flightgear/files/flightgear/Protocol/halfturn.xml": 200,
		"/api/guides/bridge/files/flightgear/Protocol/halfturn.xml":     404, // another guide's
		"/api/guides/bridge/files/guides.toml":                          404,
		"/api/guides/none/files/bridge/bridge.mjs":                      404,
	} {
		if code, text := call(t, "GET", srv.URL+path, ""); code != want {
			t.Errorf("%s: %d %.80s; must be %d", path, code, text, want)
		}
	}
	r, err := http.Get(srv.URL + "/api/guides/bridge/files/bridge/bridge.mjs")
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	shipped, err := configs.FS.ReadFile("simulators/bridge/bridge.mjs")
	if err != nil {
		t.Fatal(err)
	}
	body, err := io.ReadAll(r.Body)
	if got := r.Header.Get("Content-Disposition"); err != nil || got != `attachment; filename="bridge.mjs"` ||
		!bytes.Equal(body, shipped) {
		t.Errorf("%s, %d bytes, %v", got, len(body), err)
	}
}

// A file that says where to send carries the address that is asked for, which is written into it and nothing else.
func TestGuideFilesSayWhereToSend(t *testing.T) {
	s, _, _ := newServer(t, Config{})
	srv := httptest.NewServer(s.Handler())
	defer srv.Close()
	const file = "/api/guides/jsbsim/files/jsbsim/halfturn.xml"
	_, text := call(t, "GET", srv.URL+file+"?host=192.168.1.20&port=50001", "")
	if !strings.Contains(text, `<output name="192.168.1.20" type="SOCKET" protocol="UDP" port="50001"`) {
		t.Errorf("%.900s does not send to the address", text)
	}
	_, usual := call(t, "GET", srv.URL+file+"?host=127.0.0.1&port=7181", "")
	if _, shipped := call(t, "GET", srv.URL+file, ""); usual != shipped || len(shipped) < 500 {
		t.Errorf("with the usual address it is not as shipped: %d bytes, %d shipped", len(usual), len(shipped))
	}
	for _, query := range []string{"?host=a.example&port=1", "?host=192.168.1.20", "?host=192.168.1.20&port=0",
		"?host=192.168.1.20&port=65536", "?port=7181", "?host=%22/%3E&port=1"} {
		if code, text := call(t, "GET", srv.URL+file+query, ""); code != 400 {
			t.Errorf("%s: %d %.80s; must be 400", query, code, text)
		}
	}
}
