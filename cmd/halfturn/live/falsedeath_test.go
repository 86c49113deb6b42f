package live

import (
	"bytes"
	"context"
	"fmt"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/cmd/halfturn/cmdtest"
	"halfturn/stream/streamtest"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/flow/memory"
)

// A hardOfHearing engine loses signs of life, and holds up claims.
type hardOfHearing struct {
	flow.Engine

	mu     sync.Mutex
	deaf   bool
	claims chan struct{} // claims wait until it is closed; nil: they do not
}

func (h *hardOfHearing) set(deaf bool, claims chan struct{}) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.deaf, h.claims = deaf, claims
}

func (h *hardOfHearing) Listen(topic flow.Topic, station string, take func(flow.Told)) (stop func(), err error) {
	return h.Engine.Listen(topic, station, func(t flow.Told) {
		h.mu.Lock()
		lost := h.deaf && topic == flow.Nodes
		h.mu.Unlock()
		if !lost {
			take(t)
		}
	})
}

func (h *hardOfHearing) Claim(ctx context.Context, after flow.Lease, session string) (flow.Lease, error) {
	h.mu.Lock()
	claims := h.claims
	h.mu.Unlock()
	if claims != nil {
		<-claims
		ctx = context.WithoutCancel(ctx)
	}
	return h.Engine.Claim(ctx, after, session)
}

// newFalseDrill flies to the middle of the recording with a node b that is hard of hearing.
func newFalseDrill(t *testing.T) (*drill, *hardOfHearing) {
	t.Helper()
	d := &drill{T: t, store: memory.New(), datagrams: streamtest.Payloads(t, flight)}
	h := &hardOfHearing{}
	d.single, d.a = join(t, nil, "", t.TempDir()), join(t, d.store, "a", t.TempDir())
	d.b = join(t, d.store, "b", t.TempDir(), func(o *Options) {
		h.Engine = o.Cluster.Flow
		o.Cluster.Flow = h
	})
	d.single.hear()
	d.a.hear()
	d.flyUntil("a to coach", func() bool { return len(d.a.out.list()) > 0 }, d.a)
	d.b.hear()
	d.fly(len(d.datagrams)/2, d.a, d.b)
	return d, h
}

// TestTakenForDead: a node is taken for dead that is not, and the other one has its lease: it leaves the station to
// that one. The recording is that of a single server.
func TestTakenForDead(t *testing.T) {
	d, h := newFalseDrill(t)
	h.set(true, nil)
	d.flyUntil("b to have the lease", func() bool { return d.b.lease(t).Node == "b" }, d.a, d.b)
	h.set(false, nil)
	d.flyUntil("a to leave the session", func() bool { return d.a.left(t) == 1 }, d.a, d.b)
	d.a.hears.End()
	d.a.hears = nil
	d.alone()
	d.end(d.b)
	d.sameRecord(d.b)
}

// TestClaimInFlight: a node takes another one for dead that is not, and finds out while its claim is on the way. It
// leaves the station again. Its claim is written all the same; the other one, which coaches all the while, takes the
// lease again. What it says and records is what a single server does.
func TestClaimInFlight(t *testing.T) {
	d, h := newFalseDrill(t)
	before := d.a.lease(t)
	claims := make(chan struct{})
	h.set(true, claims)
	coaches := func() bool { return len(flownEvents(t, d.b.out.list())) > 0 }
	d.flyUntil("b to take over", coaches, d.a, d.b)
	h.set(false, claims)
	d.flyUntil("b to leave the session", func() bool { return d.b.left(t) == 1 }, d.a, d.b)
	h.set(false, nil)
	close(claims)
	d.flyUntil("b to have the lease", func() bool { return d.b.lease(t).Fence > before.Fence }, d.a, d.b)
	d.flyUntil("a to have the lease again", func() bool { return d.b.lease(t).Node == "a" }, d.a, d.b)
	said := len(flownEvents(t, d.b.out.list()))
	d.fly(len(d.datagrams), d.a, d.b)
	d.b.hears.End()
	d.single.hears.End()
	d.b.hears, d.single.hears = nil, nil
	cmdtest.Until(t, func() bool { return len(d.a.node.HeardBy(simulator.String())) == 0 },
		func() string { return "b hears the station still" })
	d.a.hears.End()
	d.a.hears = nil
	if diff := cmp.Diff(flownEvents(t, d.single.out.list()), flownEvents(t, d.a.out.list())); diff != "" {
		t.Errorf("what is published differs (-single +a):\n%s", diff)
	}
	if n := len(flownEvents(t, d.b.out.list())); n > said {
		t.Errorf("b publishes %d events after it has left the session", n-said)
	}
	d.sameRecord(d.a)
	if d.a.left(t) > 0 {
		t.Error("a left the session meanwhile")
	}
	cmdtest.Until(t, func() bool { return d.b.lease(t).Session == "" },
		func() string { return "the session is not over: its record is not kept to the end" })
}

// left is how many stations a node has left to another one. It may follow their sessions again at once.
func (c *clustered) left(t *testing.T) (n int) {
	t.Helper()
	_, after, _ := strings.Cut(cmdtest.Get(t, c.URL()+"metrics"), "\nhalfturn_cluster_fenced_total ")
	if _, err := fmt.Sscan(after, &n); err != nil {
		t.Fatal(err)
	}
	return n
}

// sameRecord checks that a node has the recording of the single server.
func (d *drill) sameRecord(by *clustered) {
	d.Helper()
	id, alone := recorded(d.T, d.single.data)
	other, taken := recorded(d.T, by.data)
	if id != other {
		d.Errorf("session %s; must be %s", other, id)
	}
	for name, data := range alone {
		if !bytes.Equal(data, taken[name]) {
			d.Errorf("%s: %d bytes; must be the same %d bytes", name, len(taken[name]), len(data))
		}
	}
}
