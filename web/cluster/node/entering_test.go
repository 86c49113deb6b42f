package node

import (
	"context"
	"errors"
	"fmt"
	"testing"
	"time"

	"github.com/rs/zerolog"

	"halfturn/coach/playback"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/flow/memory"
	"halfturn/web/desk/practice"
	"halfturn/web/hub"
)

// TestEnteredWhileClaimed: between the moment when a lease of this node is written and the one when the node knows, its
// sessions are not taken for those of another node: they are entered once it knows. What another node has taken over
// is not.
func TestEnteredWhileClaimed(t *testing.T) {
	store := memory.New()
	b := store.Join("b")
	defer b.Close()
	first, err := b.Claim(t.Context(), flow.Lease{Station: "A"}, "one")
	if err != nil {
		t.Fatal(err)
	}
	m := &mute{Engine: store.Join("a")}
	defer m.Close()
	n, err := New(Options{Name: "a", Flow: m, Hub: hub.New("1", zerolog.Nop()), Data: t.TempDir(), Log: zerolog.Nop(),
		Times: Times{Dead: 50 * time.Millisecond}})
	if err != nil {
		t.Fatal(err)
	}
	defer n.Close()
	st := n.station("A")
	n.sessions["one"], n.sessions["two"] = st, st
	st.lease, st.known, st.coached = first, true, true
	until(t, func() bool { return !n.gracious(time.Now()) }, func() string { return "others are to be heard" })
	may := func(session string, want error) {
		t.Helper()
		fence, err := n.MayEnter(session)
		if !errors.Is(err, want) || want == nil && fence == 0 {
			t.Errorf("session %s: %d, %v; must be %v", session, fence, err, want)
		}
	}
	for _, session := range []string{"one", "two"} {
		m.claims = 1
		if err := st.keeper.claim(t.Context(), session); !errors.Is(err, flow.ErrAway) {
			t.Fatal(err)
		}
		m.asked, m.second = 0, func() { // the answer comes while a session waits to be entered
			if err := st.keeper.claim(context.Background(), session); err != nil {
				t.Error(err)
			}
		}
		may(map[string]string{"one": "two", "two": "one"}[session], nil)
	}
	last, err := b.Holder(t.Context(), "A")
	if err == nil {
		_, err = b.Claim(t.Context(), last, "two")
	}
	if err != nil {
		t.Fatal(err)
	}
	may("two", flow.ErrTaken)
}

// TestEnteredWhenOver: a session that is over here, and that the lease names no more, is entered by this node under the
// fence it was flown under, though another node has the station before that is done. One that the other node goes on
// with is not, and one that the logbook refuses is moved aside.
func TestEnteredWhenOver(t *testing.T) {
	store := memory.New()
	a, b := newRig(t, store, "a"), newRig(t, store, "b")
	lease := func() flow.Lease {
		t.Helper()
		l, err := b.engine.Holder(t.Context(), "A")
		if err != nil {
			t.Fatal(err)
		}
		l.Station = "A"
		return l
	}
	names := func(session string) {
		t.Helper()
		until(t, func() bool { l := lease(); return l.Node == "a" && l.Session == session },
			func() string { return fmt.Sprintf("the lease is %+v", lease()) })
	}
	for _, session := range []string{"s", "t"} {
		a.Tap().Begin(practice.Beginning{Station: "A", Opening: playback.Opening{Session: session, Station: "A"}})
		names(session)
		under := lease().Fence
		a.Tap().End(session)
		a.Tap().Over(session)
		names("")
		for _, others := range []string{"", "u"} {
			if _, err := b.engine.Claim(t.Context(), lease(), others); err != nil {
				t.Fatal(err)
			}
			if fence, err := a.MayEnter(session); err != nil || fence != under {
				t.Errorf("%s, after b has claimed the lease for %q: %d, %v; must be %d", session, others, fence, err,
					under)
			}
		}
		if a.notes.IsAside(session) {
			t.Errorf("%s is moved aside", session)
		}
		if l := lease(); b.engine.Release(t.Context(), l) != nil {
			t.Fatal("b keeps the lease")
		}
		a.lose(a.station("A"), "b") // knows of that
	}
	a.Refused("t")
	if !a.notes.IsAside("t") {
		t.Error("t is refused, and not moved aside")
	}
	if _, err := b.engine.Claim(t.Context(), lease(), "s"); err != nil {
		t.Fatal(err)
	}
	if fence, err := a.MayEnter("s"); !errors.Is(err, flow.ErrTaken) {
		t.Errorf("b goes on with s: %d, %v", fence, err)
	}
}
