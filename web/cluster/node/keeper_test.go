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

// A mute engine does what it is asked, and says that the store does not answer: the server that had the answer died.
type mute struct {
	flow.Engine
	claims int           // that are not answered
	holder time.Duration // that the question for the holder takes

	second func() // what happens before the holder is asked for the second time; nil is nothing
	asked  int
}

func (m *mute) Holder(ctx context.Context, station string) (flow.Lease, error) {
	if m.holder > 0 {
		<-time.After(m.holder)
	}
	if m.asked++; m.asked == 2 && m.second != nil {
		m.second()
	}
	return m.Engine.Holder(ctx, station)
}

func (m *mute) Claim(ctx context.Context, after flow.Lease, session string) (flow.Lease, error) {
	l, err := m.Engine.Claim(ctx, after, session)
	if m.claims > 0 {
		m.claims--
		return flow.Lease{}, flow.ErrAway
	}
	return l, err
}

// TestClaimUnanswered: a lease that is written, though nobody said so, is this node's own and not another's. None is
// claimed when the store is back just now.
func TestClaimUnanswered(t *testing.T) {
	store := memory.New()
	m := &mute{Engine: store.Join("a")}
	defer m.Close()
	n, err := New(Options{
		Name:  "a",
		Flow:  m,
		Hub:   hub.New("1", zerolog.Nop()),
		Data:  t.TempDir(),
		Times: Times{Dead: 100 * time.Millisecond},
		Log:   zerolog.Nop(),
	})
	if err != nil {
		t.Fatal(err)
	}
	defer n.Close()
	k := n.station("A").keeper
	others := func() {
		t.Helper()
		until(t, func() bool { return !n.gracious(time.Now()) }, func() string { return "others are to be heard" })
	}
	others()
	m.holder = 150 * time.Millisecond
	if err := k.claim(t.Context(), "first"); !errors.Is(err, flow.ErrAway) || !n.gracious(time.Now()) {
		t.Errorf("the store is back just now: %v; must be asked again once others were heard", err)
	}
	m.holder = 0
	others()
	for _, c := range []struct{ unanswered, session string }{
		{"first", "first"},
		{"first", ""}, // another session than was claimed in vain
		{"", "second"},
	} {
		m.claims = 1
		if err := k.claim(t.Context(), c.unanswered); err == nil {
			t.Fatal("an answer came")
		}
		if err := k.claim(t.Context(), c.session); err != nil {
			t.Errorf("%q after %q: %v", c.session, c.unanswered, err)
		}
		l, err := m.Holder(t.Context(), "A")
		if err != nil || l.Node != "a" || l.Session != c.session || l.Fence != k.st.lease.Fence {
			t.Errorf("the lease is %+v, %v; the node knows %+v", l, err, k.st.lease)
		}
	}
	b := store.Join("b")
	defer b.Close()
	l, err := b.Holder(t.Context(), "A")
	if err == nil {
		_, err = b.Claim(t.Context(), l, "second")
	}
	if err != nil {
		t.Fatal(err)
	}
	if err := k.claim(t.Context(), "third"); !errors.Is(err, flow.ErrTaken) {
		t.Errorf("after another node has claimed: %v", err)
	}
}
