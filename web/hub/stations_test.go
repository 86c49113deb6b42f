package hub

import (
	"fmt"
	"math"
	"testing"
	"testing/synctest"

	"github.com/google/go-cmp/cmp"
	"github.com/prometheus/client_golang/prometheus"
	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/web/internal/feed"
)

// A house is as big as the stations in it: those that left, and recordings played again, make it no bigger.
func TestStationsThatLeftAndReplaysDoNotMakeAHouseBig(t *testing.T) {
	replay := station("", "live")
	replay.Body.(*message.Station).Replay = &message.Replaying{}
	for name, fill := range map[string]func(h *Hub, name string){
		"left":        func(h *Hub, name string) { h.Event(station(name, "live")); h.Event(station(name, "gone")) },
		"never came":  func(h *Hub, name string) { h.Event(callout(name, 1)) },
		"replays":     func(h *Hub, name string) { m := replay; m.Station = name; h.Event(m) },
		"shown scene": func(h *Hub, name string) { sc := &Scene{}; sc.Event(replay); h.Show(name, sc) },
		"came back and left": func(h *Hub, name string) {
			for range 2 {
				h.Event(station(name, "live"))
				h.Event(station(name, "gone"))
			}
		},
	} {
		t.Run(name, func(t *testing.T) {
			h := New("test", zerolog.Nop())
			h.Event(station("here", "live"))
			for i := range 2 * alwaysWatched {
				fill(h, fmt.Sprint(i))
			}
			if !h.Watched("here") {
				t.Fatal("the one live station of a small house is not watched")
			}
			for i := range alwaysWatched {
				h.Event(station(fmt.Sprint("more ", i), "live"))
			}
			if h.Watched("here") {
				t.Errorf("%d stations are live, and each is watched", alwaysWatched+1)
			}
			h.Event(station("more 0", "gone"))
			if !h.Watched("here") {
				t.Error("one of many left, and the others are not watched again")
			}
		})
	}
}

func TestStationsThatWentAreForgotten(t *testing.T) {
	synctest.Test(t, func(t *testing.T) { // for a clock that tells the stations apart
		h := New("test", zerolog.Nop())
		for i := range 5 * goneKept {
			h.Event(station(fmt.Sprint(i), "live"))
			h.Event(station(fmt.Sprint(i), "gone"))
		}
		if n := len(h.Stations()); n != goneKept {
			t.Errorf("%d stations are kept, want %d", n, goneKept)
		}
	})
}

func TestMessagesThatCannotBeWrittenAreDropped(t *testing.T) {
	h := New("test", zerolog.Nop())
	h.Event(station("a", "live"))
	w := watch(t, h, Wish{})
	w.one("hello")
	h.Event(callout("a", math.NaN()))
	h.Frame("a", &coach.Frame{Turn: math.Inf(1)})
	if got := w.read(); len(got) != 0 {
		t.Errorf("got %s", summary(got))
	}
	h.Event(callout("a", 1))
	if got := w.one("callout"); got.Seq != 2 {
		t.Errorf("the next event has number %d, want 2: the dropped one took none", got.Seq)
	}
}

func TestHubIsACollector(t *testing.T) {
	h := New("test", zerolog.Nop())
	h.Event(station("a", "live"))
	watch(t, h, Wish{})
	reg := prometheus.NewPedanticRegistry()
	reg.MustRegister(h)
	families, err := reg.Gather()
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]float64{}
	for _, f := range families {
		m := f.GetMetric()[0]
		got[f.GetName()] = m.GetGauge().GetValue() + m.GetCounter().GetValue()
	}
	want := map[string]float64{
		"halfturn_viewers": 1, "halfturn_events_total": 1, "halfturn_viewer_frame_gap_seconds": 0.02,
		"halfturn_viewer_frames_coalesced_total": 0, "halfturn_viewers_overflowed_total": 0,
		"halfturn_connections_refused_total": 0,
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

func TestSeqsOfParallelStationsAreTheirOwn(t *testing.T) {
	h := New("test", zerolog.Nop())
	done := make(chan struct{})
	for _, name := range []string{"a", "b", "c", "d"} {
		go func() {
			defer func() { done <- struct{}{} }()
			h.Event(station(name, "live"))
			for i := range 200 {
				h.Event(callout(name, float64(i)))
				h.Frame(name, feed.At(float64(i), float64(i)/2, 0))
				if i%50 == 0 {
					v, _ := h.Join(Wish{}, 100)
					h.Leave(v)
				}
			}
		}()
	}
	for range 4 {
		<-done
	}
	for _, name := range []string{"a", "b", "c", "d"} {
		got := watch(t, h, Wish{Station: name, Resume: true, Since: 1}).read()
		if n := seqs(got[:200]); n[0] != 2 || n[199] != 201 {
			t.Errorf("%s: events %d to %d, want 2 to 201", name, n[0], n[199])
		}
	}
}
