package web

import (
	"encoding/json"
	"errors"
	"net/http"
	"slices"
	"strings"
	"testing"

	"halfturn/coach/command"
	"halfturn/coach/message"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
	"halfturn/web/guard"
	"halfturn/web/internal/feed"
)

// What a person says and marks is asked for like every command; what cannot be said is refused with words, and a mark
// is answered with its id.
func TestPersonCommands(t *testing.T) {
	s, h, d := newServer(t, Config{})
	live(h, "Seat 3")
	page := map[string]string{"Content-Type": asJSON}
	for _, c := range []struct {
		path, body string
		code       int
		says       string
	}{
		{"say", `{"say":"Eyes outside"}`, 200, `"say":"Eyes outside"`},
		{"say", `{"say":"one two three four five six seven eight nine"}`, 422, "spoken.too-long"},
		{"say", `{"say":""}`, 422, "spoken.empty"},
		{"say", `{"say":"\u001b[2J"}`, 422, "text.hidden"},
		{"say", `{"say":"` + strings.Repeat("x", 5000) + `"}`, 413, ""},
		{"say", `{"say":"x","by":"Bo"}`, 400, ""},
		{"say", `{"say":7}`, 400, ""},
		{"say", `<script>`, 400, ""},
		{"mark", `{"mark":"<script>alert(1)</script>"}`, 200, `"mark":"\u003cscript\u003e`},
		{"stop", `{}`, 200, "{}"},
		{"private", `{}`, 400, "says nothing"},
		{"private", `{"private":true}`, 200, `"private":true`},
		{"shout", `{}`, 404, ""},
	} {
		w := request(s, "POST", "/api/stations/Seat%203/"+c.path, c.body, page)
		if w.Code != c.code || !strings.Contains(w.Body.String(), c.says) {
			t.Errorf("%s %.60s: %d %s; must be %d with %q", c.path, c.body, w.Code, w.Body, c.code, c.says)
		}
		if c.path == "mark" && !strings.Contains(w.Body.String(), `"id":"`) {
			t.Errorf("the mark is answered with %s", w.Body)
		}
	}
	if w := request(s, "POST", "/api/stations/Seat%209/say", `{"say":"x"}`, page); w.Code != 404 {
		t.Errorf("an unknown station: %d", w.Code)
	}
	want := []string{"Seat 3 say Eyes outside", "Seat 3 mark <script>alert(1)</script>", "Seat 3 stop"}
	if !slices.Equal(d.did, want) {
		t.Errorf("did %q", d.did)
	}
}

// Others reach nothing of a private station, cannot make one private themselves, and see no more of it in a list than
// that it is there.
func TestPrivateStation(t *testing.T) {
	s, h, _ := newServer(t, Config{})
	mo := who.Who{Name: "Mo Example", Role: who.RoleInstructor}
	refusedBy := func(err error) *phrase.Definition {
		var p *guard.Problem
		if !errors.As(err, &p) || p.Status != http.StatusForbidden {
			return nil
		}
		for _, d := range []*phrase.Definition{phrase.StationPrivate, phrase.PrivateByPilot} {
			if p.Phrase.Is(d) {
				return d
			}
		}
		return nil
	}
	for role, other := range map[who.Role]bool{
		who.RoleOwner: false, who.RoleStudent: false, who.RoleInstructor: true, who.RoleViewer: true, "": true,
	} {
		if isOther(who.Who{Name: "Mo Example", Role: role}) != other {
			t.Errorf("%q is somebody else: %v", role, !other)
		}
	}
	at := feed.Station("Seat 3", "live")
	h.Event(message.Message{Station: "Seat 3", Body: at})
	if err := s.mayDo(mo, "Seat 3", command.KindStop); err != nil {
		t.Errorf("shared, it is refused: %v", err)
	}
	if got := refusedBy(s.mayDo(mo, "Seat 3", command.KindPrivate)); got != phrase.PrivateByPilot {
		t.Errorf("others may make it private: %v", got)
	}
	closed := *at
	closed.Private = true
	h.Event(message.Message{Station: "Seat 3", Body: &closed})
	if got := refusedBy(s.mayReach(mo, "Seat 3")); got != phrase.StationPrivate {
		t.Errorf("others reach it: %v", got)
	}
	if err := s.mayDo(who.Owner(), "Seat 3", command.KindPrivate); err != nil {
		t.Errorf("its pilot cannot share it again: %v", err)
	}
	text, err := json.Marshal(asOthersKnow(closed))
	for _, hidden := range []string{at.Student, at.Session, at.Maneuver, at.Address} {
		if hidden != "" && strings.Contains(string(text), hidden) || err != nil {
			t.Errorf("others know %s, %v", text, err)
		}
	}
	if got := asOthersKnow(*at); got.Student != at.Student {
		t.Errorf("of one that is shared they know %+v", got)
	}
}
