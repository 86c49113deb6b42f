// Package memory joins the nodes of one process: a cluster on one machine, in tests. Its store can be stopped and its
// nodes cut off, as engines and networks fail.
package memory

import (
	"context"
	"fmt"
	"slices"
	"sync"
	"time"

	"halfturn/web/cluster/flow"
)

// A Store is what the nodes of a cluster share.
type Store struct {
	mu       sync.Mutex
	sequence uint64 // of all leases: fences come from it
	stations map[string]*record
	nodes    []*Engine
	stopped  time.Time     // since when the store does not answer; zero: it does
	changed  chan struct{} // closed and replaced when what calls wait for may have come
}

// A record is what is kept of a station. Batches are kept encoded, so that nobody can change them.
type record struct {
	lease flow.Lease
	kept  []kept
}

type kept struct {
	fence, number uint64
	session       string
	bytes         []byte
}

// New returns a store that holds nothing.
func New() *Store { return &Store{stations: map[string]*record{}, changed: make(chan struct{})} }

// Join adds a node.
func (s *Store) Join(node string) *Engine {
	ctx, end := context.WithCancel(context.Background())
	e := &Engine{store: s, node: node, ctx: ctx, end: end}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.nodes = append(s.nodes, e)
	return e
}

// Stop has the store answer nobody, or, with false, everybody again. What is told and asked goes on.
func (s *Store) Stop(stop bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.stopped = since(stop, s.stopped)
	s.wake()
}

func since(is bool, was time.Time) time.Time {
	switch {
	case !is:
		return time.Time{}
	case was.IsZero():
		return time.Now()
	}
	return was
}

// wake has calls that wait look again; the store is locked.
func (s *Store) wake() {
	close(s.changed)
	s.changed = make(chan struct{})
}

// An Engine is a node.
type Engine struct {
	store *Store
	node  string
	ctx   context.Context // of answers; ends with the engine
	end   context.CancelFunc
	tasks sync.WaitGroup // listeners and answers

	// The store's lock guards these.
	cut       time.Time // since when nothing passes; zero: it does
	alone     time.Time // likewise, of what does not pass to and from other nodes
	closed    bool
	listeners []*listener
	answer    func(ctx context.Context, question []byte) []byte
}

var _ flow.Engine = (*Engine)(nil)

// Cut separates the node from the store and from all others, or joins it again, as a network does that fails: nobody
// is told.
func (e *Engine) Cut(cut bool) {
	e.store.mu.Lock()
	defer e.store.mu.Unlock()
	e.cut = since(cut, e.cut)
	e.store.wake()
}

// Isolate separates the node from all others, and not from the store, or joins it again.
func (e *Engine) Isolate(is bool) {
	e.store.mu.Lock()
	defer e.store.mu.Unlock()
	e.alone = since(is, e.alone)
}

// Alone says since when this node is separated from the others.
func (e *Engine) Alone() time.Time {
	e.store.mu.Lock()
	defer e.store.mu.Unlock()
	return earlier(e.cut, e.alone)
}

// earlier is the earlier of two times; zero is none.
func earlier(a, b time.Time) time.Time {
	if a.IsZero() || !b.IsZero() && b.Before(a) {
		return b
	}
	return a
}

// isReachable reports whether anything passes to and from other nodes; the store is locked.
func (e *Engine) isReachable() bool { return e.cut.IsZero() && e.alone.IsZero() }

// away says since when the store does not answer this node; the store is locked.
func (e *Engine) away() time.Time { return earlier(e.cut, e.store.stopped) }

// Away says since when the store does not answer this node.
func (e *Engine) Away() time.Time {
	e.store.mu.Lock()
	defer e.store.mu.Unlock()
	return e.away()
}

// with calls do with the record of a station once the store answers. The store is locked meanwhile.
func (e *Engine) with(ctx context.Context, station string, do func(*record) error) error {
	s := e.store
	for {
		s.mu.Lock()
		if e.closed {
			s.mu.Unlock()
			return flow.ErrClosed
		}
		away, changed := !e.away().IsZero(), s.changed
		if !away && ctx.Err() == nil {
			defer s.mu.Unlock()
			if s.stations[station] == nil {
				return do(&record{lease: flow.Lease{Station: station}})
			}
			return do(s.stations[station])
		}
		s.mu.Unlock()
		if !away {
			return ctx.Err()
		}
		select {
		case <-changed:
		case <-ctx.Done():
			return fmt.Errorf("%w: %w", flow.ErrAway, ctx.Err())
		}
	}
}

