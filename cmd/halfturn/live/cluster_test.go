package live

import (
	"context"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"net/netip"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/gorilla/websocket"
	"github.com/rs/zerolog"

	"halfturn/cmd/halfturn/cmdtest"
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
		// Told by its hash, as a leg is long.
		list = append(list, fmt.Sprintf("%s %.100s %x", m.Type(), body, sha256.Sum256(body)))
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

// fixed says that datagrams are received at one address, as if the servers were one, and brings requests to the
// handler of the simulator.
type fixed struct {
	desk.Senders
	to *clustered
}

func (f fixed) Send(_ context.Context, _ netip.AddrPort, r ingest.Request) error {
	if f.to.hears == nil {
		return ingest.ErrNotThere
	}
	f.to.hears.Take(r)
	return nil
}

func (fixed) Addresses() []netip.AddrPort {
	return []netip.AddrPort{netip.MustParseAddrPort("192.0.2.1:7181")}
}

// simulator is where the datagrams come from.
var simulator = netip.MustParseAddrPort("192.0.2.7:5000")

// join serves as a node of a store; nil is a single server.
func join(t *testing.T, store *memory.Store, name, data string, how ...func(*Options)) *clustered {
	t.Helper()
	c := &clustered{out: &published{}}
	o := Options{Config: config(t, "", data), Version: "1.2", Log: zerolog.New(zerolog.NewTestWriter(t))}
	o.Config.Recording.Compress = false
	o.Before = func(next session.Output) session.Output {
		c.out.next = next
		return c.out
	}
	if store != nil {
		c.engine = store.Join(name)
		o.Cluster = &Cluster{Name: name, Flow: c.engine}
	}
	for _, change := range how {
		change(&o)
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
	l.desk.Attach(fixed{l.listener, c})
	return c
}

// brief has a node end sessions that nobody flies after a second.
func brief(o *Options) {
	o.Config.Idle.Duration = time.Second
	o.Cluster.Times.Idle = time.Second
}

// hear has the server hear the simulator.
func (c *clustered) hear() { c.hears = &serially{of: c.heard()(simulator)} }

// serially calls a handler for one thing at a time, as the goroutine of its sender does.
type serially struct {
	mu sync.Mutex
	of ingest.Handler
}

func (s *serially) Datagram(b []byte, received time.Time) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.of.Datagram(b, received)
}

func (s *serially) Take(r ingest.Request) (ends bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.of.Take(r)
}

func (s *serially) Tick(now time.Time) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.of.Tick(now)
}

func (s *serially) End() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.of.End()
}

// noon is when the first datagram comes: about now, as a session that waits for its station ends when the clock says
// that it has waited for too long.
var noon = time.Now().UTC().Truncate(time.Second)

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

// stationID is the id that a server gives a station it does not know: at random.
var stationID = regexp.MustCompile(`"stationId":"[^"]*"`)

// recorded is all files of the only session in a data directory, by their names.
func recorded(t *testing.T, data string) (id string, files map[string][]byte) {
	t.Helper()
	dirs, err := filepath.Glob(filepath.Join(data, "sessions", "*"))
	if err != nil || len(dirs) != 1 {
		t.Fatalf("sessions %v, %v; must be one", dirs, err)
	}
	names, _ := filepath.Glob(filepath.Join(dirs[0], "stream-*.pcapng"))
	files = map[string][]byte{}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		files[filepath.Base(name)] = stationID.ReplaceAll(data, []byte(`"stationId":""`))
	}
	return filepath.Base(dirs[0]), files
}

// A drill is two nodes that hear a simulator, and a single server beside them that hears the same.
type drill struct {
	*testing.T
	store        *memory.Store
	single, a, b *clustered
	datagrams    [][]byte
	next         int
}

// newDrill flies until b hears what a coaches, and then up to the middle of the recording.
func newDrill(t *testing.T, a, b string, how ...func(*Options)) *drill {
	d := &drill{T: t, store: memory.New(), datagrams: streamtest.Payloads(t, flight)}
	d.single = join(t, nil, "", t.TempDir())
	d.a, d.b = join(t, d.store, "a", a, how...), join(t, d.store, "b", b, how...)
	d.single.hear()
	d.a.hear()
	d.flyUntil("a to coach", func() bool { return len(d.a.out.list()) > 0 }, d.a)
	d.b.hear()
	d.fly(len(d.datagrams)/2, d.a, d.b)
	if n := len(d.b.out.list()); n > 0 {
		t.Fatalf("b published %d events while a coaches", n)
	}
	return d
}

// send has the next datagram heard.
func (d *drill) send(by ...*clustered) {
	d.Helper()
	if d.next == len(d.datagrams) {
		d.Fatal("the recording is over")
	}
	for _, c := range append(by, d.single) {
		c.hears.Datagram(d.datagrams[d.next], at(d.next))
	}
	d.next++
}

// fly sends up to a datagram, as fast as the record is told and kept.
func (d *drill) fly(to int, by ...*clustered) {
	d.Helper()
	for d.next < to {
		if d.send(by...); d.next%50 == 0 {
			<-time.After(10 * time.Millisecond)
		}
	}
}

// flyUntil sends slowly until something has happened.
func (d *drill) flyUntil(what string, happened func() bool, by ...*clustered) {
	d.Helper()
	for began := time.Now(); !happened(); {
		if time.Since(began) > cmdtest.Patience {
			d.Fatalf("waited for %s", what)
		}
		d.send(by...)
		<-time.After(10 * time.Millisecond)
	}
}

// end flies the rest of the recording and ends the sessions.
func (d *drill) end(by *clustered) {
	d.Helper()
	d.fly(len(d.datagrams), by)
	for _, c := range []*clustered{d.single, by} {
		c.hears.End()
		c.hears = nil
	}
}

// same checks that the nodes published together what the single server did, and that one has its recording.
func (d *drill) same(by *clustered) {
	d.Helper()
	want := flownEvents(d.T, d.single.out.list())
	first, second := flownEvents(d.T, d.a.out.list()), flownEvents(d.T, d.b.out.list())
	if diff := cmp.Diff(want, slices.Concat(first, second)); diff != "" {
		d.Errorf("what is published differs (-single +cluster):\n%s", diff)
	}
	if len(first) == 0 || len(second) == 0 {
		d.Errorf("a published %d events and b %d", len(first), len(second))
	}
	d.sameRecord(by)
}

// once checks that a page got every event of the flight once and in its order, behind the hello.
func (d *drill) once(got []message.Message) {
	d.Helper()
	seen, last := map[string]int{}, uint64(0)
	for _, m := range got {
		if m.Type() == message.TypeHello {
			last = m.Seq
		} else if m.Seq > 0 {
			if last > 0 && m.Seq != last+1 {
				d.Errorf("after event %d comes %d", last, m.Seq)
			}
			last = m.Seq
		}
		for _, e := range flownEvents(d.T, []message.Message{m}) {
			seen[e]++
		}
	}
	want := map[string]int{}
	for _, e := range flownEvents(d.T, d.single.out.list()) {
		want[e]++
	}
	for e, n := range want {
		if seen[e] != n && !strings.HasPrefix(e, "plan ") { // the first one comes in the hello
			d.Errorf("a page got %d times, and must get %d: %.100s", seen[e], n, e)
		}
	}
}

// list is what was published so far.
func (p *published) list() []message.Message {
	p.mu.Lock()
	defer p.mu.Unlock()
	return slices.Clone(p.events)
}
