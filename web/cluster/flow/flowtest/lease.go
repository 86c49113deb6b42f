package flowtest

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/web/cluster/flow"
)

// The fence is 0 when there was no lease.
func testNoLease(t *testing.T, join Joiner) {
	if l := holder(t, join("north"), "Seat 1"); l != none("Seat 1") {
		t.Errorf("%+v", l)
	}
}

// The last lease that was written is that which Claim returned, at every node.
func testClaim(t *testing.T, join Joiner) {
	north, south := join("north"), join("south")
	l := claim(t, north, none("Seat 1"), "s1")
	if l.Station != "Seat 1" || l.Node != "north" || l.Session != "s1" || l.Fence == 0 {
		t.Errorf("claimed %+v", l)
	}
	for _, e := range []flow.Engine{north, south} {
		if got := holder(t, e, "Seat 1"); got != l {
			t.Errorf("held %+v; must be %+v", got, l)
		}
	}
	over := claim(t, south, l, "s1")
	if got := holder(t, north, "Seat 1"); got != over || got.Node != "south" {
		t.Errorf("taken over: %+v; must be %+v", got, over)
	}
}

// A claim fails where another lease was written since the one it comes after.
func testClaimStale(t *testing.T, join Joiner) {
	north, south := join("north"), join("south")
	first := claim(t, north, none("Seat 1"), "s1")
	second := claim(t, south, first, "s1")
	for name, after := range map[string]flow.Lease{
		"none":          none("Seat 1"),
		"the first":     first,
		"one to come":   {Station: "Seat 1", Fence: second.Fence + 1},
		"another's one": {Station: "Seat 2", Fence: second.Fence},
	} {
		_, err := north.Claim(soon(t), after, "s2")
		taken(t, "after "+name, err)
	}
	if got := holder(t, north, "Seat 1"); got != second {
		t.Errorf("%+v; must be %+v", got, second)
	}
}

// The fence of a lease is greater than that of all before it of the station.
func testFencesGrow(t *testing.T, join Joiner) {
	nodes := []flow.Engine{join("north"), join("south")}
	last := none("Seat 1")
	for i := range 20 {
		claim(t, nodes[i%2], none(fmt.Sprint("Seat ", i+2)), "")
		l := claim(t, nodes[i%2], last, fmt.Sprint("s", i))
		if l.Fence <= last.Fence {
			t.Fatalf("%d after %d", l.Fence, last.Fence)
		}
		keep(t, nodes[i%2], l, 1)
		if last = l; i%3 == 0 {
			must(t, nodes[i%2].Release(soon(t), l))
			last = holder(t, nodes[0], "Seat 1")
		}
	}
}

// One of those who claim at once gets the lease.
func testClaimersAtOnce(t *testing.T, join Joiner) {
	nodes := []flow.Engine{join("north"), join("south"), join("west")}
	last := none("Seat 1")
	for range 10 {
		won := make(chan flow.Lease, 12)
		var all sync.WaitGroup
		for i := range cap(won) {
			all.Go(func() {
				l, err := nodes[i%3].Claim(soon(t), last, "s")
				if err == nil {
					won <- l
				} else if !errors.Is(err, flow.ErrTaken) {
					t.Error(err)
				}
			})
		}
		all.Wait()
		if len(won) != 1 {
			t.Fatalf("%d claimers have the lease", len(won))
		}
		l := <-won
		if got := holder(t, nodes[0], "Seat 1"); got != l {
			t.Errorf("%+v; must be %+v", got, l)
		}
		last = l
	}
}

// A holder that claims after its own lease renews it: nothing is kept any more under the one before.
func testRenewal(t *testing.T, join Joiner) {
	north := join("north")
	first := claim(t, north, none("Seat 1"), "")
	second := claim(t, north, first, "s1")
	if second.Fence <= first.Fence || second.Session != "s1" {
		t.Errorf("%+v after %+v", second, first)
	}
	first.Session = "s1"
	taken(t, "keep under the former lease", north.Keep(soon(t), batch(first, 1)))
	keep(t, north, second, 1)
}

// Whoever claims after a lease that was given back needs not wait, and learns the session under way.
func testRelease(t *testing.T, join Joiner) {
	north, south := join("north"), join("south")
	l := claim(t, north, none("Seat 1"), "s1")
	keep(t, north, l, 1)
	must(t, north.Release(soon(t), l), north.Release(soon(t), l))
	free := holder(t, south, "Seat 1")
	if free.Node != "" || free.Fence <= l.Fence || free.Session != "s1" || free.Station != "Seat 1" {
		t.Errorf("given back: %+v", free)
	}
	taken(t, "keep under a lease that was given back", north.Keep(soon(t), batch(l, 2)))
	over := claim(t, south, free, "s1")
	keep(t, south, over, 1)
	if d := cmp.Diff([]string{fmt.Sprintf("s1 %d.1", l.Fence), fmt.Sprintf("s1 %d.1", over.Fence)},
		read(t, north, "Seat 1", "s1")); d != "" {
		t.Error(d)
	}
}

