package node

import (
	"context"
	"errors"
	"fmt"
	"net/netip"
	"sync/atomic"
	"testing"
	"time"

	"halfturn/coach/message"
	"halfturn/coach/playback"
	"halfturn/stream/ingest"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/flow/memory"
	"halfturn/web/cluster/tenures/tenurestest"
)

// A slow engine takes a while to say who holds a station.
type slow struct {
	flow.Engine
	takes time.Duration
	asked atomic.Int32
}

func (s *slow) Holder(ctx context.Context, station string) (flow.Lease, error) {
	s.asked.Add(1)
	select {
	case <-time.After(s.takes):
		return s.Engine.Holder(ctx, station)
	case <-ctx.Done():
		return flow.Lease{}, errors.Join(flow.ErrAway, ctx.Err())
	}
}

// TestSettleMany: of hundreds of stations the store says in time which ones another node has taken over: the sessions
// of these are moved aside, and those of the others wait for their stations.
func TestSettleMany(t *testing.T) {
	const stations, own = 300, 10
	store := memory.New()
	b := store.Join("b")
	defer b.Close()
	s := &slow{takes: 20 * time.Millisecond}
	a := rigWith(t, store, "a", func(o *Options) { s.Engine, o.Flow = o.Flow, s })
	name := func(i int) string { return fmt.Sprint("A", i) }
	for i := range stations {
		by := flow.Engine(b)
		if i < own {
			by = s.Engine
		}
		l, err := by.Claim(t.Context(), flow.Lease{Station: name(i)}, "s"+name(i))
		if err != nil {
			t.Fatal(err)
		}
		fence := l.Fence
		if i >= own {
			fence = 0 // it was followed
		}
		a.notes.Fly(name(i), "s"+name(i), fence)
	}
	ctx, cancel := context.WithTimeout(t.Context(), stations*s.takes/2) // one after the other it takes twice as long
	defer cancel()
	a.Settle(ctx)
	if n := int(s.asked.Load()); n != stations {
		t.Errorf("%d times it was asked who holds a station", n)
	}
	if n := len(a.notes.Flown()); n != own {
		t.Errorf("%d stations are noted as flown; must be %d", n, own)
	}
	for i := range stations {
		session, others := "s"+name(i), i >= own
		fence, err := a.MayEnter(session)
		if is := a.station(name(i)).waitsFor(session); is == others || a.notes.IsAside(session) != others ||
			errors.Is(err, flow.ErrTaken) != others || !others && (err != nil || fence == 0) {
			t.Errorf("%s: waits %v, aside %v, entered %d, %v", session, is, a.notes.IsAside(session), fence, err)
		}
	}
}

// TestGivenBack: a session whose lease was given back, and which no node takes over, is ended after the idle time,
// though the node that gave it back is there.
func TestGivenBack(t *testing.T) {
	store := memory.New()
	brief := func(o *Options) { o.Times.Idle = 200 * time.Millisecond }
	b := rigWith(t, store, "b", brief)
	ended := make(chan struct{})
	f := &fakeFollowed{enters: func() { close(ended) }}
	l, err := b.engine.Claim(t.Context(), flow.Lease{Station: "A"}, "s")
	if err != nil {
		t.Fatal(err)
	}
	for _, told := range tenurestest.Script(l.Fence, "b", "tb", nil, "abc") {
		if err := b.engine.Keep(t.Context(), told.Batch); err != nil {
			t.Fatal(err)
		}
	}
	st := b.station("A")
	st.mu.Lock()
	st.lease, st.known, st.coached, st.session = l, true, true, "s"
	st.mu.Unlock()
	a := rigWith(t, store, "a", brief)
	a.desk.follow = func(playback.Opening) (Followed, error) { return f, nil }
	until(t, func() bool { return a.elsewhere("A") == "b" }, func() string { return "a hears nothing of b" })
	b.Output(b.hub).Event(message.Message{Station: "A", Seq: 1, Body: live("A", "")})
	until(t, func() bool { return a.hub.Has("A") }, func() string { return "a does not show the station" })
	st.release()
	select {
	case <-ended:
	case <-time.After(30 * time.Second):
		l, err := b.engine.Holder(t.Context(), "A")
		t.Fatalf("nobody ends the session; the lease is %+v, %v", l, err)
	}
}

// A fakeCoached is a session that may be left.
type fakeCoached struct {
	ingest.Handler
	left atomic.Bool
}

func (*fakeCoached) Name() string               { return "192.0.2.7:5000" }
func (*fakeCoached) Session() string            { return "s" }
func (*fakeCoached) Proven() bool               { return true }
func (*fakeCoached) Fail()                      {}
func (*fakeCoached) Lost(ingest.Loss)           {}
func (*fakeCoached) Datagram([]byte, time.Time) {}

func (f *fakeCoached) Abandon() string {
	f.left.Store(true)
	return "s"
}

// TestHeardWhilePlayed: a sender whose session of an earlier run is still played counts as heard, however long that
// takes. Where another node has taken the station over meanwhile, the session is left to that one.
func TestHeardWhilePlayed(t *testing.T) {
	address := netip.MustParseAddrPort("192.0.2.7:5000")
	for _, lost := range []bool{false, true} {
		a := rigWith(t, memory.New(), "a", func(o *Options) { o.Times.Silent = 50 * time.Millisecond })
		played, coach := make(chan struct{}), &fakeCoached{}
		a.desk.station = func() ingest.Handler {
			<-played
			return coach
		}
		h := a.Station(address).(*hearing)
		h.become(unsettled, ready)
		began := make(chan bool)
		go func() { began <- h.follow() }()
		st := a.station(address.String())
		heard := func() bool {
			_, at := h.heardAt()
			return !at.IsZero()
		}
		until(t, heard, func() string { return "it is not heard" })
		<-time.After(2 * a.opt.Times.Silent)
		if hears := a.Node.hears(time.Now()); len(hears) != 1 {
			t.Errorf("heard are %q", hears)
		}
		if lost {
			st.mu.Lock()
			st.coached = true
			st.mu.Unlock()
			a.lose(st, "b")
		}
		close(played)
		if here := <-began; here == lost || coach.left.Load() != lost || a.notes.IsAside("s") != lost {
			t.Errorf("lost %v: coached here %v, left %v, aside %v", lost, here, coach.left.Load(), a.notes.IsAside("s"))
		}
	}
}

// TestTakenWhilePlayed: a session that another node has taken over while it is played here is moved aside once it was
// played, and not before; its fence is gone at once.
func TestTakenWhilePlayed(t *testing.T) {
	a := rigWith(t, memory.New(), "a", func(*Options) {})
	st := a.station("A")
	st.mu.Lock()
	st.flew = "s"
	st.mu.Unlock()
	a.mu.Lock()
	a.flies(st, "s")
	a.mu.Unlock()
	a.fenced("s", 3)
	a.Resumes("A", true)
	a.lose(st, "b")
	if a.notes.IsAside("s") {
		t.Error("it is moved aside while it is played")
	}
	if _, ok := a.Fence("s"); ok {
		t.Error("it may be stored")
	}
	a.Resumes("A", false)
	if !a.notes.IsAside("s") {
		t.Error("it is not moved aside")
	}
}
