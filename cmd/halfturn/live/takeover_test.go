package live

import (
	"fmt"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"halfturn/cmd/halfturn/cmdtest"
	"halfturn/coach/message"
	"halfturn/stream/streamtest"
	"halfturn/web/cluster/flow/memory"
)

// TestTakeover: the node that coaches is cut off in the middle of a leg. The other one, which hears the same datagrams,
// goes on: it says and judges what a single server does that nothing happens to, nothing twice and nothing not at all,
// within 2 s, and has the same recording to the byte. The node that was cut off wakes, and leaves the session.
func TestTakeover(t *testing.T) {
	d := newDrill(t, t.TempDir(), t.TempDir())
	moved := d.a.viewer(t, "?station="+simulator.String())
	d.a.engine.Cut(true)
	began := time.Now()
	d.flyUntil("b to take over", func() bool { return len(d.b.out.list()) > 0 }, d.b)
	gap := time.Since(began)
	t.Logf("b goes on after %v, at datagram %d of %d", gap, d.next, len(d.datagrams))
	if gap > 2*time.Second {
		t.Errorf("nothing is said for %v", gap)
	}
	before := len(flownEvents(t, d.a.out.list()))
	d.a.engine.Cut(false)
	// It coaches what it hears until it knows better.
	d.flyUntil("a to leave the session", func() bool {
		d.a.hears.Tick(at(d.next))
		return len(sessionsOf(t, d.a.data)) == 0
	}, d.b)
	d.a.hears.End()
	d.a.hears = nil
	d.alone()
	if n := len(flownEvents(t, d.a.out.list())); n > before {
		t.Errorf("a published %d events after b has taken over", n-before)
	}
	d.end(d.b)
	d.same(d.b)
	cmdtest.Until(t, func() bool { return legsSeen(moved()) == legsSeen(d.single.out.list()) },
		func() string { return fmt.Sprintf("a page of a has %d legs", legsSeen(moved())) })
}

// legsSeen counts the legs that a page knows of.
func legsSeen(all []message.Message) (n int) {
	for _, m := range all {
		switch b := m.Body.(type) {
		case message.Leg:
			n++
		case *message.Hello:
			n = 0
			for _, s := range b.Series {
				n += len(s.Legs)
			}
			if b.Last != nil && n == 0 {
				n = 1
			}
		}
	}
	return n
}

// sessionsOf lists the sessions in a data directory.
func sessionsOf(t *testing.T, data string) []string {
	t.Helper()
	dirs, err := filepath.Glob(filepath.Join(data, "sessions", "*"))
	if err != nil {
		t.Fatal(err)
	}
	return dirs
}

// TestViewers: a page of one node shows a station that another one coaches, and goes on over a takeover. It moves to
// another node with the number of the last event it has, and gets those after it, each once.
func TestViewers(t *testing.T) {
	d := &drill{T: t, store: memory.New(), datagrams: streamtest.Payloads(t, flight)}
	d.single = join(t, nil, "", t.TempDir())
	d.a, d.b = join(t, d.store, "a", t.TempDir()), join(t, d.store, "b", t.TempDir())
	c := join(t, d.store, "c", t.TempDir()) // hears nothing
	d.single.hear()
	d.a.hear()
	d.flyUntil("a to coach", func() bool { return len(d.a.out.list()) > 0 }, d.a)
	d.b.hear()
	name := simulator.String()
	read := c.viewer(t, "?station="+name)
	cmdtest.Until(t, func() bool { return len(read()) > 0 }, func() string { return "c does not show the station" })
	d.fly(len(d.datagrams)/4, d.a, d.b)
	first := d.b.viewer(t, "?station="+name)
	cmdtest.Until(t, func() bool { return len(first()) > 0 }, func() string { return "b does not show the station" })
	hello := first()[0]
	d.fly(len(d.datagrams)/2, d.a, d.b)
	d.a.engine.Cut(true)
	d.flyUntil("b to take over", func() bool { return len(d.b.out.list()) > 0 }, d.b)
	query := fmt.Sprintf("?station=%s&run=%s&since=%d", name, hello.Body.(*message.Hello).Run, hello.Seq)
	moved := c.viewer(t, query)
	d.end(d.b)
	last := func(all []message.Message) (seq uint64) {
		for _, m := range all {
			seq = max(seq, m.Seq)
		}
		return seq
	}
	pages := []func() []message.Message{read, first, moved}
	cmdtest.Until(t, func() bool {
		return last(read()) == last(first()) && last(first()) == last(moved()) && gone(read())
	}, func() string { return fmt.Sprint("the pages have ", last(read()), last(first()), last(moved())) })
	d.once(read())
	again := slices.Concat([]message.Message{hello}, moved())
	if a, b := numbers(again), numbers(first()); !slices.Equal(a, b) {
		t.Errorf("who moved has the events %v; must have %v", a, b)
	}
	for i, page := range pages {
		hellos := 0
		for _, m := range page() {
			if m.Type() == message.TypeHello {
				hellos++
			}
		}
		if want := []int{1, 1, 0}[i]; hellos != want {
			t.Errorf("page %d was greeted %d times; must be %d", i, hellos, want)
		}
	}
}

// numbers are those of the events that a page has.
func numbers(all []message.Message) (list []uint64) {
	for _, m := range all {
		if m.Seq > 0 {
			list = append(list, m.Seq)
		}
	}
	return list
}

// gone reports whether a page knows that the station has left.
func gone(all []message.Message) bool {
	return slices.ContainsFunc(all, func(m message.Message) bool {
		s, ok := m.Body.(*message.Station)
		return ok && s.Link == message.LinkGone
	})
}
