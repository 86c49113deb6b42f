package flow

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/nats-io/nats.go"
	"github.com/nats-io/nats.go/jetstream"

	"halfturn/engines/natsserver"
	"halfturn/web/cluster/flow"
	"halfturn/web/share/link"
)

// patience is how long something may take that must happen: a JetStream leader that is killed is replaced after 4 to 9
// seconds on an idle machine.
const patience = 60 * time.Second

func must(t testing.TB, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

func until(t testing.TB, what string, is func() bool) {
	t.Helper()
	for late := time.After(patience); !is(); {
		select {
		case <-time.After(20 * time.Millisecond):
		case <-late:
			t.Fatalf("missing: %s", what)
		}
	}
}

// leader is the server that answers for the only stream of a cluster.
func leader(t testing.TB, p *natsserver.Processes, prefix string) int {
	t.Helper()
	c, err := nats.Connect(p.URLs()[0], nats.MaxReconnects(-1))
	must(t, err)
	defer c.Close()
	js, err := jetstream.New(c)
	must(t, err)
	name := ""
	until(t, "a leader of the stream", func() bool {
		ctx, cancel := context.WithTimeout(context.Background(), 2*time.Second)
		defer cancel()
		s, err := js.Stream(ctx, prefix+"-st-00")
		if err == nil && s.CachedInfo().Cluster != nil {
			name = s.CachedInfo().Cluster.Leader
		}
		return name != ""
	})
	return p.Named(name)
}

// A keeper keeps the batches of a station as a node does, without a pause.
type keeper struct {
	station string
	acked   atomic.Uint64 // the number of the last that Keep said to be there
	longest time.Duration // that one took
}

func (k *keeper) run(ctx context.Context, t *testing.T, e flow.Engine) {
	l, err := e.Claim(t.Context(), flow.Lease{Station: k.station}, "s")
	if err != nil {
		t.Error(err)
		return
	}
	for n := uint64(1); ctx.Err() == nil; n++ {
		began := time.Now()
		keeping, cancel := context.WithTimeout(t.Context(), patience) // not ended in the middle
		err := e.Keep(keeping, batch(l, n))
		cancel()
		if err != nil {
			t.Errorf("%s: %v", k.station, err)
			return
		}
		k.acked.Store(n)
		k.longest = max(k.longest, time.Since(began))
	}
}

// batch is what a node keeps of a tenth of a second at 60 Hz.
func batch(l flow.Lease, n uint64) *flow.Batch {
	b := &flow.Batch{Station: l.Station, Fence: l.Fence, Number: n, Session: l.Session}
	for i := range 6 {
		text := make([]byte, 400)
		copy(text, fmt.Sprintf("%s %d.%d", l.Station, n, i))
		for j := 50; j < len(text); j += 4 { // as numbers do whose last digits change
			text[j], text[j+1] = byte(rand.Uint32()), byte(rand.Uint32())
		}
		b.Records = append(b.Records, link.Record{Type: link.RecordDatagram, Received: int64(n), Bytes: text})
	}
	return b
}

// complete checks that a station's record has every batch that was acked, once and in order.
func (k *keeper) complete(t *testing.T, e flow.Engine) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), patience)
	defer cancel()
	n := uint64(0)
	must(t, e.Read(ctx, k.station, "s", func(b *flow.Batch) error {
		if n++; b.Number != n {
			return fmt.Errorf("%s: batch %d is number %d", k.station, n, b.Number)
		}
		return nil
	}))
	if acked := k.acked.Load(); n < acked {
		t.Errorf("%s: %d batches were kept, %d are there", k.station, acked, n)
	}
}

// TestLeaderKilled kills the server that leads the stream, while two nodes keep batches and tell each other: what was
// kept stays, Keep goes on after the election, and what is told does not stop.
func TestLeaderKilled(t *testing.T) {
	if testing.Short() {
		t.Skip("waits for an election; see make engines")
	}
	t.Parallel()
	p := natsserver.Start(t, 3)
	s := settings(t, p.URLs(), 1, 3)
	until(t, "a stream on three servers", func() bool {
		e := join(t, s, "maker")
		defer e.Close()
		ctx, cancel := context.WithTimeout(t.Context(), 5*time.Second)
		defer cancel()
		_, err := e.Make(ctx)
		return err == nil
	})
	north, south := join(t, s, "north"), join(t, s, "south")
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	var tasks sync.WaitGroup
	keepers := make([]*keeper, 6)
	for i := range keepers {
		keepers[i] = &keeper{station: fmt.Sprint("Seat ", i)}
		tasks.Go(func() { keepers[i].run(ctx, t, []flow.Engine{north, south}[i%2]) })
	}
	gap := tellGap(t, north, south)
	progress := func(what string) {
		t.Helper()
		for _, k := range keepers {
			before := k.acked.Load()
			until(t, "batches "+what, func() bool { return k.acked.Load() >= before+20 || t.Failed() })
		}
	}
	progress("at first")

	first := leader(t, p, s.Prefix)
	p.Kill(first)
	until(t, "that the store is away", func() bool { return !north.Away().IsZero() && !south.Away().IsZero() })
	progress("after a kill")
	until(t, "that the store answers", func() bool { return north.Away().IsZero() && south.Away().IsZero() })
	p.Restart(first)
	cancel()
	tasks.Wait()
	worst := gap()
	t.Logf("what is told stopped for %v", worst)
	if worst > 2*time.Second {
		t.Error("too long; must be less than 2 s")
	}
	for _, k := range keepers {
		t.Logf("%s: %d batches, the slowest took %v", k.station, k.acked.Load(), k.longest)
		k.complete(t, north)
	}
}

