package live

import (
	"bytes"
	"context"
	"encoding/json"
	"net/netip"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/gorilla/websocket"
	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/coach/session"
	"halfturn/stream/ingest"
	"halfturn/stream/streamtest"
	"halfturn/web/cluster/flow/memory"
	"halfturn/web/desk"
)

// A published is what one server published itself, with when it did.
type published struct {
	next session.Output

	mu     sync.Mutex
	events []message.Message
	shown  []time.Time // events and frames
}

func (p *published) Event(m message.Message) {
	p.mu.Lock()
	p.events = append(p.events, m)
	p.shown = append(p.shown, time.Now())
	p.mu.Unlock()
	p.next.Event(m)
}

func (p *published) Frame(station string, f *coach.Frame) {
	p.mu.Lock()
	p.shown = append(p.shown, time.Now())
	p.mu.Unlock()
	p.next.Frame(station, f)
}

func (p *published) Watched(string) bool { return true }

// flownEvents lists what was said of the flight, and how it was judged: what a station says of itself depends on when
// it is asked.
func flownEvents(t *testing.T, all []message.Message) (list []string) {
	t.Helper()
	for _, m := range all {
		switch m.Type() {
		case message.TypeStation, message.TypeSession:
			continue
		}
		body, err := json.Marshal(m.Body)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, string(m.Type())+" "+string(body))
	}
	return list
}

// A clustered is a server that is a node, or a single one.
type clustered struct {
	*server
	out    *published
	engine *memory.Engine
	hears  ingest.Handler
}

// fixed says that datagrams are received at one address, as if the servers were one.
type fixed struct{ desk.Senders }

func (fixed) Addresses() []netip.AddrPort { return []netip.AddrPort{netip.MustParseAddrPort("192.0.2.1:7181")} }

// simulator is where the datagrams come from.
var simulator = netip.MustParseAddrPort("192.0.2.7:5000")

// join serves as a node of a store; nil is a single server.
func join(t *testing.T, store *memory.Store, name, data string) *clustered {
	t.Helper()
	c := &clustered{out: &published{}}
	o := Options{Config: config(t, "", data), Version: "1.2", Log: zerolog.New(zerolog.NewTestWriter(t))}
	o.Before = func(next session.Output) session.Output {
		c.out.next = next
		return c.out
	}
	if store != nil {
		c.engine = store.Join(name)
		o.Cluster = &Cluster{Name: name, Flow: c.engine}
	}
	ctx, cancel := context.WithCancel(t.Context())
	l, err := Start(ctx, o)
	if err != nil {
		cancel()
		t.Fatal(err)
	}
	done := make(chan error, 1)
	go func() { done <- l.Serve(ctx) }()
	stop := sync.OnceFunc(func() {
		if c.hears != nil {
			c.hears.End()
		}
		cancel()
		if err := <-done; err != nil {
			t.Error(err)
		}
		if c.engine != nil {
			if err := c.engine.Close(); err != nil {
				t.Error(err)
			}
		}
	})
	t.Cleanup(stop)
	c.server = &server{Server: l, data: data, stop: stop}
	l.desk.Attach(fixed{l.listener})
	return c
}

// hear has the server hear the simulator.
func (c *clustered) hear() { c.hears = c.heard()(simulator) }

// noon is when the first datagram comes.
var noon = time.Date(2031, 5, 4, 12, 0, 0, 0, time.UTC)

// at is when a datagram comes.
func at(i int) time.Time { return noon.Add(time.Duration(i) * 40 * time.Millisecond) }

// viewer reads what a page of a server is sent, until it is stopped.
func (c *clustered) viewer(t *testing.T, query string) (read func() []message.Message) {
	t.Helper()
	conn, _, err := websocket.DefaultDialer.DialContext(t.Context(),
		"ws"+strings.TrimPrefix(c.URL(), "http")+"live"+query, nil)
	if err != nil {
		t.Fatal(err)
	}
	var mu sync.Mutex
	var all []message.Message
	done := make(chan struct{})
	go func() {
		defer close(done)
		for {
			_, data, err := conn.ReadMessage()
			if err != nil {
				return
			}
			m, err := message.Decode(data)
			if err != nil {
				t.Error(err)
				return
			}
			mu.Lock()
			all = append(all, m)
			mu.Unlock()
		}
	}()
	t.Cleanup(func() {
		conn.Close()
		<-done
	})
	return func() []message.Message {
		mu.Lock()
		defer mu.Unlock()
		return slices.Clone(all)
	}
}

