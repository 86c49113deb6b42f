package hub

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/web/internal/feed"
)

// TestWhatIsOverIsAsItCame: a viewer that joins gets the legs and the latest series to the byte as they came, also from
// another machine that took the station over, which goes on as the first would.
func TestWhatIsOverIsAsItCame(t *testing.T) {
	h := New("test", zerolog.Nop())
	h.Event(station("a", "live"))
	h.Event(message.Message{Station: "a", Body: feed.Plan()})
	legs := []*coach.Leg{feed.Finished(1, "right", 10), feed.Finished(2, "left", 60)}
	for _, l := range legs {
		h.Event(message.Message{Station: "a", Body: message.Leg{Leg: l}})
	}
	var series []*coach.Series
	for n := range seriesKept + 2 {
		s := feed.Series()
		s.Score = float64(n)
		series = append(series, s)
		h.Event(message.Message{Station: "a", Body: message.Series{Series: s}})
	}
	other := New("test", zerolog.Nop())
	if err := other.Adopt(h.Hello("a")); err != nil {
		t.Fatal(err)
	}
	for name, h := range map[string]*Hub{"here": h, "taken over": other} {
		holds(t, name, h, legs[1], legs[0], series[2:])
		again := feed.Finished(3, "left", 90)
		h.Event(message.Message{Station: "a", Body: message.Leg{Leg: again}})
		holds(t, name+", a leg later", h, again, legs[0], series[2:])
	}
}

// holds checks the last leg, the one to the other side, and the series of what a viewer is greeted with.
func holds(t *testing.T, name string, h *Hub, last, other *coach.Leg, series []*coach.Series) {
	t.Helper()
	var hello struct{ Last, Other, Series json.RawMessage }
	if err := json.Unmarshal(h.Hello("a"), &hello); err != nil {
		t.Fatal(err)
	}
	for what, of := range map[string]struct {
		got  []byte
		want any
	}{
		"the last leg":              {hello.Last, last},
		"the leg to the other side": {hello.Other, other},
		"the series":                {hello.Series, series},
	} {
		want, err := json.Marshal(of.want)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(of.got, want) {
			t.Errorf("%s: %s is %s; must be %s", name, what, of.got, want)
		}
	}
}
