package node

import (
	"context"
	"errors"
	"testing"
	"time"

	"github.com/rs/zerolog"

	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/flow/memory"
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