// Claim takes the lease of a station.
func (e *Engine) Claim(ctx context.Context, after flow.Lease, session string) (l flow.Lease, err error) {
	err = e.with(ctx, after.Station, func(r *record) error {
		if r.lease.Fence != after.Fence {
			return flow.ErrTaken
		}
		e.store.stations[after.Station] = r
		l = e.store.write(r, flow.Lease{Station: after.Station, Node: e.node, Session: session})
		return nil
	})
	return l, err
}

// write sets the lease of a station; the store is locked.
func (s *Store) write(r *record, l flow.Lease) flow.Lease {
	s.sequence++
	l.Fence = s.sequence
	r.lease = l
	return l
}

// Release gives a lease back.
func (e *Engine) Release(ctx context.Context, l flow.Lease) error {
	return e.with(ctx, l.Station, func(r *record) error {
		if r.lease.Fence == l.Fence && r.lease.Node != "" {
			e.store.write(r, flow.Lease{Station: l.Station, Session: l.Session})
		}
		return nil
	})
}

// Holder returns the last lease of a station.
func (e *Engine) Holder(ctx context.Context, station string) (l flow.Lease, err error) {
	err = e.with(ctx, station, func(r *record) error {
		l = r.lease
		return nil
	})
	return l, err
}

// Held calls each with the last lease of every station, in the order of their names.
func (e *Engine) Held(ctx context.Context, each func(flow.Lease) error) error {
	var all []flow.Lease
	err := e.with(ctx, "", func(*record) error {
		for _, r := range e.store.stations {
			all = append(all, r.lease)
		}
		return nil
	})
	if err != nil {
		return err
	}
	slices.SortFunc(all, func(a, b flow.Lease) int {
		if a.Station < b.Station {
			return -1
		}
		return 1
	})
	for _, l := range all {
		if err := each(l); err != nil {
			return err
		}
	}
	return nil
}

// Keep adds a batch to the record of its station.
func (e *Engine) Keep(ctx context.Context, b *flow.Batch) error {
	bytes, err := flow.EncodeBatch(b)
	if err != nil {
		return err
	}
	return e.with(ctx, b.Station, func(r *record) error {
		if b.Fence == 0 || b.Fence != r.lease.Fence {
			return flow.ErrTaken
		}
		if n := len(r.kept); n > 0 && r.kept[n-1].fence == b.Fence && r.kept[n-1].number >= b.Number {
			return nil // it is there
		}
		r.kept = append(r.kept, kept{b.Fence, b.Number, b.Session, bytes})
		return nil
	})
}

// Read calls each with the batches of a station from a session on.
func (e *Engine) Read(ctx context.Context, station, session string, each func(*flow.Batch) error) error {
	var all []kept
	err := e.with(ctx, station, func(r *record) error {
		all = r.kept[first(r, session):len(r.kept):len(r.kept)]
		return nil
	})
	if err != nil {
		return err
	}
	for _, k := range all {
		if err := ctx.Err(); err != nil {
			return err
		}
		b, err := flow.DecodeBatch(k.bytes)
		if err != nil {
			return err
		}
		if err := each(b); err != nil {
			return err
		}
	}
	return nil
}

// first is where a session begins: behind all when it is not there.
func first(r *record, session string) int {
	if session == "" {
		return 0
	}
	if i := slices.IndexFunc(r.kept, func(k kept) bool { return k.session == session }); i >= 0 {
		return i
	}
	return len(r.kept)
}

// Drop removes the batches of a station that were kept before a session began.
func (e *Engine) Drop(ctx context.Context, station, session string) error {
	return e.with(ctx, station, func(r *record) error {
		i := first(r, session)
		switch {
		case session == "":
			r.kept = nil
		case i < len(r.kept):
			r.kept = slices.Clone(r.kept[i:])
		}
		return nil
	})
}
