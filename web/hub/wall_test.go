package hub

import (
	"encoding/json"
	"fmt"
	"slices"
	"testing"
	"testing/synctest"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/rs/zerolog"

	"halfturn/coach/message"
	"halfturn/web/internal/feed"
)

// A looker is a viewer of the wall whose messages the test asks for itself. It runs in a bubble of synctest, where time
// passes only while everybody waits.
type looker struct {
	t *testing.T
	v *Viewer
}

func look(t *testing.T, h *Hub, want Wish) *looker {
	t.Helper()
	want.Wall = true
	v, ok := h.Join(want, 100)
	if !ok {
		t.Fatal("not let in")
	}
	return &looker{t, v}
}

// next waits for what is due and returns it; nil when nothing has changed.
func (l *looker) next() *message.Wall {
	l.t.Helper()
	<-time.After(wallGap)
	data, _ := l.v.wall.next(time.Now())
	if data == nil {
		return nil
	}
	m, err := message.Decode(data)
	if err != nil {
		l.t.Fatalf("%v in %s", err, data)
	}
	again, err := json.Marshal(m)
	if err != nil || string(again) != string(data) {
		l.t.Fatalf("sent is\n%s\nand the message is\n%s, %v", data, again, err)
	}
	return m.Body.(*message.Wall)
}

// sheet returns what came of one station; an empty sheet when nothing did.
func sheetOf(w *message.Wall, name string) message.Sheet {
	if w != nil {
		for _, s := range w.Sheets {
			if s.Name == name {
				return s
			}
		}
	}
	return message.Sheet{}
}

// parts names the parts of a sheet that are there, the ticks aside: they follow the clock.
func parts(s message.Sheet) []string {
	there := []string{}
	for name, is := range map[string]bool{
		"plan": s.Plan != nil, "info": s.Info != nil, "last": s.Last != nil, "stage": s.Stage != nil,
		"trace": s.Trace != nil, "said": s.Said != nil, "now": s.Now != nil,
	} {
		if is {
			there = append(there, name)
		}
	}
	slices.Sort(there)
	return there
}

func fly(h *Hub, name string, from, to float64) {
	for turn := from; turn <= to; turn++ {
		h.Frame(name, feed.At(turn*feed.Pace, turn, 0))
	}
}

func arrive(h *Hub, names ...string) {
	for _, name := range names {
		h.Event(station(name, "live"))
		h.Event(message.Message{Station: name, Body: feed.Plan()})
	}
}

// TestWallSaysWhatChanged: the first message holds all, each later one the parts that changed since.
func TestWallSaysWhatChanged(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := New("1.2.3", zerolog.Nop())
		arrive(h, "b", "a")
		fly(h, "a", 0, 40)
		l := look(t, h, Wish{})
		defer h.Leave(l.v)
		w := l.next()
		if d := cmp.Diff([]string{"b", "a"}, w.Names); d != "" {
			t.Errorf("the stations in the order they came (-want +got):\n%s", d)
		}
		a := sheetOf(w, "a")
		if d := cmp.Diff([]string{"info", "now", "plan", "stage", "trace"}, parts(a)); d != "" {
			t.Errorf("all of a flying station (-want +got):\n%s", d)
		}
		if len(a.Trace) != 41 || *a.Trace[40][0] != 40 || a.Now.Turn != 40 || len(a.Ticks) != message.SheetTicks {
			t.Errorf("%d places of the trace, now at %g°, ticks %q", len(a.Trace), a.Now.Turn, a.Ticks)
		}
		if d := cmp.Diff([]string{"info", "plan"}, parts(sheetOf(w, "b"))); d != "" {
			t.Errorf("all of a station that has sent nothing yet (-want +got):\n%s", d)
		}
		fly(h, "a", 41, 44)
		h.Event(callout("a", 5))
		w = l.next()
		a = sheetOf(w, "a")
		if d := cmp.Diff([]string{"now", "said"}, parts(a)); d != "" || w.Names != nil || len(w.Sheets) > 2 {
			t.Errorf("what changed (-want +got):\n%s, names %v", d, w.Names)
		}
		if a.Now.Turn != 44 || a.Said[0].Words != "now" {
			t.Errorf("now %+v, said %+v", a.Now, a.Said)
		}
		if got := parts(sheetOf(l.next(), "a")); len(got) != 0 {
			t.Errorf("nothing changed, and %v came", got)
		}
		h.Event(message.Message{Station: "a", Body: message.Leg{Leg: feed.Finished(1, "right", 10)}})
		h.Frame("a", feed.Level(60, false))
		if d := cmp.Diff([]string{"last", "stage", "trace"}, parts(sheetOf(l.next(), "a"))); d != "" {
			t.Errorf("a leg is over (-want +got):\n%s", d)
		}
	})
}

