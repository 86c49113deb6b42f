package hub

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"github.com/rs/zerolog"

	"halfturn/coach/message"
	"halfturn/coach/who"
	"halfturn/web/internal/feed"
)

var mo = who.Who{Name: "Mo Example"}

// news returns what a viewer hears of who watches: the names, and a digit for how many have none; "" is nothing.
func news(t *testing.T, w *watcher) string {
	t.Helper()
	w.v.mu.Lock()
	defer w.v.mu.Unlock()
	data := w.v.company
	if w.v.company = nil; data == nil {
		return ""
	}
	var m message.Watching
	if err := json.Unmarshal(data, &m); err != nil {
		t.Fatal(err)
	}
	names := []string{string(rune('0' + m.Nameless))}
	for _, x := range m.Watchers {
		names = append(names, x.Name)
	}
	return strings.Join(names, " ")
}

// types lists the types of what came since.
func types(w *watcher) (all []message.Type) {
	for _, s := range w.read() {
		all = append(all, s.Type)
	}
	return all
}

// The pilot hears who watches when that changes, once for each person however many pages they have open, and nothing
// while there is only the owner.
func TestWhoWatches(t *testing.T) {
	h := New("1.2.3", zerolog.Nop())
	h.Event(message.Message{Station: "Seat 3", Body: feed.Station("Seat 3", "live")})
	pilot := watch(t, h, Wish{Station: "Seat 3", Who: who.Owner()})
	watch(t, h, Wish{Station: "Seat 3", Who: who.Owner()})
	if got := news(t, pilot); got != "" {
		t.Errorf("with the owner alone it hears %q", got)
	}
	first := watch(t, h, Wish{Station: "Seat 3", Who: mo, Other: true})
	if got := news(t, pilot); got != "0 Mo Example" {
		t.Errorf("it hears %q", got)
	}
	second := watch(t, h, Wish{Station: "Seat 3", Who: mo, Other: true})
	if got := news(t, pilot); got != "" {
		t.Errorf("of a second page of the same person it hears %q", got)
	}
	guest := watch(t, h, Wish{Station: "Seat 3", Other: true})
	watch(t, h, Wish{Station: "Seat 3", Who: who.Who{Name: "Bo Example"}, Other: true})
	if got := news(t, pilot); got != "1 Bo Example Mo Example" {
		t.Errorf("it hears %q", got)
	}
	h.Leave(first.v)
	h.Leave(guest.v)
	if got := news(t, pilot); got != "0 Bo Example Mo Example" {
		t.Errorf("it hears %q", got)
	}
	h.Leave(second.v)
	if got := news(t, pilot); got != "0 Bo Example" {
		t.Errorf("it hears %q", got)
	}
	var hello message.Hello
	late := watch(t, h, Wish{Station: "Seat 3", Who: mo, Other: true})
	if err := json.Unmarshal(late.v.queue[0], &hello); err != nil || hello.You != mo ||
		hello.Watching == nil || len(hello.Watching.Watchers) != 1 {
		t.Errorf("the hello says %+v, %v", hello, err)
	}
}