// A lease that was taken over stays as it is, and to give it back is no error.
func testReleaseTaken(t *testing.T, join Joiner) {
	north, south := join("north"), join("south")
	first := claim(t, north, none("Seat 1"), "s1")
	second := claim(t, south, first, "s1")
	must(t, north.Release(soon(t), first), north.Release(soon(t), none("Seat 2")))
	if got := holder(t, north, "Seat 1"); got != second {
		t.Errorf("%+v; must be %+v", got, second)
	}
	if got := holder(t, north, "Seat 2"); got.Fence != 0 {
		t.Errorf("a lease was written: %+v", got)
	}
}

// Held calls each with the last lease of every station that has one.
func testHeld(t *testing.T, join Joiner) {
	north, south := join("north"), join("south")
	must(t, north.Held(soon(t), func(l flow.Lease) error { return fmt.Errorf("there is %+v", l) }))
	last := map[string]flow.Lease{}
	for i := range 40 {
		station := fmt.Sprint("Seat ", i)
		l := claim(t, north, none(station), "s")
		keep(t, north, l, 1, 2)
		switch i % 3 {
		case 1:
			l = claim(t, south, l, "s2")
		case 2:
			must(t, north.Release(soon(t), l))
			l = holder(t, south, station)
		}
		last[station] = l
	}
	got := map[string]flow.Lease{}
	must(t, south.Held(soon(t), func(l flow.Lease) error {
		if _, twice := got[l.Station]; twice {
			t.Errorf("%s comes twice", l.Station)
		}
		got[l.Station] = l
		return nil
	}))
	if d := cmp.Diff(last, got); d != "" {
		t.Errorf("(-written +held):\n%s", d)
	}
	enough := errors.New("enough")
	if err := south.Held(soon(t), func(flow.Lease) error { return enough }); !errors.Is(err, enough) {
		t.Error(err)
	}
}

// After a restart of a node its leases are as they were, and it goes on under them.
func testRestart(t *testing.T, join Joiner) {
	north, south := join("north"), join("south")
	l := claim(t, north, none("Seat 1"), "s1")
	keep(t, north, l, 1, 2)
	must(t, north.Close())
	if got := holder(t, south, "Seat 1"); got != l {
		t.Errorf("after Close: %+v; must be %+v", got, l)
	}
	north = join("north")
	if got := holder(t, north, "Seat 1"); got != l {
		t.Errorf("after the restart: %+v; must be %+v", got, l)
	}
	keep(t, north, l, 2, 3) // 2 was kept, and the node did not learn it
	if got := read(t, south, "Seat 1", ""); len(got) != 3 {
		t.Errorf("kept: %q", got)
	}
	must(t, south.Answer(func(_ context.Context, b []byte) []byte { return b }))
	until(t, "an answer after the restart", func() bool {
		b, err := north.Ask(soon(t), "south", []byte("x"))
		return err == nil && string(b) == "x"
	})
}

// What is called with a context that has ended fails with its error.
func testCanceled(t *testing.T, join Joiner) {
	north := join("north")
	l := claim(t, north, none("Seat 1"), "s1")
	keep(t, north, l, 1)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, claims := north.Claim(ctx, l, "s2")
	_, holds := north.Holder(ctx, "Seat 1")
	_, asks := north.Ask(ctx, "north", nil)
	for what, err := range map[string]error{
		"claim":   claims,
		"release": north.Release(ctx, l),
		"holder":  holds,
		"held":    north.Held(ctx, func(flow.Lease) error { return nil }),
		"keep":    north.Keep(ctx, batch(l, 2)),
		"read":    north.Read(ctx, "Seat 1", "", func(*flow.Batch) error { return nil }),
		"drop":    north.Drop(ctx, "Seat 1", ""),
		"ask":     asks,
	} {
		if !errors.Is(err, context.Canceled) {
			t.Errorf("%s: %v; must be %q", what, err, context.Canceled)
		}
	}
	keep(t, north, l, 2)
	if !north.Away().IsZero() {
		t.Error("the store is said to be away since", north.Away())
	}
}

// What is called after Close fails, and Close itself does not when it is called again.
func testClosed(t *testing.T, join Joiner) {
	north := join("north")
	l := claim(t, north, none("Seat 1"), "s1")
	stop, err := north.Listen(flow.Live, "", func(flow.Told) {})
	must(t, err, north.Close(), north.Close())
	stop()
	_, claims := north.Claim(soon(t), l, "s2")
	_, holds := north.Holder(soon(t), "Seat 1")
	_, asks := north.Ask(soon(t), "north", nil)
	_, listens := north.Listen(flow.Live, "", func(flow.Told) {})
	north.Tell(flow.Live, "Seat 1", []byte("x"))
	for what, err := range map[string]error{
		"claim":   claims,
		"release": north.Release(soon(t), l),
		"holder":  holds,
		"held":    north.Held(soon(t), func(flow.Lease) error { return nil }),
		"keep":    north.Keep(soon(t), batch(l, 2)),
		"read":    north.Read(soon(t), "Seat 1", "", func(*flow.Batch) error { return nil }),
		"drop":    north.Drop(soon(t), "Seat 1", ""),
		"listen":  listens,
		"ask":     asks,
		"answer":  north.Answer(func(context.Context, []byte) []byte { return nil }),
	} {
		if !errors.Is(err, flow.ErrClosed) {
			t.Errorf("%s: %v; must be %q", what, err, flow.ErrClosed)
		}
	}
}
