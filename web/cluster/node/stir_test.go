package node

import (
	"sync/atomic"
	"testing"
	"time"

	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/flow/memory"
)

// TestStirred: however often a node has something to tell soon, it gives no more signs of life than others can read;
// the latest of what it has to tell is told.
func TestStirred(t *testing.T) {
	const beat, lasts = 4 * time.Second, 1500 * time.Millisecond
	store := memory.New()
	b := store.Join("b")
	defer b.Close()
	var told atomic.Int32
	stop, err := b.Listen(flow.Nodes, "", func(flow.Told) { told.Add(1) })
	if err != nil {
		t.Fatal(err)
	}
	defer stop()
	a := rigWith(t, store, "a", func(o *Options) { o.Times.Beat, o.Times.Batch = beat, beat/40 })
	began := time.Now()
	for ; time.Since(began) < lasts; <-time.After(time.Millisecond) {
		a.stir()
	}
	most := int32(time.Since(began)/a.opt.Times.soonest()) + atOnce + 1
	if n := told.Load(); n > most || n < 3 {
		t.Errorf("%d signs of life; at most %d", n, most)
	}
	before, stirred := told.Load(), time.Now()
	a.stir()
	until(t, func() bool { return told.Load() > before }, func() string { return "it is not told" })
	if after := time.Since(stirred); after > beat*3/4 {
		t.Errorf("it is told after %v, with the next regular sign of life", after)
	}
}
