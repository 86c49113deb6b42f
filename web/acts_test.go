package web

import (
	"slices"
	"strings"
	"testing"

	"halfturn/coach/message"
	"halfturn/web/hub"
	"halfturn/web/internal/feed"
)

// live puts live stations into a hub.
func live(h *hub.Hub, names ...string) {
	for _, name := range names {
		h.Event(message.Message{Station: name, Body: feed.Station(name, "live")})
	}
}

// A button box sends a request without a body, or a line; both do the same, at the only live station or the one named.
func TestActs(t *testing.T) {
	s, h, d := newServer(t, Config{})
	if w := request(s, "POST", "/do/mark", "", nil); w.Code != 409 || !strings.Contains(w.Body.String(), "0 stations") {
		t.Errorf("without a station: %d, %s", w.Code, w.Body)
	}
	live(h, "Seat 3")
	h.Event(message.Message{Station: "Seat 3", Body: feed.Plan()})
	for _, act := range []string{"mark", "point", "stop", "mute", "repeat", "next", "end"} {
		w := request(s, "POST", "/do/"+act, "", nil)
		if w.Code != 200 || !strings.Contains(w.Body.String(), `"station":"Seat 3"`) {
			t.Errorf("%s: %d, %s", act, w.Code, w.Body)
		}
	}
	if want := []string{"Seat 3", "wing-over", "turboprop-trainer"}; !slices.Equal(d.chosen, want) {
		t.Errorf("next chose %q", d.chosen)
	}
	live(h, "Seat 5")
	if w := request(s, "POST", "/do/end", "", nil); w.Code != 409 {
		t.Errorf("two stations, none named: %d", w.Code)
	}
	if w := request(s, "POST", "/do/end?station=Seat+5", "", nil); w.Code != 200 {
		t.Errorf("one of two, named: %d, %s", w.Code, w.Body)
	}
	if err := s.Line(t.Context(), "end Seat 5\n"); err != nil {
		t.Error(err)
	}
	want := []string{"Seat 3 mark ", "Seat 3 about wing", "Seat 3 stop", "Seat 3 end", "Seat 5 end", "Seat 5 end"}
	if !slices.Equal(d.did, want) {
		t.Errorf("did %q", d.did)
	}
}

// What cannot be done is said, and no page of another site can press the buttons.
func TestActsRefused(t *testing.T) {
	s, h, d := newServer(t, Config{})
	live(h, "Seat 3")
	for path, want := range map[string]string{
		"/do/loop":               "mark, mute",
		"/do/end?station=Seat+9": "no station",
		"/do/student":            "no logbook",
	} {
		if w := request(s, "POST", path, "", nil); w.Code != 404 || !strings.Contains(w.Body.String(), want) {
			t.Errorf("%s: %d, %s", path, w.Code, w.Body)
		}
	}
	if w := request(s, "GET", "/do/end", "", nil); w.Code != 404 && w.Code != 405 {
		t.Errorf("GET: %d", w.Code)
	}
	for name, value := range map[string]string{"Origin": "http://example.org", "Sec-Fetch-Site": "cross-site"} {
		if w := request(s, "POST", "/do/end", "", map[string]string{name: value}); w.Code != 403 {
			t.Errorf("%s %s: %d", name, value, w.Code)
		}
	}
	if len(d.did) > 0 {
		t.Errorf("did %q", d.did)
	}
}