// TestWallTellsAllThatWasSaid: however many callouts come between two messages, each is sent once, to a viewer that
// was held up as well.
func TestWallTellsAllThatWasSaid(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := New("1.2.3", zerolog.Nop())
		arrive(h, "a")
		quick, slow := look(t, h, Wish{}), look(t, h, Wish{})
		defer h.Leave(quick.v)
		defer h.Leave(slow.v)
		heard := map[string][]float64{}
		note := func(who string, w *message.Wall) {
			for _, c := range sheetOf(w, "a").Said {
				heard[who] = append(heard[who], c.Time)
			}
		}
		want := []float64{}
		for i := range 6 {
			h.Event(callout("a", float64(i)))
			want = append(want, float64(i))
			if i%2 == 1 {
				note("quick", quick.next())
			}
		}
		note("slow", slow.next())
		if d := cmp.Diff(map[string][]float64{"quick": want, "slow": want}, heard); d != "" {
			t.Errorf("-want +heard:\n%s", d)
		}
	})
}

// TestWallResumes: a viewer that comes back gets what changed while it was away, and the trace of the turn it missed a
// part of; after a restart of the server, everything.
func TestWallResumes(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := New("1.2.3", zerolog.Nop())
		arrive(h, "a", "b")
		fly(h, "a", 0, 40)
		first := look(t, h, Wish{})
		w := first.next()
		h.Leave(first.v)
		fly(h, "a", 41, 44)
		back := look(t, h, Wish{Resume: true, Since: w.Mark, Run: w.Run})
		got := back.next()
		h.Leave(back.v)
		if d := cmp.Diff([]string{"now", "trace"}, parts(sheetOf(got, "a"))); d != "" || len(got.Names) != 2 {
			t.Errorf("%v; what was missed (-want +got):\n%s", got.Names, d)
		}
		if got := parts(sheetOf(got, "b")); len(got) != 0 {
			t.Errorf("nothing changed at b, and %v came", got)
		}
		for name, want := range map[string]Wish{
			"of another run":        {Resume: true, Since: w.Mark, Run: "other"},
			"of what is not yet":    {Resume: true, Since: 1 << 60, Run: w.Run},
			"that has nothing":      {},
			"that asks for nothing": {Since: w.Mark, Run: w.Run},
		} {
			l := look(t, h, want)
			if got := parts(sheetOf(l.next(), "b")); len(got) != 2 {
				t.Errorf("a viewer %s gets %v of b", name, got)
			}
			h.Leave(l.v)
		}
	})
}

// TestWallTraces: a turn that begins sends its trace in place of the one before, and a viewer that was held up for
// longer than a second gets the trace as well.
func TestWallTraces(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := New("1.2.3", zerolog.Nop())
		arrive(h, "a")
		fly(h, "a", 0, 179)
		l := look(t, h, Wish{})
		defer h.Leave(l.v)
		l.next()
		h.Event(message.Message{Station: "a", Body: message.Leg{Leg: feed.Finished(1, "right", 10)}})
		h.Frame("a", feed.Level(60, false))
		l.next()
		late := look(t, h, Wish{})
		if got := sheetOf(late.next(), "a").Trace; len(got) != len(feed.Finished(1, "right", 10).Trace) {
			t.Errorf("between legs a new viewer gets %d places of the last one", len(got))
		}
		h.Leave(late.v)
		fly(h, "a", 0, 5)
		if got := sheetOf(l.next(), "a").Trace; len(got) != 6 {
			t.Errorf("the next leg begins with %d places", len(got))
		}
		fly(h, "a", 6, 30)
		<-time.After(2 * time.Second)
		if got := sheetOf(l.next(), "a").Trace; len(got) != 31 {
			t.Errorf("after two seconds the viewer gets %d places", len(got))
		}
	})
}

