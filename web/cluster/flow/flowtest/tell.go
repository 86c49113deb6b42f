package flowtest

import (
	"encoding/binary"
	"fmt"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/web/cluster/flow"
)

// until waits for something that comes by itself.
func until(t *testing.T, what string, is func() bool) {
	t.Helper()
	for late := time.After(patience); !is(); {
		select {
		case <-time.After(5 * time.Millisecond):
		case <-late:
			t.Fatalf("missing: %s", what)
		}
	}
}

// An ear notes what it hears.
type ear struct {
	stop func()

	mu    sync.Mutex
	heard []string // NODE TOPIC STATION BYTES
	noise bool     // was heard
}

// noise is told until a way between two nodes is open.
const noise = "is anybody there"

func listen(t *testing.T, e flow.Engine, topic flow.Topic, station string) *ear {
	t.Helper()
	out := &ear{}
	var err error
	out.stop, err = e.Listen(topic, station, func(told flow.Told) {
		out.mu.Lock()
		defer out.mu.Unlock()
		if string(told.Bytes) == noise {
			out.noise = true
			return
		}
		out.heard = append(out.heard, fmt.Sprintf("%s %s %s %s", told.Node, told.Topic, told.Station, told.Bytes))
	})
	must(t, err)
	return out
}

// opened waits until what a node tells arrives: at most once, so that what is told before may be gone.
func (r *ear) opened(t *testing.T, from flow.Engine, topic flow.Topic, station string) {
	t.Helper()
	until(t, "what is told", func() bool {
		from.Tell(topic, station, []byte(noise))
		r.mu.Lock()
		defer r.mu.Unlock()
		return r.noise
	})
}

func (r *ear) all() []string {
	r.mu.Lock()
	defer r.mu.Unlock()
	return append([]string{}, r.heard...)
}

// hears checks what was heard, once it is as long as what must be.
func (r *ear) hears(t *testing.T, what ...string) {
	t.Helper()
	until(t, fmt.Sprintf("%q; heard: %q", what, r.all()), func() bool { return len(r.all()) >= len(what) })
	if d := cmp.Diff(what, r.all()); d != "" {
		t.Errorf("(-told +heard):\n%s", d)
	}
}

// What is told reaches the other nodes that listen, whatever becomes of the bytes, and not the one that tells it.
func testTold(t *testing.T, join Joiner) {
	north, south, west := join("north"), join("south"), join("west")
	own, ears := listen(t, north, flow.Live, ""), []*ear{
		listen(t, south, flow.Live, ""), listen(t, west, flow.Live, ""), listen(t, west, flow.Live, "Seat 1")}
	for _, r := range ears {
		r.opened(t, north, flow.Live, "Seat 1")
	}
	b := []byte("one")
	north.Tell(flow.Live, "Seat 1", b)
	copy(b, "two")
	north.Tell(flow.Live, "Seat 1", b)
	for _, r := range ears {
		r.hears(t, "north live Seat 1 one", "north live Seat 1 two")
	}
	if got := own.all(); len(got) > 0 {
		t.Errorf("a node hears itself: %q", got)
	}
}

// Who listens to a topic, or a station, hears that and nothing else.
func testToldApart(t *testing.T, join Joiner) {
	north, south := join("north"), join("south")
	for i, name := range names {
		if name == "" {
			continue // listens to all
		}
		one := listen(t, south, flow.Events, name)
		one.opened(t, north, flow.Events, name)
		for _, other := range names {
			north.Tell(flow.Events, other, []byte("x"))
		}
		north.Tell(flow.Frames, name, []byte("frame"))
		north.Tell(flow.Events, name, fmt.Append(nil, i))
		one.hears(t, fmt.Sprintf("north events %s x", name), fmt.Sprintf("north events %s %d", name, i))
		one.stop()
	}
	all := listen(t, south, flow.Nodes, "")
	all.opened(t, north, flow.Nodes, "")
	var said []string
	for _, name := range names {
		north.Tell(flow.Nodes, name, []byte("x"))
		said = append(said, fmt.Sprintf("north nodes %s x", name))
	}
	all.hears(t, said...)
}

