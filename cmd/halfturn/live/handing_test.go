package live

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"testing"
	"time"

	"halfturn/cmd/halfturn/cmdtest"
	"halfturn/stream/streamtest"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/flow/memory"
)

// lease is the last lease of the simulator's station.
func (c *clustered) lease(t *testing.T) flow.Lease {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), cmdtest.Patience)
	defer cancel()
	l, err := c.engine.Holder(ctx, simulator.String())
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// TestHandedOver: a node that does not hear its station any more gives it to one that does, without a gap in what is
// said.
func TestHandedOver(t *testing.T) {
	d := newDrill(t, t.TempDir(), t.TempDir())
	before := d.a.lease(t)
	d.flyUntil("b to coach", func() bool {
		d.a.hears.Tick(at(d.next))
		return len(flownEvents(t, d.b.out.list())) > 0
	}, d.b)
	d.alone()
	d.end(d.b)
	d.same(d.b)
	if l := d.a.lease(t); l.Node != "b" || l.Fence <= before.Fence {
		t.Errorf("the lease is %+v; must be b's", l)
	}
	if left := sessionsOf(t, d.a.data); len(left) > 0 {
		t.Errorf("a keeps %v", left)
	}
}

// TestStoreAway: while the store does not answer, a station is coached, and taken over by what was told. What waits is
// kept once the store is back.
func TestStoreAway(t *testing.T) {
	d := &drill{T: t, store: memory.New(), datagrams: streamtest.Payloads(t, flight)}
	d.single = join(t, nil, "", t.TempDir())
	d.a, d.b = join(t, d.store, "a", t.TempDir()), join(t, d.store, "b", t.TempDir())
	d.store.Stop(true)
	d.single.hear()
	d.a.hear()
	d.b.hear()
	d.flyUntil("a to coach", func() bool { return len(d.a.out.list()) > 0 }, d.a, d.b)
	d.fly(len(d.datagrams)/2, d.a, d.b)
	d.a.engine.Cut(true)
	d.flyUntil("b to take over", func() bool { return len(flownEvents(t, d.b.out.list())) > 0 }, d.b)
	d.store.Stop(false)
	d.flyUntil("the record to be kept", func() bool { return d.b.lease(t).Node == "b" }, d.b)
	d.alone()
	d.end(d.b)
	d.same(d.b)
}

// TestGapAway: something of what is told is lost on the way to a node that follows, while the store does not answer.
// The session is not divided when that node takes over: the recording is that of a single server.
func TestGapAway(t *testing.T) {
	patient := func(o *Options) { o.Cluster.Times.Dead = 4 * time.Second } // what is cut off for a moment is not dead
	d := &drill{T: t, store: memory.New(), datagrams: streamtest.Payloads(t, flight)}
	d.single = join(t, nil, "", t.TempDir())
	d.a, d.b = join(t, d.store, "a", t.TempDir(), patient), join(t, d.store, "b", t.TempDir(), patient)
	d.single.hear()
	d.a.hear()
	d.flyUntil("a to coach", func() bool { return len(d.a.out.list()) > 0 }, d.a)
	d.b.hear()
	d.flyUntil("b to follow", func() bool { return len(sessionsOf(t, d.b.data)) == 1 }, d.a, d.b)
	d.store.Stop(true)
	d.flyUntil("a while", d.after(20), d.a, d.b)
	d.b.engine.Cut(true)
	d.flyUntil("some batches", d.after(25), d.a, d.b)
	d.b.engine.Cut(false)
	d.flyUntil("a while", d.after(60), d.a, d.b)
	d.a.engine.Cut(true)
	d.flyUntil("b to take over", func() bool { return len(flownEvents(t, d.b.out.list())) > 0 }, d.b)
	d.store.Stop(false)
	d.flyUntil("the record to be kept", func() bool { return d.b.lease(t).Node == "b" }, d.b)
	d.alone()
	d.end(d.b)
	d.sameRecord(d.b)
}

// after says when some datagrams more are flown.
func (d *drill) after(datagrams int) func() bool {
	to := d.next + datagrams
	return func() bool { return d.next >= to }
}

// alone has b alone hear the simulator.
func (d *drill) alone() {
	d.Helper()
	d.flyUntil("b to be alone", func() bool { return len(d.b.node.HeardBy(simulator.String())) == 0 }, d.b)
}

// TestElsewhere: what is asked of a station that another node coaches is done there, and its audience is known there.
func TestElsewhere(t *testing.T) {
	d := &drill{T: t, store: memory.New(), datagrams: streamtest.Payloads(t, flight)}
	d.single = join(t, nil, "", t.TempDir())
	d.a, d.b = join(t, d.store, "a", t.TempDir()), join(t, d.store, "b", t.TempDir())
	d.single.hear()
	d.a.hear()
	d.flyUntil("a to coach", func() bool { return len(d.a.out.list()) > 0 }, d.a)
	name := simulator.String()
	cmdtest.Until(t, func() bool { return stationOf(t, d.b.server, name).Name == name },
		func() string { return "b does not show the station" })
	path := "api/stations/" + name + "/"
	for _, what := range []string{"legs", "probe"} {
		status, here := d.a.ask(t, "GET", path+what, "", nil)
		other, there := d.b.ask(t, "GET", path+what, "", nil)
		if status != http.StatusOK || other != http.StatusOK || len(there) == 0 {
			t.Errorf("%s: %d at a, %d at b: %s", what, status, other, there)
		}
		if what == "legs" && !bytes.Equal(compact(t, here), compact(t, there)) {
			t.Errorf("%s differ: %s at a, %s at b", what, here, there)
		}
	}
	status, answer := d.b.ask(t, "POST", path+"student", "application/json", []byte(`{"student":"Ada Example"}`))
	if status != http.StatusOK {
		t.Fatalf("the student is not named: %d %s", status, answer)
	}
	d.flyUntil("b to show who flies", func() bool {
		return stationOf(t, d.b.server, name).Student == "Ada Example"
	}, d.a)
	status, answer = d.b.ask(t, "POST", path+"choose", "application/json", []byte(`{"maneuver":"none such"}`))
	if status != http.StatusUnprocessableEntity || !strings.Contains(string(answer), "none such") {
		t.Errorf("a card that is not there: %d %s", status, answer)
	}
}

