package node

import (
	"context"
	"net/http"
	"time"

	"halfturn/stream/phrase"
	"halfturn/web/cluster/tenures"
	"halfturn/web/guard"
)

// certain returns nil once what was done at a station just now outlives this node: the store keeps the batch that has
// it, and every node that hears the station knows of that batch, so that none goes on without it. While the store is
// away these nodes have to follow the session up to there, and there must be one. It waits no longer than Times.Keep;
// the error says that it is not known whether that will be kept.
//
// What is done is recorded with the next datagram. Of a station that sends nothing, and that no other node hears, it is
// as certain as on a single server, which loses it when it is killed before the station sends again.
func (n *Node) certain(ctx context.Context, station string) error {
	st := n.known(station)
	if st == nil {
		return nil
	}
	w, needed := st.waits()
	if !needed {
		return nil
	}
	ctx, cancel := context.WithTimeout(ctx, n.opt.Times.Keep)
	defer cancel()
	silent := time.Now().Add(n.opt.Times.Store)
	for ; ctx.Err() == nil; pause(ctx, 5*time.Millisecond) {
		fate := st.look(&w)
		if fate == lost || n.hopeless(station) {
			break
		}
		if n.awake(time.Now()) && n.isCertain(ctx, st, &w, fate, time.Now().After(silent)) {
			return nil
		}
	}
	return unsure(station)
}

// isCertain reports whether nothing is to be waited for any more.
func (n *Node) isCertain(ctx context.Context, st *station, w *wait, fate fate, silent bool) bool {
	others, away := n.HeardBy(st.name), !n.opt.Flow.Away().IsZero()
	switch fate {
	case unrecorded:
		return !away
	case comes:
		return silent && !away && len(others) == 0
	case batched:
		st.flush(time.Now(), true)
	case sent:
		return away && len(others) > 0 && n.allKnow(ctx, st, w, others)
	case kept:
		return n.allKnow(ctx, st, w, others)
	}
	return false
}

// hopeless reports whether nothing can be kept, nor told to anybody, for longer than somebody is to wait.
func (n *Node) hopeless(station string) bool {
	away := n.opt.Flow.Away()
	return !away.IsZero() && time.Since(away) > n.opt.Times.Keep && len(n.HeardBy(station)) == 0
}

// unsure says for whoever asked for something that it may be lost.
func unsure(station string) error {
	return &guard.Problem{
		Status: http.StatusGatewayTimeout, // and not 503, which says when to try again
		Phrase: phrase.CommandUnsure.Of(phrase.Name("station", station)),
	}
}

// A fate is what became of what was done at a station.
type fate int

const (
	unrecorded fate = iota // nothing of the station is recorded
	comes                  // it is recorded with the next datagram
	batched                // it is in a batch that grows still
	sent                   // to whoever listens
	kept                   // by the store
	lost                   // another node has the station, or the batch is dropped
)

// A wait is for the next datagram of a tenure to be kept.
type wait struct {
	of    *tenure // nil: nothing is recorded
	count int     // of the datagrams before
	batch uint64  // that has the next one; 0 while it has not come
}

// waits is a wait for what was done at the station just now; false where nobody else could go on with it.
func (st *station) waits() (w wait, needed bool) {
	st.mu.Lock()
	defer st.mu.Unlock()
	if w.of = st.tenure; w.of != nil {
		w.count = w.of.count
	}
	return w, !st.own && (w.of != nil || st.coached)
}

// look says what became of what is waited for.
func (st *station) look(w *wait) fate {
	st.mu.Lock()
	defer st.mu.Unlock()
	if w.of == nil {
		if !st.coached && !st.leaving {
			return lost
		}
		return unrecorded
	}
	for ; w.of.next != nil; w.of = w.of.next { // under the next lease
		switch {
		case w.batch > 0 || w.of.count > w.count:
			w.batch = w.of.carried
		default:
			w.count = 0
		}
	}
	x := w.of
	if w.batch == 0 && (x.count > w.count || x.ended) {
		if w.batch = x.number; len(x.batch.Records) > 0 {
			w.batch++
		}
	}
	switch {
	case w.batch > 0 && x.kept >= w.batch:
		return kept
	case x.dropped, w.batch == 0 && x.left:
		return lost
	case w.batch == 0:
		return comes
	case x.number < w.batch:
		return batched
	}
	return sent
}

// A progress is how much of a tenure is kept, and how it ended. The lock of the station guards it.
type progress struct {
	kept    uint64  // the last batch that is kept
	ended   bool    // with its session
	left    bool    // to another node: nothing more is recorded
	dropped bool    // what is not kept will not be
	next    *tenure // which has what is not kept of this one, in its first batches
	carried uint64  // the last of these
}

// awake reports whether this node knows what the others hold: it hears them, and does not stand still, and that for a
// while.
func (n *Node) awake(now time.Time) bool {
	return !n.deaf(now) && now.Sub(n.started)-time.Duration(n.ticked.Load()) <= n.opt.Times.still()
}

// allKnow reports whether other nodes would go on with a station behind the batch that is waited for.
func (n *Node) allKnow(ctx context.Context, st *station, w *wait, others []string) bool {
	st.mu.Lock()
	batch := &tenures.Point{Tenure: w.of.id, Number: w.batch}
	q := question{Kind: askKnows, Station: st.name, After: batch, Fence: st.fence(w.of)}
	st.mu.Unlock()
	away := !n.opt.Flow.Away().IsZero()
	ctx, cancel := context.WithTimeout(ctx, n.opt.Times.Dead) // then it is one of them no longer
	defer cancel()
	for _, name := range others {
		a, err := n.ask(ctx, name, &q)
		if err != nil || !a.Follows && (away || !a.Heard) {
			return false
		}
	}
	return true
}

// knows answers a node whether this one would go on with a station behind a batch of it.
func (n *Node) knows(q *question) *answer {
	st := n.known(q.Station)
	if st == nil || q.After == nil {
		return &answer{}
	}
	a := &answer{}
	if st.following.TryLock() {
		a.Follows = st.shadow != nil && st.shadow.at.Covers(q.After)
		st.following.Unlock()
	}
	st.mu.Lock()
	defer st.mu.Unlock()
	if on := st.goesOn; on != nil && on.after.Covers(q.After) { // it went on just now
		a.Follows = true
	}
	if st.heard != nil && q.Fence > 0 {
		for _, t := range st.heard.Batches {
			a.Heard = a.Heard || t.Batch.Fence == q.Fence && t.Batch.Number >= q.After.Number
		}
	}
	return a
}
