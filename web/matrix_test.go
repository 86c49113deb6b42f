package web

import (
	"context"
	"maps"
	"net/http"
	"net/http/httptest"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/prometheus/client_golang/prometheus"

	"halfturn/coach/command"
	"halfturn/coach/message"
	"halfturn/coach/permit"
	"halfturn/coach/who"
	"halfturn/web/access"
)

// Who may what: the roles by their letters, owner, instructor, student, viewer and - for nobody known. The first word
// is for a station that is theirs, the second for one that is not; what belongs to no station has one word.
var matrix = map[string]string{
	"GET /":        "oisv",
	"GET /healthz": "oisv-",
	"GET /metrics": "o",
	"GET /live":    "oisv o",

	"GET /enter":                       "oisv-",
	"GET /enter.html":                  "oisv-",
	"GET /login":                       "oisv-",
	"GET /login.html":                  "oisv-",
	"GET /invited":                     "oisv-",
	"GET /invited.html":                "oisv-",
	"GET /people":                      "oisv",
	"GET /people.html":                 "oisv",
	"GET /api/door":                    "oisv-",
	"GET /api/me":                      "oisv",
	"POST /api/login":                  "oisv-",
	"POST /api/logout":                 "oisv-",
	"POST /api/invited":                "oisv-",
	"POST /api/password":               "oisv",
	"GET /api/people":                  "o",
	"POST /api/people":                 "o",
	"GET /api/invitations":             "ois",
	"POST /api/people/{user}/password": "o",
	"DELETE /api/people/{user}":        "o",
	"POST /api/stations/{name}/invite": "ois o",
	"DELETE /api/invitations/{link}":   "ois",
	"GET /desk":                        "oisv",
	"GET /desk.html":                   "oisv",
	"GET /brief":                       "oisv",
	"GET /brief.html":                  "oisv",
	"GET /index":                       "oisv",
	"GET /index.html":                  "oisv",
	"GET /session":                     "oisv",
	"GET /session.html":                "oisv",
	"GET /sessions":                    "oisv",
	"GET /sessions.html":               "oisv",
	"GET /sessions/{id}":               "oisv",
	"GET /setup":                       "oisv",
	"GET /setup.html":                  "oisv",
	"GET /api/parts":                   "oisv",
	"GET /api/cards":                   "oisv",
	"GET /api/guides":                  "oisv",
	"GET /api/brief":                   "oisv",
	"GET /api/stations":                "oisv",
	"GET /api/network":                 "ois",
	"POST /api/network":                "o",
	"POST /api/enter":                  "oisv-",
	"GET /api/find":                    "ois",
	"POST /api/find":                   "o",
	"GET /api/replays":                 "oisv",
	"POST /do/{act}":                   "ois o",
	"GET /api/link":                    "oisv-",
	"GET /api/students":                "ois",
	"GET /api/sessions":                "ois",

	"GET /api/network/qr.svg":                "ois",
	"GET /api/guides/{name}/files/{file...}": "oisv",

	"GET /api/demonstration":    "oisv",
	"POST /api/demonstration":   "ois",
	"DELETE /api/demonstration": "ois",

	"GET /api/stations/{name}/legs":       "oisv o",
	"GET /api/stations/{name}/probe":      "ois o",
	"GET /api/stations/{name}/measure":    "oisv o",
	"POST /api/stations/{name}/measure":   "ois o",
	"POST /api/stations/{name}/card":      "oi o",
	"POST /api/stations/{name}/{command}": "ois o",

	"GET /api/sessions/trend":                "ois",
	"GET /api/sessions/{id}":                 "ois o",
	"GET /api/sessions/{id}/legs":            "ois o",
	"GET /api/sessions/{id}/legs/{n}":        "ois o",
	"GET /api/sessions/{id}/legs/{n}/models": "ois o",
	"GET /api/sessions/{id}/share.html":      "ois o",
	"GET /api/sessions/{id}/export":          "ois o",
	"GET /api/sessions/{id}/print.pdf":       "ois o",
	"POST /api/sessions/{id}/remarks":        "ois o",
	"POST /api/sessions/{id}/student":        "ois o",
	"POST /api/sessions/{id}/replay":         "ois o",
	"POST /api/replays/{id}":                 "ois o",
	"POST /api/sessions/{id}/keep":           "oi o",
	"POST /api/sessions/{id}/regrade":        "oi o",
	"POST /api/sessions/import":              "oi",

	"GET /student":                       "oisv",
	"GET /student.html":                  "oisv",
	"GET /students/{name}":               "oisv",
	"GET /api/students/{name}/sheet":     "ois oi o", // their own, of who flew at their station, and of others
	"GET /api/students/{name}/sheet.csv": "ois oi o",
	"GET /api/students/{name}/sheet.pdf": "ois oi o",
	"GET /course":                        "oisv",
	"GET /course.html":                   "oisv",
	"GET /api/courses":                   "oisv",
	"GET /api/sessions/{id}/forms":       "ois o",
	"GET /api/sessions/{id}/form.pdf":    "ois o",

	"GET /api/stations/{name}/next":          "ois o",
	"GET /api/students/{name}/course":        "ois oi o",
	"GET /api/students/{name}/course.csv":    "ois oi o",
	"GET /api/students/{name}/course.json":   "ois oi o",
	"GET /api/students/{name}/course.html":   "ois oi o",
	"POST /api/students/{name}/course":       "ois oi o",
	"POST /api/students/{name}/steps/{step}": "oi oi o",

	"POST /api/sessions/{id}/rate":     "ois o",
	"POST /api/sessions/{id}/overrule": "oi o",
	"POST /api/sessions/{id}/observe":  "oi o",
	"POST /api/sessions/{id}/sign":     "oi o",
}

