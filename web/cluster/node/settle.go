package node

import (
	"context"
	"sync"
	"time"

	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/notes"
	"halfturn/web/cluster/presence"
	"halfturn/web/cluster/tenures"
)

// askedAtOnce is about how many stations the store is asked at once: each answer takes milliseconds, and a node may
// have hundreds.
const askedAtOnce = 32

// Settle looks at the sessions that this node flew when it ended. Those that another node has taken over are moved
// aside; the others are resumed as on a single server. It waits for the store no longer than ctx: those of which it has
// said nothing by then are resumed, and left to the other node when the store is back. It is called before the desk
// starts.
func (n *Node) Settle(ctx context.Context) {
	flown := n.notes.Flown()
	ask := make(chan notes.Flown)
	var mu sync.Mutex
	var taken []string // stations
	var unknown []notes.Flown
	var all sync.WaitGroup
	for range min(askedAtOnce, len(flown)) {
		all.Go(func() {
			for f := range ask {
				l, err := n.opt.Flow.Holder(ctx, f.Station)
				is := n.settles(f, l, err)
				mu.Lock()
				if is {
					taken = append(taken, f.Station)
				}
				if err != nil {
					unknown = append(unknown, f)
				}
				mu.Unlock()
			}
		})
	}
	for _, f := range flown {
		ask <- f
	}
	close(ask)
	all.Wait()
	n.notes.Landed(taken)
	if len(unknown) > 0 {
		n.opt.Log.Warn().Int("sessions", len(unknown)).
			Msg("the store does not say yet whether other nodes go on with sessions of the last run")
		n.work.Go(func() { n.opt.Faults.Run("cluster", "settle", func() { n.settleLater(unknown) }) })
	}
}

// settles notes what the store says of the lease under which a session was flown, and reports whether another node has
// taken it over: its folder is moved aside then.
func (n *Node) settles(f notes.Flown, l flow.Lease, err error) (taken bool) {
	st := n.station(f.Station)
	if taken = err == nil && takenOver(n.opt.Name, f, l); !taken {
		n.mu.Lock()
		n.flies(st, f.Session)
		if err == nil && l.Node == n.opt.Name {
			n.fences[f.Session] = f.Fence
		}
		n.mu.Unlock()
	}
	st.mu.Lock()
	defer st.mu.Unlock()
	if st.lease.Fence = max(f.Fence, l.Fence); err == nil {
		st.lease, st.known = l, true
		st.lease.Station = f.Station
	} else {
		st.lease.Node, st.lease.Session = n.opt.Name, f.Session
		st.known = true // it was written: who took the station over wrote another one
	}
	if st.doubt = !taken; taken {
		n.notes.Aside(f.Station, f.Session)
	} else {
		st.flew = f.Session
	}
	return taken
}

// takenOver reports whether the last lease of a station is another node's than the one that flew a session there.
func takenOver(node string, f notes.Flown, l flow.Lease) bool {
	return l.Node != node && l.Fence > f.Fence
}

// settleLater leaves sessions that were resumed to the nodes that have taken them over, once the store says so.
func (n *Node) settleLater(unknown []notes.Flown) {
	for _, f := range unknown {
		l, err := n.opt.Flow.Holder(n.ctx, f.Station)
		for ; err != nil && n.ctx.Err() == nil; l, err = n.opt.Flow.Holder(n.ctx, f.Station) {
			pause(n.ctx, longWait)
		}
		if n.ctx.Err() != nil {
			return
		}
		st := n.station(f.Station)
		st.mu.Lock()
		waits := st.flew == f.Session && !st.coached
		st.mu.Unlock()
		switch {
		case waits && takenOver(n.opt.Name, f, l):
			n.lose(st, l.Node)
		case l.Node == n.opt.Name:
			n.fenced(f.Session, f.Fence)
		}
	}
}

// Resumes says that what an earlier run left of a station is played from now on, or was: it was told then. What another
// node has taken over meanwhile is moved aside after that.
func (n *Node) Resumes(station string, on bool) {
	st := n.station(station)
	st.mu.Lock()
	st.past = on
	aside := ""
	if !on {
		aside, st.aside = st.aside, ""
	}
	st.mu.Unlock()
	n.notes.Aside(station, aside)
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
