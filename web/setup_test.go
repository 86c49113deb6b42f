package web

import (
	"net/http"
	"strings"
	"testing"

	"halfturn/configs/guide"
	"halfturn/web/internal/feed"
)

const setupHead = `// What the set-up page is answered, as the server writes it; go test -update writes this file.

import type { Guide, Probe } from '../static/setup.d.ts';

`

// TestSetupContract holds the answers to the set-up page against a golden file, which npm run check
// holds against its types.
func TestSetupContract(t *testing.T) {
	guides, err := guide.All()
	if err != nil {
		t.Fatal(err)
	}
	got := setupHead + "export const probe: Probe = " + indent(t, feed.Probe("Seat 3")) + ";\n\n" +
		"export const guides: Guide[] = " + indent(t, guides[2:4]) + ";\n"
	golden(
		t,
		"testdata/setup.golden.ts",
		got,
		"the answers have changed; if they should, run go test -update, then npm run check",
	)
}

func TestSetupPage(t *testing.T) {
	s, _, _ := newServer(t, Config{})
	for _, c := range []struct {
		target string
		status int
		want   string
	}{
		{"/setup", http.StatusOK, `src="setup.js"`},
		{"/setup.html", http.StatusOK, "Simulator practice only"},
		{"/api/guides", http.StatusOK, `"name":"flightgear"`},
		{"/api/stations/Seat%203/probe", http.StatusOK, `"name":"Seat 3"`},
		{"/api/stations/nobody/probe", http.StatusNotFound, "GET /api/stations lists"},
	} {
		w := request(s, http.MethodGet, c.target, "", nil)
		if w.Code != c.status || !strings.Contains(w.Body.String(), c.want) {
			t.Errorf("%s: %d, %.200s", c.target, w.Code, w.Body.String())
		}
	}
}
