package spool

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"halfturn/coach/archive/depot"
	"halfturn/stream/record"
)

// TestLeft: a session that was left to another node, and is followed and then flown here again, is recorded in a file
// that is shorter than the one before. Its pieces are stored all the same. While another node has it, nothing waits.
func TestLeft(t *testing.T) {
	c := newCluster(t)
	n := c.node(t, "a", t.TempDir(), Options{})
	f := n.fly(t, began)
	stored := func(more int64) func() bool { // of what is sent from now on
		before := n.spool.State().Stored
		return func() bool {
			st := n.spool.State()
			return st.Stored > before+more && st.Bytes == 0
		}
	}
	are := stored(10_000)
	f.send(40)
	until(t, "pieces are stored", are)
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
	are = stored(2000)
	again.send(10)
	until(t, "pieces of the new file are stored", are)
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

// TestNotAsked: while the depot is away, a session that another node has, of which nothing is stored, does not say that
// the depot is back.
func TestNotAsked(t *testing.T) {
	c := newCluster(t)
	n := c.node(t, "a", t.TempDir(), Options{})
	c.depot.Off(true)
	f := n.fly(t, began)
	f.send(40)
	f.begin(t)
	until(t, "the depot is away", func() bool { return !n.spool.State().Away.IsZero() })
	n.fence.Store(0) // the others are looked at, and not stored
	j := func() *job {
		n.spool.mu.Lock()
		defer n.spool.mu.Unlock()
		return n.spool.jobs[f.id]
	}()
	until(t, "it is looked at again", func() bool {
		n.spool.mu.Lock()
		defer n.spool.mu.Unlock()
		return !j.busy && j.due.After(n.spool.next)
	})
	if n.spool.State().Away.IsZero() {
		t.Error("the depot is said to be back")
	}
	must(t, f.r.Close())
}

// A picky depot refuses all of one session, as a store does that has lost what it keeps of it, or a rule about it.
type picky struct {
	depot.Depot
	session atomic.Value
	asked   atomic.Int64 // for that session
}

func (p *picky) refuses(name string) error {
	if s, _ := p.session.Load().(string); s != "" && strings.Contains(name, s) {
		p.asked.Add(1)
		return fmt.Errorf("%w: %s", depot.ErrDenied, name)
	}
	return nil
}

func (p *picky) Put(ctx context.Context, name string, r io.Reader, size int64) (depot.Object, error) {
	if err := p.refuses(name); err != nil {
		return depot.Object{}, err
	}
	return p.Depot.Put(ctx, name, r, size)
}

func (p *picky) Create(ctx context.Context, name string, r io.Reader, size int64) (depot.Object, error) {
	if err := p.refuses(name); err != nil {
		return depot.Object{}, err
	}
	return p.Depot.Create(ctx, name, r, size)
}

// TestOneRefused: a session that the depot takes nothing of holds up no other, is tried again, and is stored once the
// depot takes it. The depot is not said to be away meanwhile.
func TestOneRefused(t *testing.T) {
	c := newCluster(t)
	p := &picky{Depot: c.depot.Depot}
	c.depot.Depot = p
	n := c.node(t, "a", t.TempDir(), Options{Workers: 1, retryLast: 500 * time.Millisecond})
	reader := c.node(t, "r", t.TempDir(), Options{})
	reader.fence.Store(0)
	bad := n.fly(t, began)
	p.session.Store(bad.id)
	bad.send(40)
	bad.begin(t)
	until(t, "one is refused", func() bool { return p.asked.Load() > 0 })
	good := n.fly(t, began.Add(time.Hour))
	good.send(40)
	good.begin(t)
	until(t, "the other is stored", func() bool { return read(t, reader, good.id) == 40 })
	until(t, "one is refused again", func() bool { return p.asked.Load() > 1 })
	good.send(10)
	until(t, "the other goes on", func() bool { return read(t, reader, good.id) == 50 })
	if st := n.spool.State(); !st.Away.IsZero() || st.Sessions == 0 {
		t.Errorf("%+v: the depot answers, and a session waits", st)
	}
	until(t, "one is refused for long", func() bool { return p.asked.Load() > 5 })
	p.session.Store("")
	must(t, good.r.Close())
	until(t, "it is stored in the end", func() bool { return read(t, reader, bad.id) == 40 })
	must(t, bad.r.Close())
	n.stop()
	says := n.log.String()
	if strings.Count(says, "recordings wait") != 1 || strings.Count(says, "is tried again") != 1 {
		t.Errorf("it is told again and again: %s", says)
	}
}

// TestStandsStill: a depot that takes a request and never ends it is said to be away, and what waits is tried again.
func TestStandsStill(t *testing.T) {
	c := newCluster(t)
	stands := &still{Depot: c.depot.Depot}
	stands.is.Store(true)
	c.depot.Depot = stands
	data := t.TempDir()
	n := c.node(t, "a", data, Options{sendWait: 50 * time.Millisecond})
	f := n.fly(t, began)
	f.send(40)
	f.begin(t)
	until(t, "the depot is away", func() bool { return !n.spool.State().Away.IsZero() })
	stands.is.Store(false)
	until(t, "all is stored", func() bool { st := n.spool.State(); return st.Away.IsZero() && st.Bytes == 0 })
	must(t, f.r.Close())
}

// still is a depot that can stand still.
type still struct {
	depot.Depot
	is atomic.Bool
}

func (s *still) Put(ctx context.Context, name string, r io.Reader, size int64) (depot.Object, error) {
	if s.is.Load() {
		<-ctx.Done()
		return depot.Object{}, ctx.Err()
	}
	return s.Depot.Put(ctx, name, r, size)
}
