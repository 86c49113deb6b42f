package node

import (
	"context"
	"errors"
	"net/netip"
	"os"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/rs/zerolog"
	"go.uber.org/goleak"

	"halfturn/coach/command"
	"halfturn/coach/message"
	"halfturn/coach/playback"
	"halfturn/coach/who"
	"halfturn/stream/ingest"
	"halfturn/stream/phrase"
	"halfturn/web"
	"halfturn/web/cluster/flow/memory"
	"halfturn/web/desk/practice"
	"halfturn/web/hub"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// A fakeDesk notes what it is asked, and has no stations of its own.
type fakeDesk struct {
	web.Desk

	follow  func(playback.Opening) (Followed, error) // nil: nothing is followed
	station func() ingest.Handler                    // nil: none is made

	mu   sync.Mutex
	done []command.Kind
}

func (f *fakeDesk) Do(_ context.Context, c command.Command) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.done = append(f.done, c.Kind())
	if c.Kind() == command.KindPrivate {
		return phrase.NotAllowed.Error()
	}
	return nil
}

func (f *fakeDesk) Legs(context.Context, string) (any, bool)      { return map[string]int{"legs": 2}, true }
func (f *fakeDesk) Probe(context.Context, string) (any, bool)     { return nil, false }
func (f *fakeDesk) NameOf(a netip.AddrPort) (name string, _ bool) { return a.String(), false }
func (f *fakeDesk) Abandon(string) string                         { return "" }

func (f *fakeDesk) Station(netip.AddrPort) ingest.Handler {
	if f.station == nil {
		return nil
	}
	return f.station()
}

func (f *fakeDesk) Follow(o playback.Opening) (Followed, error) {
	if f.follow == nil {
		return nil, errors.New("nothing is followed here")
	}
	return f.follow(o)
}

// Folders that are moved aside are there then, and nothing is in them.
type fakeFolders struct{}

func (fakeFolders) Aside(_, to string) error { return os.MkdirAll(to, 0o750) }

// A fakeFollowed notes what is played of the session s.
type fakeFollowed struct {
	mu     sync.Mutex
	played string
	enters func() // what ends the session, or goes on with it
}

func (f *fakeFollowed) Datagram(d *practice.Datagram, _ bool) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.played += string(d.Bytes)
}

func (f *fakeFollowed) heard() string {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.played
}

func (f *fakeFollowed) Over(time.Time) bool { return false }
func (f *fakeFollowed) Abandon() string     { return "s" }

func (f *fakeFollowed) GoOn(time.Time) error {
	f.enters()
	return nil
}

func (f *fakeFollowed) End() error {
	f.enters()
	return nil
}

// A rig is a node without a server.
type rig struct {
	*Node
	hub    *hub.Hub
	desk   *fakeDesk
	engine *memory.Engine
}

// newRig runs a node that has links of stations at home.
func newRig(t *testing.T, store *memory.Store, name string, linked ...string) *rig {
	t.Helper()
	return rigWith(t, store, name, func(o *Options) { o.Linked = func() []string { return linked } })
}

// rigWith runs a node with options of its own.
func rigWith(t *testing.T, store *memory.Store, name string, change func(*Options)) *rig {
	t.Helper()
	r := &rig{hub: hub.New("1", zerolog.Nop()), desk: &fakeDesk{}, engine: store.Join(name)}
	o := Options{
		Name:    name,
		Flow:    r.engine,
		Hub:     r.hub,
		Data:    t.TempDir(),
		Folders: fakeFolders{},
		Refuse:  func(ingest.Request) {},
		Times:   Times{Beat: 20 * time.Millisecond, Dead: 500 * time.Millisecond},
		Log:     zerolog.Nop(),
	}
	change(&o)
	n, err := New(o)
	if err != nil {
		t.Fatal(err)
	}
	r.Node = n
	n.Attach(r.desk)
	ctx, stop := context.WithCancel(t.Context())
	done := make(chan struct{})
	go func() {
		defer close(done)
		n.Run(ctx)
	}()
	t.Cleanup(func() {
		stop()
		<-done
		n.Close()
		if err := r.engine.Close(); err != nil {
			t.Error(err)
		}
	})
	return r
}

// until waits until something is so; otherwise says what is instead.
func until(t *testing.T, is func() bool, otherwise func() string) {
	t.Helper()
	for began := time.Now(); !is(); <-time.After(5 * time.Millisecond) {
		if time.Since(began) > 30*time.Second {
			t.Fatalf("waited 30s: %s", otherwise())
		}
	}
}

// live is a station that is there.
func live(name, student string) *message.Station {
	return &message.Station{Name: name, Link: "live", Student: student}
}

