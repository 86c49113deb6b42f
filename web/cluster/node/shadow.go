package node

import (
	"context"
	"time"

	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/tenures"
	"halfturn/web/desk/practice"
)

// A shadow follows a session that another node flies, so that this one can go on with it at once.
type shadow struct {
	station *station
	played  Followed
	on      *goingOn
	at      tenures.Point  // the last batch that was taken
	recent  tenures.Recent // those that may not be kept
	node    string         // that records
	unpack  tenures.Unpacker
	filling bool // batches are missing, and were asked for
}

// tryAgain is how long a session is not followed after that has failed: its record has a gap, or is not kept yet.
const tryAgain = 5 * time.Second

// shadowOf follows a session from its beginning, by what is kept and told of it.
func (n *Node) shadowOf(ctx context.Context, st *station, session string) (*shadow, error) {
	f, err := n.recordOf(ctx, st, session)
	if err != nil {
		return nil, err
	}
	sh := &shadow{
		station: st,
		on:      &goingOn{session: session, playing: true, published: f.Published},
		at:      f.End,
		node:    f.Node,
	}
	st.mu.Lock()
	st.goesOn = sh.on
	st.mu.Unlock()
	if sh.played, err = n.desk.Follow(f.Opening); err != nil {
		st.mu.Lock()
		st.goesOn = nil
		st.mu.Unlock()
		return nil, err
	}
	n.following(session, true)
	n.notes.Fly(st.name, session, 0)
	err = f.Each(func(at tenures.Point, b *flow.Batch) error {
		sh.on.tells(b.Events)
		return sh.feed(at, b)
	})
	if err != nil {
		sh.leave()
		return nil, err
	}
	sh.recent.Drop(f.Kept)
	return sh, nil
}

// feed plays a batch.
func (sh *shadow) feed(at tenures.Point, b *flow.Batch) error {
	sh.recent.Add(at, b, sh.station.node.opt.Limits.Heard)
	return sh.unpack.Batch(b, func(d *practice.Datagram, head bool) { sh.played.Datagram(d, head) })
}

// leave ends following: another node has the session, or it is over.
func (sh *shadow) leave() {
	st := sh.station
	session := sh.played.Abandon()
	defer st.node.following(session, false) // once its folder is away
	st.mu.Lock()
	if st.goesOn == sh.on {
		st.goesOn = nil
	}
	st.mu.Unlock()
	st.node.notes.Aside(st.name, session)
	st.node.notes.Fly(st.name, "", 0)
}

// shadowSoon begins to follow the session that another node flies, if none is followed.
func (st *station) shadowSoon(now time.Time) {
	n := st.node
	_, h := n.holder(st.name)
	if h.Session == "" || !st.following.TryLock() {
		return
	}
	begin := st.shadow == nil && now.Sub(st.tried) >= tryAgain
	if begin {
		st.tried = now
	}
	st.following.Unlock()
	if begin {
		n.work.Go(func() { n.opt.Faults.Run("cluster", st.name, func() { st.begins(h.Session) }) })
	}
}

// begins follows a session.
func (st *station) begins(session string) {
	st.following.Lock()
	defer st.following.Unlock()
	st.mu.Lock()
	busy := st.coached || st.heard == nil || st.goesOn != nil
	st.mu.Unlock()
	if busy || st.shadow != nil {
		return
	}
	ctx, cancel := context.WithTimeout(st.node.ctx, readWait)
	defer cancel()
	st.mu.Lock()
	st.hurry = cancel
	st.mu.Unlock()
	sh, err := st.node.shadowOf(ctx, st, session)
	if err != nil {
		st.node.opt.Log.Debug().Err(err).Str("station", st.name).Msg("the session of another node is not followed yet")
		return
	}
	st.shadow = sh
	st.mu.Lock()
	var since []tenures.Told // while it was read
	if st.heard != nil {
		since = append(since, st.heard.Batches...)
	}
	st.mu.Unlock()
	st.takeAll(since)
}

// takeAll has the shadow take what was told. following is held.
func (st *station) takeAll(all []tenures.Told) {
	for _, t := range all {
		st.take(t.Node, t.Batch)
	}
}

// follow has the shadow take a batch that was told.
func (st *station) follow(node string, b *flow.Batch) {
	st.following.Lock()
	defer st.following.Unlock()
	st.take(node, b)
}

// take takes a batch that goes on with those before; one that does not ends following. following is held.
func (st *station) take(node string, b *flow.Batch) {
	sh := st.shadow
	if sh == nil {
		return
	}
	o := tenures.OpeningOf(b)
	same := b.Session == sh.on.session
	switch {
	case same && o == nil && node == sh.node && b.Number <= sh.at.Number, same && o != nil && o.Tenure == sh.at.Tenure:
		return // it was taken
	case same && o == nil && node == sh.node && b.Number == sh.at.Number+1:
	case same && o == nil && node == sh.node && sh.filling:
		return // it is taken once those before are here
	case same && o == nil && node == sh.node:
		sh.filling = true
		after := sh.at
		st.node.work.Go(func() { st.node.opt.Faults.Run("cluster", st.name, func() { st.fill(sh, node, &after) }) })
		return
	case same && tenures.CarriedOf(b) != nil:
		return // it was taken when it was told first
	case same && o != nil && o.After != nil && *o.After == sh.at:
		sh.at.Tenure, sh.node = o.Tenure, o.Node
	default:
		st.shadow = nil
		sh.leave()
		return
	}
	sh.at.Number = b.Number
	st.mu.Lock()
	for i := range b.Events {
		sh.on.published[b.Events[i].ID] = true
	}
	sh.on.tells(b.Events)
	st.mu.Unlock()
	err := sh.feed(sh.at, b)
	sh.recent.Drop(st.keptBy(node))
	if err != nil || sh.unpack.Over {
		if err == nil {
			st.node.flownElsewhere(st.name, sh.unpack.Ending)
		}
		st.shadow = nil
		sh.leave()
	}
}

// fill asks the node that told them for batches that were lost on the way: it has those that the store has not kept,
// which may be away. Where some are missing still, following ends, and begins again with what is kept.
func (st *station) fill(sh *shadow, node string, after *tenures.Point) {
	a, err := st.node.question(st.node.ctx, node, &question{Kind: askRecord, Station: st.name, After: after})
	st.following.Lock()
	defer st.following.Unlock()
	if st.shadow != sh {
		return
	}
	var since []tenures.Told
	st.mu.Lock()
	if err == nil {
		missing := tenures.Decode(st.name, node, a.Batches)
		if st.heard != nil {
			st.heard.Fill(missing)
		}
		since = missing
	}
	if st.heard != nil {
		since = append(since, st.heard.Batches...)
	}
	st.mu.Unlock()
	st.takeAll(since)
	if st.shadow != sh {
		return
	}
	sh.filling = false
	if err != nil && !st.node.opt.Flow.Away().IsZero() {
		return // it is all there is, and what is heard here may go on from there; the next batch asks again
	}
	if n := len(since); n > 0 && since[n-1].Node == sh.node && since[n-1].Batch.Number > sh.at.Number {
		st.shadow = nil
		sh.leave()
	}
}

// unfollow ends following.
func (st *station) unfollow() {
	st.following.Lock()
	defer st.following.Unlock()
	if sh := st.shadow; sh != nil {
		st.shadow = nil
		sh.leave()
	}
}
