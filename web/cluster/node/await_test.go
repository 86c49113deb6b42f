package node

import (
	"net/netip"
	"testing"
	"time"

	"halfturn/coach/command"
	"halfturn/coach/playback"
	"halfturn/coach/who"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/flow/memory"
	"halfturn/web/desk/practice"
)

// TestKeptFirst: what is done at a station is answered once the record that has it is kept, wherever it was asked for;
// while the store does not answer, once the others were told.
func TestKeptFirst(t *testing.T) {
	store := memory.New()
	a, b := newRig(t, store, "a"), newRig(t, store, "b")
	o := playback.Opening{Session: "s", Station: "A"}
	a.Tap().Begin(practice.Beginning{Station: "A", Opening: o, Recorded: o})
	st := a.station("A")
	st.mu.Lock()
	st.coached = true
	st.mu.Unlock()
	until(t, func() bool { return b.elsewhere("A") == "a" }, func() string { return "b hears nothing of a" })
	until(t, func() bool {
		l, err := a.engine.Holder(t.Context(), "A")
		return err == nil && l.Node == "a"
	}, func() string { return "a has no lease" })
	at := netip.MustParseAddrPort("192.0.2.1:1")
	kept := func() (n int) {
		err := a.engine.Read(t.Context(), "A", "s", func(b *flow.Batch) error {
			for _, r := range b.Records {
				if string(r.Bytes) == "the next datagram" {
					n++
				}
			}
			return nil
		})
		if err != nil {
			t.Error(err)
		}
		return n
	}
	ask := func(r *rig) <-chan error {
		done := make(chan error, 1)
		desk := r.Wrap(a.desk)
		go func() {
			done <- desk.Do(t.Context(), command.New("1", time.Now(), "A", who.Owner(), command.Student{Name: "Ada"}))
		}()
		return done
	}
	sent := 0
	send := func(done <-chan error) (err error) { // until it is answered
		for {
			a.Tap().Datagram("s", practice.Datagram{Bytes: []byte("the next datagram"), From: at, To: at,
				Received: time.Unix(1, 0)})
			sent++
			select {
			case err = <-done:
				return err
			case <-time.After(20 * time.Millisecond):
			}
		}
	}
	for _, r := range []*rig{a, b} {
		a.desk.mu.Lock()
		before := len(a.desk.done)
		a.desk.mu.Unlock()
		done := ask(r)
		until(t, func() bool {
			a.desk.mu.Lock()
			defer a.desk.mu.Unlock()
			return len(a.desk.done) > before
		}, func() string { return "nothing is done" })
		before = sent
		began := time.Now()
		if err := send(done); err != nil || kept() <= before || time.Since(began) > a.opt.Times.Store {
			t.Errorf("asked for at %s: %v, after %v, and %d are kept; must be more than %d", r.opt.Name, err,
				time.Since(began), kept(), before)
		}
	}
	store.Stop(true)
	defer store.Stop(false)
	began := time.Now()
	if err := send(ask(a)); err != nil || time.Since(began) > 5*time.Second {
		t.Errorf("while the store is away: %v after %v", err, time.Since(began))
	}
}