// TestLinked: a station at home that has a link to one node is shown on the other, which asks the first one to do what
// is to be done there, and tells it who watches; the first one does nothing that may have been asked for long ago. When
// its link ends there and another one is made here, it is not gone.
func TestLinked(t *testing.T) {
	store := memory.New()
	a := newRig(t, store, "a", "Home")
	b := newRig(t, store, "b")
	until(t, func() bool { return b.elsewhere("Home") == "a" }, func() string { return "b hears nothing of a" })
	out := a.Output(a.hub)
	out.Event(message.Message{Station: "Home", Seq: 1, Body: live("Home", "")})
	out.Event(message.Message{Station: "Home", Seq: 2, Body: live("Home", "Ada Example")})
	shown := func(r *rig) string {
		for _, s := range r.hub.Stations() {
			if s.Name == "Home" {
				return s.Link + " " + s.Student
			}
		}
		return "none"
	}
	until(t, func() bool { return shown(b) == "live Ada Example" },
		func() string { return "b shows " + shown(b) })

	desk := b.Wrap(&fakeDesk{})
	ask := func(action command.Action) error {
		return desk.Do(t.Context(), command.New("1", time.Now(), "Home", who.Owner(), action))
	}
	a.listenFirst(time.Now()) // as after it stood still: what is asked of it then may be old
	mute := phrase.StationMute.Error(phrase.Name("station", "Home")).Error()
	if err := ask(command.Private{}); err == nil || err.Error() != mute {
		t.Errorf("a stood still: %v; must be %s", err, mute)
	}
	a.hearsAgain(t)
	if err := ask(command.Student{Name: "Bo Example"}); err != nil {
		t.Error(err)
	}
	if err := ask(command.Private{On: true}); err == nil || err.Error() != phrase.NotAllowed.Error().Error() {
		t.Errorf("what a refuses: %v", err)
	}
	a.desk.mu.Lock()
	if !slices.Equal(a.desk.done, []command.Kind{command.KindStudent, command.KindPrivate}) {
		t.Errorf("a was asked for %v", a.desk.done)
	}
	a.desk.mu.Unlock()
	if _, ok := desk.Legs(t.Context(), "Home"); !ok {
		t.Error("b has no legs of the station")
	}
	if _, ok := desk.Probe(t.Context(), "Home"); ok {
		t.Error("b has a probe of the station, which a has not")
	}

	eve := who.Who{ID: "e", Name: "Eve Example"}
	v, _ := b.hub.Join(hub.Wish{Station: "Home", Who: eve, Other: true}, 10)
	defer b.hub.Leave(v)
	until(t, func() bool {
		w := a.audience()["Home"]
		return w != nil && slices.Equal(w.Watchers, []who.Who{eve})
	}, func() string { return "a does not know who watches" })

	gone := live("Home", "")
	gone.Link = message.LinkGone
	b.Output(b.hub).Event(message.Message{Station: "Home", Seq: 9, Body: gone})
	if got := shown(b); got != "live Ada Example" {
		t.Errorf("b shows %q of a station that another node has", got)
	}
}

// TestMissed: events that were lost between two nodes are asked for, and a node that was not there shows all there is.
func TestMissed(t *testing.T) {
	store := memory.New()
	a, b := newRig(t, store, "a", "Home"), newRig(t, store, "b")
	out := a.Output(a.hub)
	tell := func(n uint64) {
		out.Event(message.Message{Station: "Home", Seq: n, Body: live("Home", string(rune('A'+n)))})
	}
	same := func(r *rig) bool {
		run, seq, _ := a.hub.Latest("Home")
		other, at, _ := r.hub.Latest("Home")
		return run == other && seq == at
	}
	tell(1)
	until(t, func() bool { return same(b) }, func() string { return "b shows nothing" })
	b.engine.Cut(true)
	tell(2)
	tell(3)
	b.engine.Cut(false)
	tell(4)
	until(t, func() bool { return same(b) }, func() string { return "b misses events" })
	run, _, _ := a.hub.Latest("Home")
	if got, ok := b.hub.Since("Home", run, 1); !ok || len(got) != 3 {
		t.Errorf("b has %d of the events after the first; must have 3", len(got))
	}
	c := newRig(t, store, "c")
	until(t, func() bool { return c.elsewhere("Home") == "a" }, func() string { return "c hears nothing of a" })
	tell(5)
	until(t, func() bool { return same(c) }, func() string { return "c misses events" })
}

// TestForgotten: of a station that was only looked at nothing is kept; of one that is shown, what is known stays.
func TestForgotten(t *testing.T) {
	a := newRig(t, memory.New(), "a", "Home")
	a.Output(a.hub).Event(message.Message{Station: "Home", Seq: 1, Body: live("Home", "")})
	a.station("junk")
	a.forget()
	if a.known("junk") != nil || a.known("Home") == nil {
		t.Errorf("of junk is known %v, of Home %v", a.known("junk"), a.known("Home"))
	}
}
