package hub

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/web/internal/feed"
)

// said is the part of a message the hub's tests look at.
type said struct {
	Type        message.Type
	Station     string
	Seq         uint64
	Run         string
	Stations    []string
	Info        *message.Station
	Trace       []message.Flown
	Callouts    []*coach.Callout
	Series      []*coach.Series
	Last, Other *struct{ Number int }
	Frame       *struct{ Turn float64 }
}

// A watcher is a viewer whose lanes the test reads itself.
type watcher struct {
	t *testing.T
	v *Viewer
}

func watch(t *testing.T, h *Hub, want Wish) *watcher {
	t.Helper()
	v, ok := h.Join(want, 100)
	if !ok {
		t.Fatal("not let in")
	}
	t.Cleanup(func() { h.Leave(v) })
	return &watcher{t, v}
}

// read returns what came since, decoded: events, then the frame.
func (w *watcher) read() []said {
	w.t.Helper()
	w.v.mu.Lock()
	defer w.v.mu.Unlock()
	all := append(w.v.backlog, w.v.queue...)
	if w.v.frame != nil {
		all = append(all, w.v.frame)
	}
	w.v.backlog, w.v.queue, w.v.frame = nil, nil, nil
	out := []said{}
	for _, m := range all {
		var s said
		if err := json.Unmarshal(m, &s); err != nil {
			w.t.Fatal(err)
		}
		out = append(out, s)
	}
	return out
}

func (w *watcher) one(kind message.Type) said {
	w.t.Helper()
	got := w.read()
	if len(got) != 1 || got[0].Type != kind {
		w.t.Fatalf("got %s, want one %s", summary(got), kind)
	}
	return got[0]
}

func summary(all []said) string {
	text := ""
	for _, s := range all {
		text += fmt.Sprintf("[%s %s %d]", s.Type, s.Station, s.Seq)
	}
	return text
}

func station(name, link string) message.Message {
	return message.Message{Station: name, Body: feed.Station(name, link)}
}

func callout(name string, time float64) message.Message {
	return message.Message{
		Station: name,
		Body:    message.Callout{Callout: &coach.Callout{Time: time, Kind: coach.Cue, Words: "now"}},
	}
}

func seqs(all []said) []uint64 {
	out := []uint64{}
	for _, s := range all {
		out = append(out, s.Seq)
	}
	return out
}

func TestANewViewerGetsTheWholeState(t *testing.T) {
	h := New("1.2.3", zerolog.Nop())
	h.Event(station("a", "live"))
	h.Event(message.Message{Station: "a", Body: feed.Plan()})
	h.Event(message.Message{Station: "a", Body: message.Leg{Leg: feed.Finished(1, "right", 10)}})
	h.Event(message.Message{Station: "a", Body: message.Series{Series: feed.Series()}})
	for turn := 0.0; turn <= 20; turn += 0.25 {
		h.Frame("a", feed.At(turn/8, turn, 0))
	}
	for i := range callouts + 3 {
		h.Event(callout("a", float64(i)))
	}
	got := watch(t, h, Wish{}).one("hello")
	if got.Seq != 4+callouts+3 || got.Station != "a" || got.Info == nil || got.Last == nil || got.Frame == nil ||
		got.Frame.Turn != 20 {
		t.Errorf("hello %+v lacks something", got)
	}
	if len(got.Callouts) != callouts || got.Callouts[0].Time != 3 {
		t.Errorf(
			"%d callouts from %v s on; must be the last %d, oldest first",
			len(got.Callouts),
			got.Callouts[0].Time,
			callouts,
		)
	}
	if len(got.Trace) != 21 {
		t.Errorf("the trace of 20° has %d entries, want one a degree", len(got.Trace))
	}
	for i, p := range got.Trace {
		if math.Abs(p.Turn-float64(i)) > 0.3 || p.Bank != feed.Bank(p.Turn) || *p.Height != feed.Climb(p.Turn) {
			t.Fatalf("trace entry %d is %+v, not what was flown", i, p)
		}
	}
	if len(got.Series) != 1 || len(got.Series[0].Legs) != 2 {
		t.Error("the series should be there")
	}
}