// TestWallStations: the wall holds the stations that are there and that the viewer may see; a right that is taken away
// holds at once, and one that is given brings the whole sheet.
func TestWallStations(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := New("1.2.3", zerolog.Nop())
		arrive(h, "a", "b")
		show := feed.Station("demonstration", "live")
		show.Demonstration = true
		h.Event(message.Message{Station: show.Name, Body: show})
		allowed := map[string]bool{"a": true}
		l := look(t, h, Wish{Sees: func(s *message.Station) bool { return allowed[s.Name] }})
		all := look(t, h, Wish{})
		defer h.Leave(l.v)
		defer h.Leave(all.v)
		if w := l.next(); !slices.Equal(w.Names, []string{"a"}) || len(w.Sheets) != 1 {
			t.Errorf("the stations are %v, the sheets %v", w.Names, w.Sheets)
		}
		if w := all.next(); !slices.Equal(w.Names, []string{"a", "b"}) {
			t.Errorf("the stations are %v", w.Names)
		}
		fly(h, "b", 0, 20)
		if w := l.next(); w != nil && len(sheetOf(w, "b").Name) > 0 {
			t.Error("a station that may not be seen is sent")
		}
		allowed["b"] = true
		if w := l.next(); !slices.Equal(w.Names, []string{"a", "b"}) || len(parts(sheetOf(w, "b"))) != 5 {
			t.Errorf("the stations are %v, of the new one came %v", w.Names, parts(sheetOf(w, "b")))
		}
		delete(allowed, "a")
		if w := l.next(); !slices.Equal(w.Names, []string{"b"}) {
			t.Errorf("the stations are %v", w.Names)
		}
		h.Event(station("b", message.LinkGone))
		if w := l.next(); w.Names == nil || len(w.Names) != 0 {
			t.Errorf("the stations are %v after the last has left", w.Names)
		}
	})
}

// TestWallIsPaced: twenty messages a second at most, and none where nothing changes.
func TestWallIsPaced(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := New("1.2.3", zerolog.Nop())
		v, _ := h.Join(Wish{Wall: true}, 1)
		s := &fakeSink{}
		_, stop := start(t, v, s)
		defer stop()
		synctest.Wait()
		empty := len(s.wrote)
		<-time.After(3 * time.Second)
		synctest.Wait()
		if empty != 1 || len(s.wrote) != 1 {
			t.Errorf("an empty wall is sent %d times, and %d times in 3 s", empty, len(s.wrote))
		}
		arrive(h, "a")
		<-time.After(time.Second)
		synctest.Wait()
		before := len(s.wrote)
		for i := range 120 { // 2 s at 60 Hz
			h.Frame("a", feed.At(float64(i)/60, float64(i)/2, 0))
			<-time.After(time.Second / 60)
		}
		synctest.Wait()
		if n := len(s.wrote) - before; n < 36 || n > 41 {
			t.Errorf("%d messages in 2 s", n)
		}
	})
}

// TestWallLetsFramesCome: where many stations are live, their frames are needed while somebody looks at the wall.
func TestWallLetsFramesCome(t *testing.T) {
	h := New("1.2.3", zerolog.Nop())
	for i := range alwaysWatched + 1 {
		h.Event(station(fmt.Sprint(i), "live"))
	}
	if h.Watched("0") {
		t.Error("frames are made, and nobody looks")
	}
	v, _ := h.Join(Wish{Wall: true}, 10)
	if !h.Watched("0") {
		t.Error("no frames for the wall")
	}
	h.Leave(v)
	if h.Watched("0") {
		t.Error("frames are made after the viewer has left")
	}
}

// TestWallCostsNothingWithoutViewers: a frame of a station that nobody looks at is not encoded for the wall.
func TestWallCostsNothingWithoutViewers(t *testing.T) {
	h := New("1.2.3", zerolog.Nop())
	arrive(h, "a")
	fly(h, "a", 0, 20)
	found, _ := h.boards.Load("a")
	for p, data := range found.(*board).sheet.encoded {
		if data != nil {
			t.Errorf("the part %s is encoded", partNames[p])
		}
	}
}

// TestPausedIsNotLost: of a paused simulator no frames come, and its ticks are full.
func TestPausedIsNotLost(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := New("1.2.3", zerolog.Nop())
		arrive(h, "a", "b")
		l := look(t, h, Wish{})
		defer h.Leave(l.v)
		l.next()
		h.Event(station("a", "paused"))
		<-time.After(message.SheetTicks * tickLength)
		w := l.next()
		want := map[string]byte{"a": '9', "b": '0'}
		for name, level := range want {
			if got := sheetOf(w, name).Ticks; got[len(got)-1] != level || got[len(got)-5] != level {
				t.Errorf("the ticks of %s are %s", name, got)
			}
		}
	})
}