// Others see nothing of a private station but that it is private, whatever comes; and all of it once it is shared
// again. Its pilot goes on as before, and what is told beside the events reaches nobody else.
func TestPrivate(t *testing.T) {
	h := New("1.2.3", zerolog.Nop())
	open, closed := feed.Station("Seat 3", "live"), feed.Station("Seat 3", "live")
	closed.Private = true
	send := func(body message.Body) { h.Event(message.Message{Station: "Seat 3", Body: body}) }
	send(open)
	pilot, other := watch(t, h, Wish{Station: "Seat 3", Who: who.Owner()}),
		watch(t, h, Wish{Station: "Seat 3", Who: mo, Other: true})
	h.Frame("Seat 3", feed.At(12, 3, 0))
	if got := types(other); !slices.Equal(got, []message.Type{message.TypeHello, message.TypeFrame}) {
		t.Fatalf("before, the other hears %q", got)
	}
	pilot.read()
	news(t, pilot)
	h.Frame("Seat 3", feed.At(13, 4, 0)) // and the other has not seen it yet
	send(closed)
	send(feed.Plan())
	h.Frame("Seat 3", feed.At(14, 5, 0))
	h.Tell(message.Message{Station: "Seat 3", Body: &message.Act{Act: message.ActMute}})
	late := watch(t, h, Wish{Station: "Seat 3", Who: mo, Other: true, Resume: true, Since: 1})
	for name, w := range map[string]*watcher{"who was there": other, "who comes": late} {
		heard := slices.Clone(w.v.queue)
		if got := types(w); !slices.Equal(got, []message.Type{message.TypeHello}) {
			t.Errorf("the other %s hears %q", name, got)
			continue
		}
		var hello message.Hello
		if err := json.Unmarshal(heard[0], &hello); err != nil || !hello.Private || hello.Info != nil ||
			hello.Plan != nil || hello.Frame != nil || len(hello.Callouts) > 0 {
			t.Errorf("the other %s is told %s, %v", name, heard[0], err)
		}
	}
	if got := types(pilot); !slices.Contains(got, message.TypePlan) || !slices.Contains(got, message.TypeAct) {
		t.Errorf("the pilot hears %q", got)
	}
	if got := news(t, pilot); got != "0" {
		t.Errorf("of who watches the pilot hears %q", got)
	}
	if !h.Private("Seat 3") || h.Private("Seat 4") {
		t.Error("the hub does not know which station is private")
	}
	send(open)
	h.Frame("Seat 3", feed.At(15, 6, 0))
	if got := types(other); !slices.Equal(got, []message.Type{message.TypeHello, message.TypeFrame}) {
		t.Errorf("shared again, the other hears %q", got)
	}
	if got := news(t, pilot); got != "0 Mo Example" {
		t.Errorf("of who watches the pilot hears %q", got)
	}
}

// Telling beside the events takes no number: the next event follows the one before.
func TestTellHasNoNumber(t *testing.T) {
	h := New("1.2.3", zerolog.Nop())
	h.Event(message.Message{Station: "Seat 3", Seq: 1, Body: feed.Station("Seat 3", "live")})
	w := watch(t, h, Wish{Station: "Seat 3"})
	h.Tell(message.Message{Station: "Seat 3", Body: &message.Act{Act: message.ActMute}})
	h.Event(message.Message{Station: "Seat 3", Seq: 2, Body: feed.Plan()})
	got := w.read()
	if len(got) != 3 || got[1].Seq != 0 || got[2].Seq != 2 || got[2].Type != message.TypePlan {
		t.Errorf("heard %+v", got)
	}
}

// Who watches at another Halfturn is told with those here, and not while the station is private; the pilot there is
// told of all who watch here, the owner too.
func TestWatchedElsewhere(t *testing.T) {
	h := New("1.2.3", zerolog.Nop())
	h.Elsewhere("Seat 3", &message.Watching{Nameless: 1}) // before the station
	h.Event(message.Message{Station: "Seat 3", Seq: 1, Body: feed.Station("Seat 3", "live")})
	pilot := watch(t, h, Wish{Station: "Seat 3", Who: who.Owner()})
	h.Elsewhere("Seat 3", &message.Watching{Watchers: []who.Who{{Name: "Bo Example"}}, Nameless: 1})
	if got := news(t, pilot); got != "1 Bo Example" {
		t.Errorf("it hears %q", got)
	}
	watch(t, h, Wish{Station: "Seat 3", Who: mo, Other: true})
	watch(t, h, Wish{Station: "Seat 3", Other: true})
	if got := news(t, pilot); got != "2 Bo Example Mo Example" {
		t.Errorf("it hears %q", got)
	}
	a := h.Audience("Seat 3")
	if len(a.Watchers) != 2 || a.Watchers[0] != mo || a.Watchers[1] != who.Owner() || a.Nameless != 1 {
		t.Errorf("here watch %+v", a)
	}
	if a := h.Audience("none"); len(a.Watchers) != 0 || a.Nameless != 0 {
		t.Errorf("a station that is not there is watched by %+v", a)
	}
	shut := feed.Station("Seat 3", "live")
	shut.Private = true
	h.Event(message.Message{Station: "Seat 3", Seq: 2, Body: shut})
	if got := news(t, pilot); got != "0" {
		t.Errorf("while it is private it hears %q", got)
	}
}