// A simulator that was started again has a clock that went back: what was said before is of another flight.
func TestWordsOfAnotherFlightAreNotKept(t *testing.T) {
	for name, again := range map[string]func(h *Hub){
		"by a frame":   func(h *Hub) { h.Frame("a", feed.At(2, 0, 0)) },
		"by a callout": func(h *Hub) { h.Event(callout("a", 2)) },
	} {
		h := New("1.2.3", zerolog.Nop())
		h.Event(station("a", "live"))
		h.Event(callout("a", 100))
		h.Frame("a", feed.At(99.5, 0, 0)) // the samples of a moment need not come in its order
		again(h)
		for _, c := range watch(t, h, Wish{}).one("hello").Callouts {
			if c.Time != 2 {
				t.Errorf("%s: the callout of %g s is kept", name, c.Time)
			}
		}
	}
}

func TestAViewerThatComesBackLosesNoEvent(t *testing.T) {
	h := New("test", zerolog.Nop())
	h.Event(station("a", "live"))
	first := watch(t, h, Wish{}).one("hello")
	for i := range 300 {
		h.Event(callout("a", float64(i)))
	}
	h.Frame("a", feed.At(1, 10, 0))
	back := watch(t, h, Wish{Station: "a", Resume: true, Since: first.Seq, Run: first.Run})
	got := back.read()
	if len(got) != 301 || got[300].Type != "frame" {
		t.Fatalf("%d messages, want the 300 events missed and the frame", len(got))
	}
	for i, s := range got[:300] {
		if s.Seq != first.Seq+uint64(i)+1 {
			t.Fatalf("event %d has number %d, want %d", i, s.Seq, first.Seq+uint64(i)+1)
		}
	}
	h.Event(callout("a", 301))
	if next := back.one("callout"); next.Seq != first.Seq+301 {
		t.Errorf("the next event has number %d, want %d", next.Seq, first.Seq+301)
	}
}

func TestAViewerThatCannotResumeGetsTheState(t *testing.T) {
	h := New("test", zerolog.Nop())
	h.Event(station("a", "live"))
	run := watch(t, h, Wish{}).one("hello").Run
	for i := range eventsKept + 5 {
		h.Event(callout("a", float64(i)))
	}
	last := uint64(eventsKept + 6)
	tests := []struct {
		name  string
		since uint64
		run   string
		hello bool
	}{
		{"has it all", last, run, false},
		{"the oldest still known", last - eventsKept, run, false},
		{"one too old", last - eventsKept - 1, run, true},
		{"from the future", last + 1, run, true},
		{"of an earlier server", last - 1, "other", true},
		{"no run told", last - 1, "", false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := watch(t, h, Wish{Station: "a", Resume: true, Since: tt.since, Run: tt.run}).read()
			isHello := len(got) == 1 && got[0].Type == "hello"
			if isHello != tt.hello {
				t.Errorf("got %d messages, hello %v, want %v", len(got), isHello, tt.hello)
			}
			if !tt.hello && uint64(len(got)) != last-tt.since {
				t.Errorf("got %d events, want %d", len(got), last-tt.since)
			}
		})
	}
}

func TestANewNumberingSendsTheStateAgain(t *testing.T) {
	h := New("test", zerolog.Nop())
	h.Event(station("a", "live"))
	h.Event(message.Message{Station: "a", Body: message.Leg{Leg: feed.Finished(1, "right", 10)}})
	w := watch(t, h, Wish{})
	before := w.one("hello")
	again := station("a", "live")
	again.Seq = 1
	h.Event(again)
	after := w.one("hello")
	if after.Run == before.Run || after.Seq != 1 || after.Last != nil {
		t.Errorf("after a new session: %+v, want another run, number 1, no leg", after)
	}
	h.Event(callout("a", 1))
	if got := w.one("callout"); got.Seq != 2 {
		t.Errorf("the next event has number %d, want 2", got.Seq)
	}
}