// commandMatrix is the same for the commands to a station.
var commandMatrix = map[string]string{
	"choose":  "ois o",
	"about":   "ois o",
	"line":    "ois o",
	"prompts": "ois o",
	"again":   "ois o",
	"student": "ois o",
	"end":     "ois o",
	"say":     "oi o",
	"mark":    "ois o",
	"stop":    "ois o",
	"start":   "ois o",
	"private": "os o", // not for those who are shut out

	"demonstrate": "ois o",
	"step":        "ois o",
	"drill":       "ois o",
}

// letters are the roles of the matrix.
var letters = map[byte]who.Role{
	'o': who.RoleOwner, 'i': who.RoleInstructor, 's': who.RoleStudent, 'v': who.RoleViewer, '-': "",
}

// refusals are the codes of what is said to somebody without a right.
var refusals = []string{"server.login-missing", "server.not-allowed", "server.student-elsewhere",
	"station.private-by-pilot"}

// TestMatrix asks for every route as every role, at a station that is theirs and at one that is not. Whoever may not is
// refused with 401 where nobody is known and with 403 otherwise; whoever may gets some other answer.
func TestMatrix(t *testing.T) {
	b, id := filled(t)
	f := &first{}
	s, h, _ := newServer(t, Config{
		Logbook: b, Captures: captures{}, Flights: pictured{}, Finder: f, Show: f, Measuring: f, Access: newAccess(t),
	})
	for _, name := range []string{"Seat 3", "Seat 4"} {
		h.Event(message.Message{Station: name, Body: &message.Station{Name: name, Link: "live"}})
	}
	check := func(pattern, path, may string) {
		t.Helper()
		method, _, _ := strings.Cut(pattern, " ")
		own, other, placed := strings.Cut(may, " ")
		for letter, role := range letters {
			for station, may := range map[string]string{"Seat 3": own, "Seat 4": other} {
				if !placed {
					may = own
				}
				c := permit.Caller{Who: who.Who{ID: "u", Name: "Ada", Role: role}}
				c.Stations.Names = []string{station}
				r := httptest.NewRequest(method, path, strings.NewReader("{}"))
				r.Host, r.RemoteAddr = "localhost", "127.0.0.1:1"
				r.Header.Set("Content-Type", "application/json")
				r = r.WithContext(context.WithValue(r.Context(), knownKey{}, access.Known{Caller: c}))
				w := httptest.NewRecorder()
				s.Handler().ServeHTTP(w, r)
				refused := slices.ContainsFunc(refusals, func(code string) bool {
					return strings.Contains(w.Body.String(), `"code":"`+code+`"`)
				})
				status := http.StatusForbidden
				if role == "" {
					status = http.StatusUnauthorized
				}
				switch is := strings.IndexByte(may, letter) >= 0; {
				case is == refused:
					t.Errorf("%s as %q, whose station is %s: %d; must be refused: %v", pattern, role, station,
						w.Code, !is)
				case refused && w.Code != status:
					t.Errorf("%s as %q: %d; must be %d", pattern, role, w.Code, status)
				}
			}
		}
	}
	left := maps.Clone(matrix)
	for _, row := range s.table(prometheus.NewRegistry()) {
		may, ok := matrix[row.pattern]
		if !ok {
			t.Errorf("%s has no row in the matrix", row.pattern)
			continue
		}
		delete(left, row.pattern)
		_, path, _ := strings.Cut(row.pattern, " ")
		if own, other, _ := strings.Cut(may, " "); row.at == ofStudent {
			_, elsewhere, _ := strings.Cut(other, " ")
			check(row.pattern, strings.Replace(path, "{name}", "ADA", 1), own) // whatever the capitals
			check(row.pattern, strings.Replace(path, "{name}", "ada%20EXAMPLE", 1), other)
			check(row.pattern, strings.Replace(path, "{name}", "Bo", 1), elsewhere)
			continue
		}
		path = strings.NewReplacer("{name}", "Seat%203", "{id}", id, "{n}", "1", "{command}", "end", "{act}", "mute",
			"{step}", "part",
			"{file...}", "x").Replace(path)
		if row.at == atAsked {
			path += "?station=Seat+3"
		}
		check(row.pattern, path, may)
	}
	if len(left) > 0 {
		t.Errorf("there are no such routes: %v", slices.Sorted(maps.Keys(left)))
	}
	for _, name := range command.Names() {
		may, ok := commandMatrix[name]
		if !ok {
			t.Errorf("the command %s has no row in the matrix", name)
		}
		check("POST /api/stations/{name}/"+name, "/api/stations/Seat%203/"+name, may)
	}
	for name := range acts {
		check("POST /do/"+name, "/do/"+name+"?station=Seat+3", "ois o")
	}
}

