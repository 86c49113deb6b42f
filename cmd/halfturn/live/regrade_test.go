package live

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/archive/take"
	"halfturn/coach/logbook"
)

// gradings asks for a session, or has it graded again by other cards.
func (s *server) gradings(t *testing.T, id, by string) *logbook.SessionDetail {
	t.Helper()
	method, path := "GET", "api/sessions/"+id
	if by != "" {
		method, path = "POST", path+"/regrade"
	}
	status, body := s.ask(t, method, path, "application/json", []byte(by))
	var d logbook.SessionDetail
	if err := json.Unmarshal(body, &d); status != 200 || err != nil {
		t.Fatalf("%s %s: %d, %v: %s", path, by, status, err, body)
	}
	return &d
}

// A stored session is graded again by another aircraft, another standard and another maneuver, as its debrief offers
// it. Each grading stands beside the first, which stays what it was in the debrief and in the list.
func TestGradedAgain(t *testing.T) {
	s := serveLive(t, written(t, "maneuver = 'wing-over'\n"), nil)
	capture, err := os.ReadFile(flight)
	if err != nil {
		t.Fatal(err)
	}
	status, body := s.ask(t, "POST", "api/sessions/import?name=evening.pcap.gz", "application/octet-stream", capture)
	var made struct{ Sessions []take.Imported }
	if err := json.Unmarshal(body, &made); status != 200 || err != nil || len(made.Sessions) != 1 {
		t.Fatalf("%d, %v: %s", status, err, body)
	}
	id := made.Sessions[0].Session
	first := s.gradings(t, id, "")
	if first.Score == nil || first.Grade != coach.Good || len(first.Regrades) != 0 {
		t.Fatalf("the first grading: %+v; must be good at best, as no aircraft was chosen", first)
	}
	for i, c := range []struct{ by, maneuver, standard, aircraft string }{
		{`{"aircraft":"turboprop-trainer"}`, "wing-over", first.Standard, "turboprop-trainer"},
		{`{"standard":"check"}`, "wing-over", "check", ""},
		{`{"maneuver":"lazy-eight","aircraft":"light-single"}`, "lazy-eight", first.Standard, "light-single"},
	} {
		d := s.gradings(t, id, c.by)
		if len(d.Regrades) != i+1 {
			t.Fatalf("%s: %d gradings beside the first; must be %d", c.by, len(d.Regrades), i+1)
		}
		again := d.Regrades[i]
		if again.Maneuver != c.maneuver || again.Standard != c.standard || again.Aircraft != c.aircraft {
			t.Errorf("%s: graded by %s, %s, %s", c.by, again.Maneuver, again.Standard, again.Aircraft)
		}
		if c.maneuver == "wing-over" && (again.Headline.IsZero() || again.Grade == "") {
			t.Errorf("%s: %q, %q", c.by, again.Grade, again.Headline)
		}
		if d := cmp.Diff(first.SessionRow, d.SessionRow); d != "" {
			t.Errorf("%s: the first grading has changed:\n%s", c.by, d)
		}
	}
	// By its card another maneuver was flown, so it has no grade.
	if all := s.gradings(t, id, "").Regrades; len(all[2].Differences) == 0 || all[2].Grade != "" {
		t.Errorf("as a lazy eight: %s, %v", all[2].Grade, all[2].Differences)
	}
	for by, want := range map[string]string{
		`{"standard":"strict"}`:       `\"strict\"`,
		`{"aircraft":"../card.toml"}`: "card",
		`{"maneuver":"loop"}`:         `\"loop\"`,
		`{}`:                          "send {",
	} {
		status, body := s.ask(t, "POST", "api/sessions/"+id+"/regrade", "application/json", []byte(by))
		if status != 400 || !strings.Contains(string(body), want) {
			t.Errorf("%s: %d, %s; must be refused, naming %s", by, status, body, want)
		}
	}
	if n := len(s.gradings(t, id, "").Regrades); n != 3 {
		t.Errorf("%d gradings after those that were refused; must be 3", n)
	}
	_, body = s.ask(t, "GET", "api/sessions", "", nil)
	var list logbook.SessionList
	err = json.Unmarshal(body, &list)
	if err != nil || len(list.Sessions) != 1 || *list.Sessions[0].Score != *first.Score {
		t.Errorf("the list shows %v, %s", err, body)
	}
}
