package node

import (
	"context"
	"time"

	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/presence"
	"halfturn/web/cluster/tenures"
)

// Settle looks at the sessions that this node flew when it ended. Those that another node has taken over are moved
// aside; the others are resumed as on a single server. It waits for the store no longer than ctx: without an answer
// they are resumed, and left to the other node when the store is back. It is called before the desk starts.
func (n *Node) Settle(ctx context.Context) {
	for _, f := range n.notes.Flown() {
		l, err := n.opt.Flow.Holder(ctx, f.Station)
		st := n.station(f.Station)
		st.mu.Lock()
		if st.lease.Fence = max(f.Fence, l.Fence); err == nil {
			st.lease, st.known = l, true
			st.lease.Station = f.Station
		} else {
			st.lease.Node, st.lease.Session = n.opt.Name, f.Session
			st.known = true // it was written: who took the station over wrote another one
		}
		taken := err == nil && l.Node != n.opt.Name && l.Fence > f.Fence
		st.doubt = !taken
		st.mu.Unlock()
		if taken {
			n.notes.Aside(f.Station, f.Session)
			n.notes.Fly(f.Station, "", 0)
		}
	}
}

// sweep removes the folders that were moved aside, once the session is over on the node that went on with it. One that
// no other node went on with, as it could not, stays: it is all there is of the session.
func (n *Node) sweep() {
	ctx, cancel := context.WithTimeout(n.ctx, time.Second)
	defer cancel()
	for _, left := range n.notes.Left() {
		if _, stays := n.stays.Load(left.Session); stays {
			continue
		}
		l, err := n.opt.Flow.Holder(ctx, left.Station)
		if err != nil || l.Session == left.Session {
			continue
		}
		switch others, err := n.wentOn(ctx, left.Station, left.Session); {
		case err != nil:
			continue
		case !others:
			n.stays.Store(left.Session, true)
			n.opt.Log.Error().Str("session", left.Session).Str("folder", left.Folder).
				Msg("no other node went on with the session that was left to one; its folder stays, to be imported")
			continue
		}
		n.notes.Remove(left.Session)
	}
}

// wentOn reports whether another node has recorded something of a session.
func (n *Node) wentOn(ctx context.Context, station, session string) (is bool, err error) {
	err = n.opt.Flow.Read(ctx, station, session, func(b *flow.Batch) error {
		if o := tenures.OpeningOf(b); b.Session == session && o != nil && o.Node != n.opt.Name {
			is = true
		}
		return nil
	})
	return is, err
}

// Leave tells the others that this node goes, and waits until what it recorded is kept, or the context ends.
func (n *Node) Leave(ctx context.Context) {
	for {
		waits := false
		for _, st := range n.all() {
			st.flush(time.Now(), true)
			waits = waits || st.keeper.waits()
		}
		if !waits || ctx.Err() != nil {
			break
		}
		pause(ctx, 10*time.Millisecond)
	}
	n.tell(&presence.Beat{At: time.Now(), Leaves: true})
}

// waits reports whether something is still to be kept.
func (k *keeper) waits() bool {
	k.mu.Lock()
	defer k.mu.Unlock()
	return len(k.steps) > 0
}
