package node

import (
	"context"
	"time"
)

// awaitKept waits until the record of a station is kept up to the next datagram: what was done at the station just now
// is recorded with it. It waits no longer than the store may take to answer. While the store is away it is enough that
// the others were told; and of a station that sends nothing, nothing can be kept.
func (n *Node) awaitKept(ctx context.Context, station string) {
	st := n.known(station)
	if st == nil {
		return
	}
	ctx, cancel := context.WithTimeout(ctx, n.opt.Times.Store)
	defer cancel()
	st.mu.Lock()
	w := wait{of: st.tenure}
	if w.of != nil {
		w.count = w.of.count
	}
	st.mu.Unlock()
	for ; !st.hasKept(&w) && ctx.Err() == nil; pause(ctx, 5*time.Millisecond) {
		if w.batch > 0 {
			st.flush(time.Now(), true)
		}
	}
}

// A wait is for the next datagram of a tenure to be kept.
type wait struct {
	of    *tenure
	count int    // of the datagrams before
	batch uint64 // that has the next one; 0 while it has not come
}

// hasKept reports whether there is nothing to wait for any more.
func (st *station) hasKept(w *wait) bool {
	st.mu.Lock()
	defer st.mu.Unlock()
	x := st.tenure
	if x == nil || x != w.of { // over, or the next tenure has it
		return true
	}
	if w.batch == 0 && x.count > w.count {
		if w.batch = x.number; len(x.batch.Records) > 0 {
			w.batch++
		}
	}
	switch {
	case w.batch == 0:
		return false
	case !st.node.opt.Flow.Away().IsZero():
		return x.number >= w.batch
	}
	return st.kept != nil && st.kept.Tenure == x.id && st.kept.Number >= w.batch
}