// What a node tells is heard in its order.
func testToldInOrder(t *testing.T, join Joiner) {
	north, south, west := join("north"), join("south"), join("west")
	const many = 500
	last, done := map[string]uint64{}, make(chan string, 2)
	stop, err := west.Listen(flow.Live, "", func(told flow.Told) {
		if len(told.Bytes) != 8 {
			return // noise
		}
		n := binary.BigEndian.Uint64(told.Bytes)
		if n <= last[told.Node] {
			t.Errorf("%s: %d after %d", told.Node, n, last[told.Node])
		}
		if last[told.Node] = n; n == many {
			done <- told.Node
		}
	})
	must(t, err)
	defer stop()
	for _, e := range []flow.Engine{north, south} {
		r := listen(t, west, flow.Live, "")
		r.opened(t, e, flow.Live, "")
		r.stop()
	}
	var tellers sync.WaitGroup
	for _, e := range []flow.Engine{north, south} {
		tellers.Go(func() {
			for n := range uint64(many) {
				e.Tell(flow.Live, fmt.Sprint("Seat ", n%7), binary.BigEndian.AppendUint64(nil, n+1))
			}
		})
	}
	tellers.Wait()
	for range 2 {
		select {
		case <-done:
		case <-soon(t).Done():
			t.Fatal("the last that a node tells is not heard")
		}
	}
}

// After stop nothing is heard, and another goes on hearing.
func testStop(t *testing.T, join Joiner) {
	north, south := join("north"), join("south")
	stopped, other := listen(t, south, flow.Live, ""), listen(t, south, flow.Live, "")
	stopped.opened(t, north, flow.Live, "")
	other.opened(t, north, flow.Live, "")
	stopped.stop()
	stopped.stop()
	before := len(stopped.all())
	north.Tell(flow.Live, "", []byte("x"))
	other.hears(t, "north live  x")
	if got := stopped.all()[before:]; len(got) > 0 {
		t.Errorf("heard after stop: %q", got)
	}
}

// A listener that is too slow loses what comes, keeps nobody else waiting, and hears again once it has caught up.
func testSlow(t *testing.T, join Joiner) {
	north, south := join("north"), join("south")
	quick := listen(t, south, flow.Live, "")
	quick.opened(t, north, flow.Live, "")
	held, heard := make(chan struct{}), make(chan string, 1<<20)
	stop, err := south.Listen(flow.Live, "", func(told flow.Told) {
		<-held
		if len(told.Bytes) < 100 {
			heard <- string(told.Bytes)
		}
	})
	must(t, err)
	defer stop()
	long := make([]byte, 100_000)
	for range 200 { // more than waits for a listener
		north.Tell(flow.Live, "Seat 1", long)
	}
	until(t, "what comes after it, at the other listener", func() bool {
		north.Tell(flow.Live, "Seat 1", []byte("after"))
		all := quick.all()
		return len(all) > 0 && strings.HasSuffix(all[len(all)-1], "after")
	})
	close(held)
	until(t, "what comes later", func() bool {
		north.Tell(flow.Live, "Seat 1", []byte("later"))
		for {
			select {
			case s := <-heard:
				if s == "later" {
					return true
				}
			default:
				return false
			}
		}
	})
}

// What nobody hears is gone, also for who listens later.
func testToldInVain(t *testing.T, join Joiner) {
	north, south := join("north"), join("south")
	for range 100 {
		north.Tell(flow.Live, "Seat 1", []byte("in vain"))
	}
	first := listen(t, south, flow.Events, "")
	first.opened(t, north, flow.Events, "") // the node's others have arrived before
	later := listen(t, south, flow.Live, "Seat 1")
	until(t, "what is told afterwards", func() bool {
		north.Tell(flow.Live, "Seat 1", []byte("heard"))
		return len(later.all()) > 0
	})
	if got := later.all()[0]; got != "north live Seat 1 heard" {
		t.Errorf("heard: %q", got)
	}
}