func TestAViewerOfNoStationIsGivenTheFirstLiveOne(t *testing.T) {
	h := New("test", zerolog.Nop())
	w := watch(t, h, Wish{})
	if got := w.one("hello"); got.Station != "" || got.Info != nil {
		t.Fatalf("hello %+v, want an empty one", got)
	}
	h.Event(station("a", "live"))
	if got := w.one("hello"); got.Station != "a" || got.Info == nil {
		t.Fatalf("hello %+v, want a's", got)
	}
	h.Event(station("b", "live"))
	if got := w.read(); len(got) != 0 {
		t.Errorf("got %s of another station", summary(got))
	}
	h.Event(station("a", "gone"))
	if got := w.read(); len(got) != 2 || got[1].Type != "hello" || got[1].Station != "b" {
		t.Errorf("after its station went, got %s, want the news and b's hello", summary(got))
	}
	h.Event(station("b", "gone"))
	h.Event(callout("c", 0)) // known, not live
	h.Event(station("c", "live"))
	if got := w.read(); len(got) < 2 || got[len(got)-1].Station != "c" {
		t.Errorf("got %s, want c's hello at last", summary(got))
	}
}

func TestAViewerOfANamedStationWaitsForIt(t *testing.T) {
	h := New("test", zerolog.Nop())
	h.Event(station("a", "live"))
	w := watch(t, h, Wish{Station: "b"})
	if got := w.one("hello"); got.Station != "b" || got.Info != nil {
		t.Fatalf("hello %+v, want an empty one of b", got)
	}
	h.Event(callout("a", 1))
	h.Event(station("b", "live"))
	if got := w.one("hello"); got.Station != "b" || got.Info == nil {
		t.Errorf("hello %+v, want b's", got)
	}
}

func TestAnotherManeuverBeginsWithACleanSheet(t *testing.T) {
	h := New("test", zerolog.Nop())
	h.Event(station("a", "live"))
	plan := feed.Plan()
	h.Event(message.Message{Station: "a", Body: plan})
	h.Event(message.Message{Station: "a", Body: message.Leg{Leg: feed.Finished(1, "right", 10)}})
	h.Event(message.Message{Station: "a", Body: message.Leg{Leg: feed.Finished(2, "left", 60)}})
	if got := watch(t, h, Wish{}).one("hello"); got.Last.Number != 2 || got.Other == nil || got.Other.Number != 1 {
		t.Error("the leg to the other side is not there to be laid over the last")
	}
	aircraft := *plan
	aircraft.Aircraft = "another"
	h.Event(message.Message{Station: "a", Body: &aircraft})
	if watch(t, h, Wish{}).one("hello").Last == nil {
		t.Error("another aircraft took the last leg away")
	}
	maneuver := aircraft
	maneuver.Maneuver = "lazy-eight"
	h.Frame("a", feed.At(40, 5, 0))
	h.Event(message.Message{Station: "a", Body: &maneuver})
	got := watch(t, h, Wish{}).one("hello")
	if got.Last != nil || got.Other != nil {
		t.Error("legs of another maneuver are still there")
	}
	if len(got.Trace) != 1 {
		t.Error("the turn that told the maneuver is not shown any more")
	}
}

func TestWatched(t *testing.T) {
	h := New("test", zerolog.Nop())
	if !h.Watched("a") {
		t.Error("the first station of a small house is not watched")
	}
	for i := range alwaysWatched + 1 {
		h.Event(station(fmt.Sprint(i), "live"))
	}
	if h.Watched("3") {
		t.Error("a station of a big house is watched with nobody looking")
	}
	v, _ := h.Join(Wish{Station: "3"}, 10)
	if !h.Watched("3") || h.Watched("4") {
		t.Error("the station somebody looks at should be watched, and no other")
	}
	h.Leave(v)
	if h.Watched("3") {
		t.Error("still watched after the viewer left")
	}
}
