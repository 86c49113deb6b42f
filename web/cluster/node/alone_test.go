package node

import (
	"context"
	"errors"
	"fmt"
	"testing"
	"time"

	"halfturn/web/cluster/claim"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/flow/memory"
	"halfturn/web/cluster/presence"
)

// newAlone runs node a, which coaches station A, and has b take the lease of that after what was last is known.
func newAlone(t *testing.T, store *memory.Store, holds bool) (a *rig, st *station, theirs flow.Lease) {
	t.Helper()
	a = newRig(t, store, "a")
	b := store.Join("b")
	t.Cleanup(func() { b.Close() })
	err := b.Answer(func(context.Context, []byte) []byte { return fmt.Appendf(nil, `{"holds":%v}`, holds) })
	first, claimed := a.engine.Claim(t.Context(), flow.Lease{Station: "A"}, "s")
	var taken error
	theirs, taken = b.Claim(t.Context(), first, "s")
	if err := errors.Join(err, claimed, taken); err != nil {
		t.Fatal(err)
	}
	st = a.station("A")
	st.mu.Lock()
	defer st.mu.Unlock()
	st.coached, st.lease, st.known = true, first, true
	return a, st, theirs
}

// hearsAgain waits until a node may go by what it hears.
func (r *rig) hearsAgain(t *testing.T) {
	t.Helper()
	until(t, func() bool { return !r.deaf(time.Now()) }, func() string { return "others are still to be heard" })
}

// TestAloneClaims: a node that reaches the store, and no other node, takes no lease: its holder may be there. Neither
// does it before the holder had time to be heard again.
func TestAloneClaims(t *testing.T) {
	store := memory.New()
	a, st, theirs := newAlone(t, store, true)
	st.mu.Lock()
	st.lease, st.known = flow.Lease{Station: "A"}, false // what it took over from
	st.mu.Unlock()
	a.hearsAgain(t)
	take := func() error { return st.keeper.do(&step{claim: &tenure{session: "s"}}) }
	for _, alone := range []bool{true, false} {
		a.engine.Isolate(alone)
		err := take()
		if l, asked := a.engine.Holder(t.Context(), "A"); !errors.Is(err, flow.ErrAway) || asked != nil || l != theirs {
			t.Errorf("alone: %v: %v, and the lease is %+v; must be %+v", alone, err, l, theirs)
		}
	}
	a.hearsAgain(t)
	if err := take(); err != nil { // nobody says that it holds the station
		t.Error(err)
	}
}

// TestAloneRefused: a node that the store refuses takes its lease again only where the other node has left the station,
// and says so when it is asked, or is gone: that it was not heard while no other could be says nothing, nor what it
// said before it took the lease.
func TestAloneRefused(t *testing.T) {
	long, later := time.Now().Add(-time.Hour), time.Now().Add(time.Hour)
	for _, c := range []struct {
		name   string
		alone  bool
		back   bool      // it hears the others again just now
		at     time.Time // of the refusal
		living bool      // the other one is heard, and said last that it does not hold the station
		holds  bool      // and this when it is asked
		renews bool
	}{
		{"it hears nobody", true, false, long, false, true, false},
		{"it hears the others again just now", true, true, long, false, true, false},
		{"the other had no time to be heard", false, false, later, false, true, false},
		{"the other is gone", false, false, long, false, true, true},
		{"the other holds the station, and said otherwise before", false, false, long, true, true, false},
		{"the other has left the station", false, false, long, true, false, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			a, st, theirs := newAlone(t, memory.New(), c.holds)
			a.hearsAgain(t)
			a.engine.Isolate(c.alone)
			if c.back {
				a.deaf(time.Now())
				a.engine.Isolate(false)
			}
			if c.living {
				a.peers.Put(&presence.Peer{Name: "b", Heard: time.Now().Add(time.Hour)})
			}
			st.mu.Lock()
			st.refused = &claim.Refusal{Node: "b", Fence: theirs.Fence, At: c.at}
			st.mu.Unlock()
			st.keeper.refused()
			st.mu.Lock()
			defer st.mu.Unlock()
			if renewed := st.lease.Fence == theirs.Fence; renewed != c.renews || !st.coached {
				t.Errorf("it takes the lease again: %v; coaches: %v", renewed, st.coached)
			}
		})
	}
}
