package web

import (
	"bytes"
	"compress/gzip"
	"context"
	"encoding/base64"
	"encoding/json"
	"net/http"
	"regexp"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/stream/phrase"
)

// pictured is a session of two legs, whose card title would end a script.
type pictured struct{}

const sly = "</script><script src=//example.invalid>"

func (pictured) Legs(_ context.Context, id string) (FlownLegs, error) {
	leg := coach.Leg{Direction: "left", Headline: phrase.Plain("Not yet: ball")}
	return FlownLegs{Session: id, Plans: []message.Chart{{Title: sly}},
		Legs: []FlownSheet{{Number: 1, Leg: leg}, {Number: 2, Leg: leg}}}, nil
}

func (pictured) Leg(_ context.Context, id string, n int) ([]byte, error) {
	var b bytes.Buffer
	w := gzip.NewWriter(&b)
	err := json.NewEncoder(w).Encode(FlownLeg{Session: id, Number: n, Plan: message.Chart{Title: sly}})
	if err == nil {
		err = w.Close()
	}
	return b.Bytes(), err
}

// TestShare: one file holds the page, its styles, its modules and the legs, names nobody unless asked, and loads
// nothing from anywhere.
func TestShare(t *testing.T) {
	b, id := filled(t)
	s, _, _ := newServer(t, Config{Logbook: b, Flights: pictured{}})
	get := func(query string) string {
		w := request(s, http.MethodGet, "/api/sessions/"+id+"/share.html"+query, "", nil)
		if w.Code != http.StatusOK {
			t.Fatalf("%s: %d, %s", query, w.Code, w.Body)
		}
		if got := w.Header().Get("Content-Disposition"); !strings.HasPrefix(got, "attachment; filename=debrief") {
			t.Error(got)
		}
		return w.Body.String()
	}
	page := get("")
	for _, part := range []string{`"halfturn/session.js":"data:text/javascript;base64,`, `import 'halfturn/session.js'`,
		`default-src 'none'`, "Simulator practice only.", "Not yet: ball", `api/sessions/shared/legs/2"`, "--paper:"} {
		if !strings.Contains(page, part) {
			t.Errorf("lacks %q", part)
		}
	}
	for _, part := range []string{"Ada Example", `"by":"instructor"`, "Seat 3", "nose is late over the top", id, sly} {
		if strings.Contains(page, part) {
			t.Errorf("tells %q", part)
		}
	}
	if outside := regexp.MustCompile(`<(link|script|img|iframe)[^>]*(src|href)=`).FindString(page); outside != "" {
		t.Errorf("loads %s", outside)
	}
	named := get("?names=1")
	for _, part := range []string{"Ada Example", "nose is late over the top"} {
		if !strings.Contains(named, part) {
			t.Errorf("with names: lacks %q", part)
		}
	}
	if one := get("?leg=2"); strings.Contains(one, `legs/1"`) || !strings.Contains(one, `legs/2"`) {
		t.Error("a file of one leg holds another, or not that one")
	}
	for query, status := range map[string]int{"?leg=3": 404, "?leg=x": 400} {
		if w := request(s, http.MethodGet, "/api/sessions/"+id+"/share.html"+query, "", nil); w.Code != status {
			t.Errorf("%s: %d, not %d: %s", query, w.Code, status, w.Body)
		}
	}
	if w := request(s, http.MethodGet, "/api/sessions/nobody/share.html", "", nil); w.Code != http.StatusNotFound {
		t.Errorf("an unknown session: %d, %s", w.Code, w.Body)
	}
}

// TestGather: every module that is imported stands in the file, by the name it is imported by, once in a circle too.
func TestGather(t *testing.T) {
	files := map[string]page{
		"/a.js": {data: []byte("import { b } from './pure/b.js';\nimport './c.js';\n" +
			"new URL('x', import.meta.url);")},
		"/c.js":      {data: []byte("export {};")},
		"/pure/b.js": {data: []byte("import { a } from '../a.js';")},
		"/other.js":  {data: []byte("export {};")},
	}
	got := map[string]string{}
	if err := gather(files, "/a.js", got); err != nil {
		t.Fatal(err)
	}
	want := map[string]string{
		"halfturn/a.js": "import { b } from 'halfturn/pure/b.js';\nimport 'halfturn/c.js';\n" +
			"new URL('x', document.baseURI);",
		"halfturn/c.js":      "export {};",
		"halfturn/pure/b.js": "import { a } from 'halfturn/a.js';",
	}
	if len(got) != len(want) {
		t.Errorf("%d modules, not %d", len(got), len(want))
	}
	for name, text := range want {
		data, err := base64.StdEncoding.DecodeString(strings.TrimPrefix(got[name], "data:text/javascript;base64,"))
		if err != nil || string(data) != text {
			t.Errorf("%s: %v, %q", name, err, data)
		}
	}
	files["/c.js"] = page{data: []byte("import './gone.js';")}
	if err := gather(files, "/a.js", map[string]string{}); err == nil || !strings.Contains(err.Error(), "/gone.js") {
		t.Errorf("a module that is not there: %v", err)
	}
}
