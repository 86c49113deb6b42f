package spool

import (
	"os"
	"path/filepath"
	"testing"

	"halfturn/stream/record"
)

// TestLeft: a session that was left to another node, and is followed and then flown here again, is recorded in a file
// that is shorter than the one before. Its pieces are stored all the same. While another node has it, nothing waits.
func TestLeft(t *testing.T) {
	c := newCluster(t)
	n := c.node(t, "a", t.TempDir(), Options{})
	f := n.fly(t, began)
	f.send(40)
	stored := func(more int64) func() bool {
		before := n.spool.State().Stored
		return func() bool {
			st := n.spool.State()
			return st.Stored > before+more && st.Bytes == 0
		}
	}
	until(t, "pieces are stored", stored(10_000))
	must(t, f.r.Close())
	dir := filepath.Join(n.Dir(), f.id)
	must(t, os.Rename(dir, filepath.Join(t.TempDir(), "aside")))
	n.fence.Store(0)
	n.spool.Complete(f.id, filepath.Join(dir, record.PartName(1)))
	until(t, "nothing of a session waits that was left", func() bool { return n.spool.State().Sessions == 0 })

	must(t, n.Folders().Make(f.id))
	n.spool.Stored(f.id, filepath.Join(dir, record.PartName(1)), 20_000)
	until(t, "what is only followed does not wait", func() bool { return n.spool.State().Sessions == 0 })
	n.fence.Store(2)
	again := n.goOn(t, f.id)
	again.send(10)
	until(t, "pieces of the new file are stored", stored(2000))
	must(t, again.r.Close())
	if n.log.Len() > 0 {
		t.Errorf("the log says %s", n.log.String())
	}
}

// TestMadeMeanwhile: a session that has no folder yet when it is looked for, and is announced before that is noted, is
// stored; of one that has none and is not announced, nothing waits.
func TestMadeMeanwhile(t *testing.T) {
	s := New(Options{})
	for _, announced := range []bool{false, true} {
		s.begin("one")
		s.mu.Lock()
		j := s.job("one")
		news := j.news
		s.mu.Unlock()
		if announced {
			s.ended("one")
		}
		s.drop(j, news)
		s.mu.Lock()
		if waits := !j.idle(); waits != announced {
			t.Errorf("announced: %v; it waits: %v", announced, waits)
		}
		s.mu.Unlock()
	}
}
