package tenures

import (
	"testing"

	"halfturn/web/cluster/flow"
)

// TestRecent: what may not be kept is what was told since the last batch that is known to be kept, and is bounded.
func TestRecent(t *testing.T) {
	var r Recent
	for i := range uint64(10) {
		r.Add(Point{"t", i + 1}, &flow.Batch{Number: i + 1}, 1<<20)
	}
	if r.Drop(nil); len(r.list) != 10 {
		t.Errorf("%d batches; nothing was kept of 10", len(r.list))
	}
	if r.Drop(&Point{"other", 3}); len(r.list) != 10 {
		t.Errorf("%d batches; nothing was kept of this tenure's 10", len(r.list))
	}
	if r.Drop(&Point{"t", 7}); len(r.list) != 3 || r.list[0].At.Number != 8 || r.size != 3*r.list[0].size {
		t.Errorf("%+v, %d bytes", r.list, r.size)
	}
	r.Add(Point{"u", 1}, &flow.Batch{Number: 1}, 1<<20)
	if r.Drop(&Point{"u", 1}); len(r.list) != 0 || r.size != 0 {
		t.Errorf("%d batches are left that are kept, %d bytes", len(r.list), r.size)
	}
	for i := range uint64(1000) {
		if r.Add(Point{"v", i + 1}, &flow.Batch{Number: i + 1}, 1000); r.size > 1000 {
			t.Fatalf("%d bytes", r.size)
		}
	}
}

// TestHeardBounded: what is heard of a record is bounded, and forgotten with the next session.
func TestHeardBounded(t *testing.T) {
	var r Heard
	for i := range 1000 {
		r.Add(Told{"a", &flow.Batch{Session: "s", Number: uint64(i)}, 100}, 5000)
		if r.size > 5000 || len(r.Batches) > 50 {
			t.Fatalf("%d bytes in %d batches", r.size, len(r.Batches))
		}
	}
	r.Add(Told{"a", &flow.Batch{Session: "next"}, 100}, 5000)
	if len(r.Batches) != 1 || r.size != 100 {
		t.Errorf("%d batches, %d bytes", len(r.Batches), r.size)
	}
}
