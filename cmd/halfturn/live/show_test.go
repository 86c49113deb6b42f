package live

import (
	"encoding/json"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"halfturn/cmd/halfturn/cmdtest"
	"halfturn/coach/debrief"
	"halfturn/coach/message"
	"halfturn/web"
)

// post sends JSON to the server and returns the status and the answer.
func post(t *testing.T, url, body string) (int, string) {
	t.Helper()
	r, err := http.Post(url, "application/json", strings.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	var answer json.RawMessage
	if err := json.NewDecoder(r.Body).Decode(&answer); err != nil {
		t.Fatal(err)
	}
	return r.StatusCode, string(answer)
}

// stations lists those that the pages know.
func (s *server) stations(t *testing.T) []message.Station {
	t.Helper()
	var list web.StationList
	if err := json.Unmarshal([]byte(cmdtest.Get(t, s.URL()+"api/stations")), &list); err != nil {
		t.Fatal(err)
	}
	return list.Stations
}

// TestDemonstration flies one: it is marked, takes no orders, gives way to the next, and nothing of it is kept.
func TestDemonstration(t *testing.T) {
	ended := 0
	s := serveLive(t, "", func(*debrief.Report) { ended++ })
	code, text := post(t, s.URL()+"api/demonstration", `{"maneuver": "lazy-eight", "aircraft": "light-single"}`)
	if code != 200 || !strings.Contains(text, `"station":"Demonstration"`) {
		t.Fatalf("%d %s", code, text)
	}
	cmdtest.Until(t, func() bool {
		all := s.stations(t)
		return len(all) == 1 && len(all[0].Channels) > 10
	}, func() string { return "the demonstration is not there" })
	n := s.stations(t)[0]
	if !n.Demonstration || n.Maneuver != "lazy-eight" || n.Aircraft != "light-single" || n.Session != "" ||
		n.Recording != "off" {
		t.Errorf("%+v", n)
	}
	code, text = post(t, s.URL()+"api/stations/Demonstration/choose", `{"maneuver": "wing-over"}`)
	if code != 422 || !strings.Contains(text, "demonstration.fixed") {
		t.Errorf("it takes an order: %d %s", code, text)
	}
	if code, _ := post(t, s.URL()+"api/demonstration", `{"maneuver": "clearing-turns"}`); code != 422 {
		t.Errorf("clearing turns are flown: %d", code)
	}
	if code, _ := post(t, s.URL()+"api/demonstration", `{"maneuver": "wing-over"}`); code != 200 {
		t.Errorf("the next one: %d", code)
	}
	r, err := http.NewRequestWithContext(t.Context(), http.MethodDelete, s.URL()+"api/demonstration", nil)
	if err != nil {
		t.Fatal(err)
	}
	answer, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	answer.Body.Close()
	if all := s.stations(t); len(all) != 0 {
		t.Errorf("left are %+v", all)
	}
	if code, _ := post(t, s.URL()+"api/demonstration", `{"maneuver": "wing-over"}`); code != 200 {
		t.Error("none is flown after the end")
	}
	s.stop() // with one in the air
	if kept, err := filepath.Glob(filepath.Join(s.data, "sessions", "*")); err != nil || len(kept) != 0 || ended != 0 {
		t.Errorf("kept are %v, %v; %d sessions ended", kept, err, ended)
	}
}

// TestMeasuredCardIsThere: a card in the folder of measured ones can be chosen after a start.
func TestMeasuredCardIsThere(t *testing.T) {
	data := t.TempDir()
	dir := filepath.Join(data, "cards", "aircraft")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	card := "name = 'mine'\ntitle = 'Mine'\nsource = 'measured'\nstall = 50\nentry = 100\napex = 65\n"
	if err := os.WriteFile(filepath.Join(dir, "mine.toml"), []byte(card), 0o600); err != nil {
		t.Fatal(err)
	}
	s := serveWith(t, config(t, "", data), nil)
	cards := cmdtest.Get(t, s.URL()+"api/cards")
	if !strings.Contains(cards, `{"name":"mine","title":"Mine","entry":100,"apex":65,"stall":50}`) {
		t.Error(cards)
	}
}

// TestHandOver has the built-in aircraft fly one for a pilot: of what is chosen at their station where nothing else is
// named, beside their own flight, and to be ended like any demonstration.
func TestHandOver(t *testing.T) {
	s := serveLive(t, "", nil)
	own := s.send(t, [][]byte{[]byte(`{"time": 1, "heading": 90, "pitch": 2, "bank": 0, "airspeed": 120}`)})
	cmdtest.Until(t, func() bool {
		return slices.ContainsFunc(s.stations(t), func(n message.Station) bool { return n.Name == own })
	}, func() string { return "the pages do not know " + own })
	at := s.URL() + "api/stations/" + own + "/"
	if code, text := post(t, at+"choose", `{"maneuver": "lazy-eight", "aircraft": "light-single"}`); code != 200 {
		t.Fatal(code, text)
	}
	if code, text := post(t, at+"demonstrate", `{"maneuver": "clearing-turns"}`); code != 422 {
		t.Errorf("clearing turns are flown: %d %s", code, text)
	}
	if code, text := post(t, at+"demonstrate", `{}`); code != 200 {
		t.Fatal(code, text)
	}
	var shown message.Station
	cmdtest.Until(t, func() bool {
		for _, n := range s.stations(t) {
			if n.Demonstration && n.Link == "live" {
				shown = n
			}
		}
		return shown.Name != ""
	}, func() string { return "the demonstration is not there" })
	if shown.Maneuver != "lazy-eight" || shown.Aircraft != "light-single" {
		t.Errorf("shown is %+v", shown)
	}
	if code, _ := post(t, s.URL()+"api/stations/"+shown.Name+"/demonstrate", `{}`); code != 422 {
		t.Errorf("a demonstration hands over to another: %d", code)
	}
	s.stop()
}
