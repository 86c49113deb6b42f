package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/archive/take"
	"halfturn/coach/debrief"
	"halfturn/coach/session"
	"halfturn/stream/record"
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
	var taken struct{ Sessions []take.Imported }
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
	for path, want := range map[string]string{"api/sessions/nothing/legs": "nothing",
		"api/sessions/..%2f..%2fetc/legs": "there is no"} {
		if status, body := s.ask(t, "GET", path, "", nil); status != 404 || !strings.Contains(string(body), want) {
			t.Errorf("%s: status %d: %s", path, status, body)
		}
	}
	if err := s.stop(); err != nil { // the replay ends with the server
		t.Fatal(err)
	}
}

// TestLegUnderWay: while a session is being flown, the leg under way is no leg yet, and none broken off: not in the
// pictures, nor over the API, nor in text, nor in an export. Once it is over it is there.
func TestLegUnderWay(t *testing.T) {
	maneuver := "wing-over"
	args := common{Maneuver: &maneuver}
	all := payloads(t, recordedFlight)
	cfg, err := loadConfig(&args, noVariables)
	if err != nil {
		t.Fatal(err)
	}
	opt, err := cfg.Session()
	if err != nil {
		t.Fatal(err)
	}
	var over []int // after how many datagrams each leg is
	for i, aside := 0, session.New(opt); i < len(all); i++ {
		aside.Feed(all[i], float64(i)/60)
		for aside.Legs() > len(over) {
			over = append(over, i+1)
		}
	}
	if len(over) != 2 {
		t.Fatalf("%d legs", len(over))
	}
	within := over[0] + (over[1]-over[0])*3/4
	s := serveLive(t, args, nil)
	conn, err := net.Dial("udp", s.listener.Addresses()[0].String())
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	name, sent := conn.LocalAddr().String(), 0
	send := func(to int) {
		t.Helper()
		for ; sent < to; sent++ {
			if _, err := conn.Write(all[sent]); err != nil {
				t.Fatal(err)
			}
			if sent%50 == 0 || sent == to-1 {
				s.await(t, name, sent+1)
			}
		}
	}
	send(within)
	id := stationOf(t, s, name).Session
	dir := filepath.Join(s.data, "sessions", id)
	until(t, func() bool { return datagramsIn(t, dir) == within },
		func() string { return fmt.Sprintf("%d of %d datagrams are recorded", datagramsIn(t, dir), within) })
	_, pictures := s.ask(t, "GET", "api/sessions/"+id+"/legs", "", nil)
	_, station := s.ask(t, "GET", "api/stations/"+name+"/legs", "", nil)
	_, text, _ := call(t, nil, "sessions", "show", id, "--data", s.data)
	_, export, _ := call(t, nil, "sessions", "export", id, "--data", s.data, "--format", "json")
	for what, words := range map[string]string{"pictures": string(pictures), "station": string(station), "text": text,
		"export": export} {
		if strings.Contains(words, coach.BrokenOff) {
			t.Errorf("%s: the leg under way is told as broken off: %.2000s", what, words)
		}
		if n := strings.Count(words, `"outcome"`); what != "text" && what != "station" && n != 1 {
			t.Errorf("%s: %d legs, want that which is over", what, n)
		}
		if what == "text" && (!strings.Contains(words, "is being flown now") || strings.Count(words, "\n  Leg ") != 1) {
			t.Errorf("the text says %s", words)
		}
	}
	send(len(all))
	if err := s.stop(); err != nil {
		t.Fatal(err)
	}
	if _, words, _ := call(t, nil, "sessions", "export", id, "--data", s.data, "--format", "json"); strings.Count(words,
		`"outcome": "finished"`) != 2 {
		t.Errorf("when it is over: %.2000s", words)
	}
}

// datagramsIn counts those of a session's recording so far.
func datagramsIn(t *testing.T, dir string) (n int) {
	t.Helper()
	parts, err := record.Parts(dir)
	if err != nil {
		t.Fatal(err)
	}
	r := record.Read(parts)
	defer r.Close()
	for {
		if _, err := r.Next(); err != nil {
			return n
		}
		n++
	}
}
