package node

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"halfturn/coach/playback"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/flow/memory"
	"halfturn/web/cluster/tenures"
	"halfturn/web/cluster/tenures/tenurestest"
)

// TestGapRead: where something was lost of what was told of a record, it is read from the store: a batch, or the
// beginning of what a second node told. While the store does not answer, what was told before that has to do.
func TestGapRead(t *testing.T) {
	store := memory.New()
	a, b := store.Join("a"), newRig(t, store, "b")
	defer a.Close()
	lease, err := a.Claim(t.Context(), flow.Lease{Station: "A"}, "s")
	if err != nil {
		t.Fatal(err)
	}
	first := tenurestest.Script(lease.Fence, "a", "ta", nil, "abcd")
	keep := func(list []tenures.Told) {
		for _, x := range list {
			if err := a.Keep(t.Context(), x.Batch); err != nil {
				t.Fatal(err)
			}
		}
	}
	keep(first)
	st := b.station("A")
	try := func(name string, heard []tenures.Told, want, away string) {
		t.Helper()
		st.heard = &tenures.Heard{Batches: heard}
		f, err := b.recordOf(t.Context(), st, "s")
		if got := tenurestest.Words(t, f, err); got != want {
			t.Errorf("%s: %q; must be %q", name, got, want)
		}
		store.Stop(true)
		f, err = b.recordOf(t.Context(), st, "s")
		if got := tenurestest.Words(t, f, err); got != away {
			t.Errorf("%s, and the store is away: %q; must be %q", name, got, away)
		}
		store.Stop(false)
	}
	try("a batch is lost", slices.Concat(first[:1], first[2:3]), "abcd", "a")
	if lease, err = a.Claim(t.Context(), lease, "s"); err != nil {
		t.Fatal(err)
	}
	second := tenurestest.Script(lease.Fence, "c", "tc", &tenures.Point{Tenure: "ta", Number: 3}, "xyz")
	keep(second)
	try("nothing is lost", slices.Concat(first[:3], second), "abcxyz", "abcxyz")
	try("the beginning of the second node is lost", slices.Concat(first[:3], second[1:]), "abcxyz", "abc")
	st.heard = nil
}

// TestGapFilled: a batch that a node which follows did not hear is asked for, while the store does not answer. The node
// follows on, and has played all that was recorded, in its order and once.
func TestGapFilled(t *testing.T) {
	store := memory.New()
	a, b := newRig(t, store, "a"), newRig(t, store, "b")
	f := &fakeFollowed{}
	b.desk.follow = func(playback.Opening) (Followed, error) { return f, nil }
	p := newPilot(t, a)
	b.hears(p, false)
	follows := func() {
		t.Helper()
		want := ""
		for i := range p.sent {
			want += fmt.Sprintf("datagram %d;", i+1)
		}
		until(t, func() bool { return f.heard() == want },
			func() string { return fmt.Sprintf("b has played %q; must be %q", f.heard(), want) })
	}
	p.send()
	follows()
	store.Stop(true)
	defer store.Stop(false)
	lose := func(batches int) {
		b.engine.Cut(true)
		for range batches {
			p.send()
			a.station("A").flush(time.Now(), true)
		}
		b.engine.Cut(false)
	}
	for _, batches := range []int{1, 3} {
		lose(batches)
		p.send()
		a.station("A").flush(time.Now(), true)
		follows()
	}
	if st := b.station("A"); st.keptBy("a") == nil {
		t.Error("nothing was kept before the store was away")
	}
}