// tellGap has a node tell another something every 5 ms, and returns the longest time in which nothing arrived.
func tellGap(t *testing.T, from, to flow.Engine) (worst func() time.Duration) {
	t.Helper()
	var mu sync.Mutex
	var last time.Time
	var gap time.Duration
	stop, err := to.Listen(flow.Live, "", func(flow.Told) {
		mu.Lock()
		defer mu.Unlock()
		now := time.Now()
		if !last.IsZero() {
			gap = max(gap, now.Sub(last))
		}
		last = now
	})
	must(t, err)
	ctx, cancel := context.WithCancel(t.Context())
	var tasks sync.WaitGroup
	tasks.Go(func() {
		for tick := time.NewTicker(5 * time.Millisecond); ctx.Err() == nil; {
			from.Tell(flow.Live, "Seat 1", []byte("x"))
			select {
			case <-tick.C:
			case <-ctx.Done():
				tick.Stop()
			}
		}
	})
	until(t, "what is told", func() bool {
		mu.Lock()
		defer mu.Unlock()
		return !last.IsZero()
	})
	return func() time.Duration {
		cancel()
		tasks.Wait()
		stop()
		return gap
	}
}

// TestServerComesBack kills the only server. Calls wait for it, also those of a node that started meanwhile, and what
// was kept is there once.
func TestServerComesBack(t *testing.T) {
	t.Parallel()
	p := natsserver.Start(t, 1)
	s := settings(t, p.URLs(), 2, 1)
	made(t, s)
	north := join(t, s, "north")
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	var tasks sync.WaitGroup
	k := &keeper{station: "Seat 1"}
	tasks.Go(func() { k.run(ctx, t, north) })
	until(t, "batches", func() bool { return k.acked.Load() > 20 })
	p.Kill(0)

	late := join(t, s, "late")
	if late.Away().IsZero() {
		t.Error("the store is not said to be away")
	}
	waiting, end := context.WithTimeout(t.Context(), 200*time.Millisecond)
	defer end()
	if _, err := late.Holder(waiting, "Seat 1"); !errors.Is(err, flow.ErrAway) ||
		!errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("%v; must be %q", err, flow.ErrAway)
	}
	if _, err := late.Ask(waiting, "north", nil); err == nil {
		t.Error("a question is answered without a server")
	}
	_, err := late.Make(t.Context())
	if says := "no NATS server can be reached at 127.0.0.1"; err == nil || !strings.Contains(err.Error(), says) {
		t.Errorf("%v; must say %q", err, says)
	}
	before := k.acked.Load()
	p.Restart(0)
	until(t, "batches after the restart", func() bool { return k.acked.Load() > before+20 || t.Failed() })
	cancel()
	tasks.Wait()
	k.complete(t, late)
	until(t, "that the store answers", func() bool { return north.Away().IsZero() && late.Away().IsZero() })
}

// TestFrozen freezes the only server, which closes no connection. That it is away is noticed all the same, Tell does
// not wait for it, and a batch that waits is kept once.
func TestFrozen(t *testing.T) {
	t.Parallel()
	p := natsserver.Start(t, 1)
	s := settings(t, p.URLs(), 1, 1)
	made(t, s)
	north := join(t, s, "north")
	l, err := north.Claim(t.Context(), flow.Lease{Station: "Seat 1"}, "s")
	must(t, err, north.Keep(t.Context(), batch(l, 1)))
	p.Freeze(0)
	kept := make(chan error, 1)
	go func() { kept <- north.Keep(t.Context(), batch(l, 2)) }()
	long := make([]byte, 500_000)
	for range 100 {
		began := time.Now()
		north.Tell(flow.Live, "Seat 1", long)
		if took := time.Since(began); took > time.Second {
			t.Errorf("Tell took %v", took)
		}
	}
	until(t, "that the store is away", func() bool { return !north.Away().IsZero() })
	until(t, "that no other node can be heard", func() bool { return !north.Alone().IsZero() })
	if north.Counts().Unsent == 0 {
		t.Error("what could not be sent is not counted")
	}
	p.Thaw(0)
	select {
	case err := <-kept:
		must(t, err)
	case <-time.After(patience):
		t.Fatal("the batch is not kept")
	}
	(&keeper{station: "Seat 1"}).complete(t, north)
	until(t, "that the store answers, and others can be heard", func() bool {
		return north.Away().IsZero() && north.Alone().IsZero()
	})
}