// What changes something is refused to the page of another site, whatever the route and whoever asks.
func TestForeignPages(t *testing.T) {
	f := &first{}
	s, _, _ := newServer(t, Config{Captures: captures{}, Finder: f, Show: f, Measuring: f, Access: newAccess(t)})
	n := 0
	for _, row := range s.table(prometheus.NewRegistry()) {
		method, path, _ := strings.Cut(row.pattern, " ")
		if method == http.MethodGet {
			continue
		}
		n++
		for _, header := range []map[string]string{
			{"Origin": "http://evil.example"},
			{"Origin": "null"},
			{"Sec-Fetch-Site": "cross-site"},
			{"Origin": "http://localhost:9"},
		} {
			header["Content-Type"] = "application/json"
			path := strings.NewReplacer("{", "", "}", "").Replace(path)
			if w := request(s, method, path, "{}", header); w.Code != http.StatusForbidden {
				t.Errorf("%s from %v: %d", row.pattern, header, w.Code)
			}
		}
	}
	if n < 20 {
		t.Errorf("only %d routes change something", n)
	}
}

// notPressed are the routes that change something and have no control of their own in the table of the pages: they let
// somebody in, where the page is made for that alone.
var notPressed = map[string]bool{"POST /api/login": true, "POST /api/invited": true, "POST /api/enter": true}

// TestControls: each control of the pages names a route and the right that this takes, as the server has them, so that
// what is shown is what can be done; and each route and command that changes something has a control. The browser tests
// find controls without a row.
func TestControls(t *testing.T) {
	f := &first{}
	s, _, _ := newServer(t, Config{Captures: captures{}, Finder: f, Show: f, Measuring: f, Access: newAccess(t)})
	rights, left := map[string]permit.Right{}, map[string]bool{}
	for _, row := range s.table(prometheus.NewRegistry()) {
		rights[row.pattern] = row.right
		method, _, _ := strings.Cut(row.pattern, " ")
		if method != http.MethodGet && !notPressed[row.pattern] {
			left[row.pattern] = true
		}
	}
	const commands = "POST /api/stations/{name}/"
	delete(left, commands+"{command}")
	for _, name := range command.Names() {
		rights[commands+name], left[commands+name] = command.RightOf(name), true
	}
	delete(left, commands+"again") // the page says it again by itself
	table, err := os.ReadFile("static/pure/rights.js")
	if err != nil {
		t.Fatal(err)
	}
	row := regexp.MustCompile(`(?m)^  \{ of: '(.+)', asks: '(.+)', right: '(.+)' \},$`)
	all := row.FindAllStringSubmatch(string(table), -1)
	if len(all) < 50 {
		t.Errorf("only %d controls are read", len(all))
	}
	for _, m := range all {
		right, ok := rights[m[2]]
		if !ok || string(right) != m[3] {
			t.Errorf("%s asks %s by the right %q; the server has %q, %v", m[1], m[2], m[3], right, ok)
		}
		delete(left, m[2])
	}
	if len(left) > 0 {
		t.Errorf("no control asks %v", slices.Sorted(maps.Keys(left)))
	}
}