func compact(t *testing.T, text []byte) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := json.Compact(&out, text); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// TestRestart: a node that was killed and is started again when another one has taken its session over does not resume
// it, and that of a session which nobody took does.
func TestRestart(t *testing.T) {
	data := t.TempDir()
	d := newDrill(t, data, t.TempDir())
	d.a.engine.Cut(true)
	d.flyUntil("b to take over", func() bool { return len(d.b.out.list()) > 0 }, d.b)
	d.flyUntil("b to have the lease", func() bool { return d.b.lease(t).Node == "b" }, d.b)
	d.a.hears = nil
	d.a.stop() // cut off: nothing of what it does reaches anybody
	d.a = join(t, d.store, "a", data)
	if left := sessionsOf(t, data); len(left) > 0 {
		t.Errorf("a keeps %v", left)
	}
	d.end(d.b)
	want := flownEvents(t, d.single.out.list())
	if got := flownEvents(t, d.a.out.list()); len(got) > 0 {
		t.Errorf("a publishes %d events after its start", len(got))
	}
	if got := flownEvents(t, d.b.out.list()); len(got) == 0 || !slices.Equal(got, want[len(want)-len(got):]) {
		t.Errorf("b published %d events, which are not the last of %d", len(got), len(want))
	}
}

// TestRestartAway: a node that was killed, and is started again while the store does not answer, resumes a session that
// another node has taken over. Once the store answers, it leaves the session to that one, and has entered nothing of
// it.
func TestRestartAway(t *testing.T) {
	data := t.TempDir()
	d := newDrill(t, data, t.TempDir())
	d.a.engine.Cut(true)
	d.flyUntil("b to take over", func() bool { return len(d.b.out.list()) > 0 }, d.b)
	d.flyUntil("b to have the lease", func() bool { return d.b.lease(t).Node == "b" }, d.b)
	d.a.hears = nil
	d.a.stop()
	d.a = join(t, d.store, "a", data, func(o *Options) { o.Cluster.Flow.(*memory.Engine).Cut(true) })
	d.a.desk.Resumed()
	if left := sessionsOf(t, data); len(left) != 1 {
		t.Errorf("a has %v; must have resumed the session", left)
	}
	d.a.engine.Cut(false)
	d.flyUntil("a to leave the session", func() bool { return len(sessionsOf(t, data)) == 0 }, d.b)
	d.end(d.b)
	if n := len(flownEvents(t, d.a.out.list())); n > 0 && d.a.left(t) != 1 {
		t.Errorf("a publishes %d events after its start, and has left %d sessions", n, d.a.left(t))
	}
	d.sameRecord(d.b)
}

// TestOrphan: a session whose node is gone, and which nobody hears, is ended and entered by another node.
func TestOrphan(t *testing.T) {
	d := &drill{T: t, store: memory.New(), datagrams: streamtest.Payloads(t, flight)}
	d.single = join(t, nil, "", t.TempDir())
	d.a, d.b = join(t, d.store, "a", t.TempDir()), join(t, d.store, "b", t.TempDir(), brief)
	d.single.hear()
	d.a.hear()
	d.flyUntil("a to coach", func() bool { return len(d.a.out.list()) > 0 }, d.a)
	d.fly(len(d.datagrams), d.a)
	d.single.hears.End()
	d.single.hears = nil
	cmdtest.Until(t, func() bool { return d.a.node != nil && d.a.lease(t).Session != "" },
		func() string { return "a has no lease" })
	<-time.After(200 * time.Millisecond) // the last batch
	d.a.engine.Cut(true)
	legs := legsSeen(d.single.out.list())
	cmdtest.Until(t, func() bool { return d.b.lease(t).Session == "" },
		func() string { return fmt.Sprintf("the lease is %+v", d.b.lease(t)) })
	var answer []byte
	cmdtest.Until(t, func() bool {
		var list struct{ Sessions []struct{ Legs int } }
		_, answer = d.b.ask(t, "GET", "api/sessions", "", nil)
		return json.Unmarshal(answer, &list) == nil && len(list.Sessions) == 1 && list.Sessions[0].Legs == legs
	}, func() string { return fmt.Sprintf("b has %s; must have a session of %d legs", answer, legs) })
	want := flownEvents(t, d.single.out.list())
	if got := flownEvents(t, d.b.out.list()); len(got) > 0 && got[0] == want[0] {
		t.Errorf("b publishes again what a published: %d events", len(got))
	}
}
