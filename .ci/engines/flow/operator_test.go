package flow

import (
	"context"
	"errors"
	"strings"
	"sync"
	"testing"
	"time"

	"halfturn/engines/natsserver"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/flow/nats"
)

// A told list is what an operator reads of an engine.
type toldList struct {
	mu  sync.Mutex
	all []string
}

func (l *toldList) add(err error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.all = append(l.all, err.Error())
}

// with counts what says something.
func (l *toldList) with(words string) (n int) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, s := range l.all {
		if strings.Contains(s, words) {
			n++
		}
	}
	return n
}

func (l *toldList) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return strings.Join(l.all, "\n")
}

// heeded opens an engine of which all that it notes is read.
func heeded(t *testing.T, s nats.Settings, node string) (*nats.Engine, *toldList) {
	t.Helper()
	l := &toldList{}
	s.Node, s.Trouble = node, l.add
	e, err := nats.Open(t.Context(), s)
	must(t, err)
	t.Cleanup(func() { e.Close() })
	return e, l
}

// TestRights: a node whose user may not do something is told what, where, and what to do. Where it may not make streams
// it does not start.
func TestRights(t *testing.T) {
	t.Parallel()
	of := func(deny ...string) nats.Settings {
		s := settings(t, natsserver.Run(t, 1, func(c *natsserver.Config) {
			c.User, c.Pass, c.Deny = "node", "secret", deny
		}), 1, 1)
		s.Access = nats.Access{User: "node", Password: "secret"}
		return s
	}
	e, said := heeded(t, of("*.tell.>"), "north")
	e.Tell(flow.Live, "Seat 1", []byte("x"))
	until(t, "what the node may not do", func() bool { return said.with("") > 0 })
	says(t, "telling", errors.New(said.String()), "does not let this node publish to "+`"t`)
	says(t, "telling", errors.New(said.String()), "give its user the right")

	s := of("$JS.API.>")
	s.Node = "north"
	e, err := nats.Open(t.Context(), s)
	if err == nil {
		defer e.Close()
		ctx, cancel := context.WithTimeout(t.Context(), 3*time.Second)
		defer cancel()
		_, err = e.Make(ctx)
	}
	says(t, "making", err, "does not let this node publish to")
	says(t, "making", err, "give its user the right")
	if !errors.Is(err, nats.ErrRefused) {
		t.Errorf("%v; must be %q", err, nats.ErrRefused)
	}
}

// TestDiskFull: while the disk of the servers is full that is said once, and since when, until something is kept again.
func TestDiskFull(t *testing.T) {
	t.Parallel()
	urls := natsserver.Run(t, 1, func(c *natsserver.Config) { c.MaxStore = 4 << 20 })
	s := settings(t, urls, 1, 1)
	made(t, s)
	north, said := heeded(t, s, "north")
	l, err := north.Claim(t.Context(), flow.Lease{Station: "Seat 1"}, "s")
	must(t, err)
	ctx, cancel := context.WithTimeout(t.Context(), 6*time.Second)
	defer cancel()
	n := uint64(1)
	for ; err == nil; n++ {
		err = north.Keep(ctx, batch(l, n))
	}
	says(t, "a full disk", err, "the disk space of NATS at 127.0.0.1")
	if !errors.Is(err, flow.ErrAway) {
		t.Errorf("%v; must be %q", err, flow.ErrAway)
	}
	if north.Away().IsZero() || time.Since(north.Away()) < time.Second {
		t.Errorf("it is away since %v", north.Away())
	}
	if n := said.with("disk space"); n != 1 {
		t.Errorf("it is said %d times:\n%v", n, said)
	}
	must(t, north.Drop(t.Context(), "Seat 1", ""))
	must(t, north.Keep(t.Context(), batch(l, n)))
	until(t, "that the store answers", func() bool { return north.Away().IsZero() })
}

// TestSameName: two nodes of one name that could not ask each other when they started are told of each other.
func TestSameName(t *testing.T) {
	t.Parallel()
	s := settings(t, natsserver.Run(t, 1, nil), 1, 1)
	one, said := heeded(t, s, "north")
	other, _ := heeded(t, s, "north")
	until(t, "that there are two", func() bool {
		one.Tell(flow.Nodes, "", []byte("x"))
		other.Tell(flow.Nodes, "", []byte("x"))
		return said.with("another node called north is in the cluster") > 0
	})
}

// TestToldBeforeClose: what a node told before it left is heard: Tell returns before it is sent.
func TestToldBeforeClose(t *testing.T) {
	t.Parallel()
	s := settings(t, natsserver.Run(t, 1, nil), 1, 1)
	north, south := join(t, s, "north"), join(t, s, "south")
	var mu sync.Mutex
	heard := map[string]bool{}
	stop, err := south.Listen(flow.Live, "", func(told flow.Told) {
		mu.Lock()
		defer mu.Unlock()
		heard[string(told.Bytes)] = true
	})
	must(t, err)
	defer stop()
	has := func(what string) func() bool {
		return func() bool {
			mu.Lock()
			defer mu.Unlock()
			return heard[what]
		}
	}
	until(t, "that they hear each other", func() bool {
		north.Tell(flow.Live, "Seat 1", []byte("first"))
		return has("first")()
	})
	for range 1000 {
		north.Tell(flow.Live, "Seat 1", make([]byte, 2000))
	}
	north.Tell(flow.Live, "Seat 1", []byte("last"))
	must(t, north.Close())
	until(t, "what was told last", has("last"))
}

// TestMadeWhole: streams that were just made over three fresh servers are up to date when they are told of.
func TestMadeWhole(t *testing.T) {
	t.Parallel()
	s := settings(t, natsserver.Run(t, 3, nil), 16, 3)
	found, err := join(t, s, "north").Make(t.Context())
	must(t, err)
	if len(found.Streams) != 16 {
		t.Fatalf("%d streams; must be 16", len(found.Streams))
	}
	for _, one := range found.Streams {
		if !one.Made || one.Replicas != 3 || one.Behind != 0 {
			t.Errorf("%+v; must be made, with three replicas that are up to date", one)
		}
	}
}
