package main

import (
	"bytes"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach/debrief"
	"halfturn/web"
)

// ask sends a request to the pages and returns the status and the answer.
func (s *server) ask(t *testing.T, method, path, kind string, body []byte) (int, []byte) {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), method, s.url()+path, bytes.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	if kind != "" {
		r.Header.Set("Content-Type", kind)
	}
	answer, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	data, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return answer.StatusCode, data
}

// TestImportedIsDebriefed takes a capture in over HTTP; the pictures of its debrief are those of its
// grades, and it can be replayed on the hub.
func TestImportedIsDebriefed(t *testing.T) {
	maneuver := "wing-over"
	s := serveLive(t, common{Maneuver: &maneuver}, nil)
	capture, err := os.ReadFile(recordedFlight)
	if err != nil {
		t.Fatal(err)
	}
	status, body := s.ask(t, "POST", "api/sessions/import?name=evening.pcap.gz", "application/octet-stream", capture)
	var taken struct{ Sessions []imported }
	if err := json.Unmarshal(body, &taken); status != 200 || err != nil || len(taken.Sessions) != 1 {
		t.Fatalf("status %d, %v: %s", status, err, body)
	}
	id := taken.Sessions[0].Session
	status, body = s.ask(t, "GET", "api/sessions/"+id+"/legs", "", nil)
	var list web.FlownLegs
	if err := json.Unmarshal(body, &list); status != 200 || err != nil || len(list.Legs) != 2 {
		t.Fatalf("status %d, %v: %.300s", status, err, body)
	}
	kept, err := os.ReadFile(s.data + "/sessions/" + id + "/summary.json")
	if err != nil {
		t.Fatal(err)
	}
	var report debrief.Report
	if err := json.Unmarshal(kept, &report); err != nil {
		t.Fatal(err)
	}
	for i, leg := range report.Files[0].Stations[0].Series[0].Legs {
		shown := list.Legs[i].Leg
		if d := cmp.Diff(leg.Checks, shown.Checks); d != "" {
			t.Errorf("leg %d is shown otherwise than it was graded (-graded +shown):\n%s", i+1, d)
		}
	}
	status, body = s.ask(t, "POST", "api/sessions/"+id+"/replay", "application/json", []byte(`{"from": 5, "pace": 8}`))
	var state web.ReplayState
	if err := json.Unmarshal(body, &state); status != 200 || err != nil || state.Session != id || state.Pace != 8 {
		t.Errorf("status %d, %v: %s", status, err, body)
	}
	for path, want := range map[string]string{"api/sessions/nothing/legs": "nothing", "api/sessions/..%2f..%2fetc/legs": "there is no"} {
		if status, body := s.ask(t, "GET", path, "", nil); status != 404 || !strings.Contains(string(body), want) {
			t.Errorf("%s: status %d: %s", path, status, body)
		}
	}
	if err := s.stop(); err != nil { // the replay ends with the server
		t.Fatal(err)
	}
}
