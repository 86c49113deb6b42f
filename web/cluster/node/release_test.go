package node

import (
	"slices"
	"testing"

	"halfturn/web/cluster/flow/memory"
)

// TestReleasedTwice: a station is taken over while the store is asked to take its lease back: what waits is dropped,
// and then the store answers.
func TestReleasedTwice(t *testing.T) {
	a := newRig(t, memory.New(), "a")
	st := a.station("A")
	k := st.keeper
	k.mu.Lock()
	k.running = true // the test does what it does
	k.mu.Unlock()
	st.release()
	k.mu.Lock()
	steps := slices.Clone(k.steps)
	k.mu.Unlock()
	if len(steps) != 1 {
		t.Fatalf("%d steps wait; must be 1", len(steps))
	}
	k.clear()
	k.done(steps[0], true)
	until(t, func() bool {
		st.mu.Lock()
		defer st.mu.Unlock()
		return !st.leaving
	}, func() string { return "the station is still being left" })
}