// recorded is all files of the only session in a data directory, by their names.
func recorded(t *testing.T, data string) (id string, files map[string][]byte) {
	t.Helper()
	dirs, err := filepath.Glob(filepath.Join(data, "sessions", "*"))
	if err != nil || len(dirs) != 1 {
		t.Fatalf("sessions %v, %v; must be one", dirs, err)
	}
	names, _ := filepath.Glob(filepath.Join(dirs[0], "*.pcapng"))
	files = map[string][]byte{}
	for _, name := range names {
		if files[filepath.Base(name)], err = os.ReadFile(name); err != nil {
			t.Fatal(err)
		}
	}
	return filepath.Base(dirs[0]), files
}

// TestTakeover: the node that coaches is cut off in the middle of a leg. The other one, which hears the same datagrams,
// goes on: it says and judges what a single server does that nothing happens to, nothing twice and nothing not at all,
// within 2 s, and has the same recording to the byte.
func TestTakeover(t *testing.T) {
	list := streamtest.Payloads(t, flight)
	single := join(t, nil, "", t.TempDir())
	store := memory.New()
	a, b := join(t, store, "a", t.TempDir()), join(t, store, "b", t.TempDir())
	read := b.viewer(t, "?station="+simulator.String())
	single.hear()
	a.hear()
	cut := len(list) / 2
	for i, datagram := range list[:cut] {
		single.hears.Datagram(datagram, at(i))
		a.hears.Datagram(datagram, at(i))
		if b.hears != nil {
			b.hears.Datagram(datagram, at(i))
		} else if len(a.out.list()) > 0 {
			b.hear()
		}
		switch {
		case b.hears == nil:
			<-time.After(20 * time.Millisecond)
		case i%50 == 0:
			<-time.After(10 * time.Millisecond)
		}
	}
	if n := len(b.out.list()); n > 0 || b.hears == nil {
		t.Fatalf("b published %d events while a coaches, which has %d", n, len(a.out.list()))
	}
	a.engine.Cut(true)
	began := time.Now()
	i := cut
	for ; len(b.out.list()) == 0; i++ {
		if i == len(list) {
			t.Fatal("b does not take over")
		}
		single.hears.Datagram(list[i], at(i))
		b.hears.Datagram(list[i], at(i))
		<-time.After(5 * time.Millisecond)
	}
	gap := time.Since(began)
	t.Logf("b goes on after %v, at datagram %d of %d", gap, i, len(list))
	if gap > 2*time.Second {
		t.Errorf("nothing is said for %v", gap)
	}
	for ; i < len(list); i++ {
		single.hears.Datagram(list[i], at(i))
		b.hears.Datagram(list[i], at(i))
	}
	single.hears.End()
	b.hears.End()
	single.hears, b.hears = nil, nil

	want := flownEvents(t, single.out.list())
	got := append(flownEvents(t, a.out.list()), flownEvents(t, b.out.list())...)
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("what is published differs (-single +cluster):\n%s", d)
	}
	if len(a.out.list()) == 0 || len(flownEvents(t, b.out.list())) == 0 {
		t.Error("one of the nodes published nothing")
	}
	id, alone := recorded(t, single.data)
	other, taken := recorded(t, b.data)
	if id != other {
		t.Errorf("session %s; must be %s", other, id)
	}
	for name, data := range alone {
		if !bytes.Equal(data, taken[name]) {
			t.Errorf("%s: %d bytes; must be the same %d bytes", name, len(taken[name]), len(data))
		}
	}
	seen := map[string]int{}
	last := uint64(0)
	for _, m := range read() {
		if m.Seq == 0 || m.Type() == message.TypeHello {
			continue
		}
		if last > 0 && m.Seq != last+1 {
			t.Errorf("after event %d comes %d", last, m.Seq)
		}
		last = m.Seq
		for _, e := range flownEvents(t, []message.Message{m}) {
			seen[e]++
		}
	}
	once := map[string]int{}
	for _, e := range want {
		once[e]++
	}
	for e, n := range once {
		if seen[e] != n && !strings.HasPrefix(e, "plan ") { // the first one comes in the hello
			t.Errorf("a page of b got %d times, and must get %d: %.100s", seen[e], n, e)
		}
	}
}

// list is what was published so far.
func (p *published) list() []message.Message {
	p.mu.Lock()
	defer p.mu.Unlock()
	return slices.Clone(p.events)
}
