package node

import (
	"context"
	"errors"
	"testing"
	"time"

	"github.com/rs/zerolog"

	"halfturn/coach/playback"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/flow/memory"
	"halfturn/web/cluster/presence"
	"halfturn/web/cluster/tenures"
	"halfturn/web/cluster/tenures/tenurestest"
	"halfturn/web/hub"
)

// TestEnteredAfterLeft: a node that had stopped following a session, whose folder is moved aside since, takes it over
// after all. What it enters of the session then is not refused as another node's, whether the session goes on or ends.
func TestEnteredAfterLeft(t *testing.T) {
	for name, letters := range map[string]string{"goes on": "abc", "ends": "abc."} {
		store := memory.New()
		b := newRig(t, store, "b")
		entered := false
		f := &fakeFollowed{enters: func() {
			entered = true
			if _, err := b.MayEnter("s"); err != nil {
				t.Errorf("it %s: what is entered is refused: %v", name, err)
			}
		}}
		b.desk.follow = func(playback.Opening) (Followed, error) { return f, nil }
		st := b.station("A")
		st.mu.Lock()
		st.heard = &tenures.Heard{Batches: tenurestest.Script(1, "a", "ta", nil, letters)}
		st.mu.Unlock()
		sh, err := b.shadowOf(t.Context(), st, "s")
		if err != nil {
			t.Fatal(err)
		}
		sh.leave()
		if _, err := b.MayEnter("s"); err == nil {
			t.Errorf("it %s: the session is not left", name)
		}
		if _, err := b.adopt(st, "s", nil); err != nil || !entered {
			t.Errorf("it %s: %v; entered: %v", name, err, entered)
		}
	}
}

// TestRefusedBefore: what another node says within a beat of the moment when its lease is found may have been sent
// before it took the station over. That it does not hold the station is believed only later.
func TestRefusedBefore(t *testing.T) {
	const beat = time.Minute
	store := memory.New()
	b := store.Join("b")
	defer b.Close()
	lease, err := b.Claim(t.Context(), flow.Lease{Station: "A"}, "s")
	answers := b.Answer(func(context.Context, []byte) []byte { return []byte("{}") }) // it does not hold the station
	if err := errors.Join(err, answers); err != nil {
		t.Fatal(err)
	}
	engine := store.Join("a")
	defer engine.Close()
	a, err := New(Options{Name: "a", Flow: engine, Hub: hub.New("1", zerolog.Nop()), Data: t.TempDir(),
		Log: zerolog.Nop(), Times: Times{Beat: beat, Dead: time.Hour}})
	if err != nil {
		t.Fatal(err)
	}
	defer a.Close()
	a.grace.Store(0) // the others were heard
	st := a.station("A")
	st.coached, st.lease = true, flow.Lease{Station: "A", Node: "a", Session: "s"}
	for _, c := range []struct {
		name   string
		heard  time.Duration // after the lease was found
		renews bool
	}{
		{"heard before", -beat / 2, false},
		{"sent before, and heard now", beat / 2, false},
		{"sent since", 2 * beat, true},
	} {
		a.peers.Put(&presence.Peer{Name: "b", Heard: time.Now().Add(c.heard)})
		st.keeper.refused()
		if renews := st.refused == nil; renews != c.renews {
			t.Errorf("%s: the lease is taken again: %v", c.name, renews)
		}
	}
	if st.lease.Fence != lease.Fence || st.lease.Node != "b" {
		t.Errorf("the lease is taken after %+v; must be %+v", st.lease, lease)
	}
}
