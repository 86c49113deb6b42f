package node

import (
	"cmp"
	"context"
	"errors"
	"slices"
	"sync"
	"time"

	"halfturn/web/cluster/claim"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/tenures"
)

// decide looks whether a station that is heard here is to be coached here.
func (n *Node) decide(h *hearing, now time.Time) {
	h.mu.Lock()
	phase, name, first, heard := h.phase, h.name, h.first, h.heard
	h.mu.Unlock()
	if phase != unsettled && phase != standby {
		return
	}
	st := n.station(name)
	holder, _ := n.holder(name)
	if holder != "" {
		if holder != n.opt.Name && h.become(unsettled, standby) {
			n.opt.Log.Info().Str("station", name).Str("node", holder).Msg("another node coaches the station")
		}
		switch {
		case holder == n.opt.Name:
		case now.Sub(heard) < n.opt.Times.Silent:
			st.listen(holder)
			st.shadowSoon(now)
		default:
			st.deafen()
		}
		return
	}
	others := n.peers.Alive()
	switch {
	case first.IsZero() || now.Sub(heard) > n.opt.Times.Silent:
		return // what is not heard is not taken over
	case len(others) > 0 && now.Sub(first) < n.opt.Times.Settle:
		return // others may hear it
	}
	s := n.sight(st, others...)
	s.Hears = true
	if do, _ := s.Decide(); do != claim.Take {
		return
	}
	if h.become(phase, taking) {
		n.work.Go(func() {
			if !n.opt.Faults.Run("cluster", name, func() { n.take(st, h) }) {
				h.become(taking, ready) // without what was flown
			}
		})
	}
}

// take takes a station over: it goes on with the session that is under way, if there is one, and coaches what the
// hearing holds. h is nil where nobody hears the station.
func (n *Node) take(st *station, h *hearing) {
	began := time.Now()
	session, theirs := n.underWay(st)
	tail := []tenures.Held(nil)
	st.mu.Lock()
	st.coached, st.doubt = true, false // before anything of the session is entered
	st.mu.Unlock()
	if session != "" && theirs {
		var err error
		if tail, err = n.adopt(st, session, h); err != nil {
			n.opt.Log.Warn().Err(err).Str("station", st.name).Str("session", session).
				Msg("the session of another node cannot go on here; a new one begins")
		}
	}
	st.mu.Lock()
	st.coached = true
	st.session = ""
	if st.goesOn != nil {
		st.session = st.goesOn.session
	}
	st.mu.Unlock()
	st.deafen()
	if h != nil {
		h.mu.Lock()
		if h.from = h.coached; len(tail) > 0 {
			h.from = h.ring.After(tail)
		}
		h.phase = ready
		h.mu.Unlock()
	}
	n.stir()
	if session != "" && theirs {
		n.counts.takeovers.Inc()
		n.opt.Log.Warn().Str("station", st.name).Str("session", session).Dur("took", time.Since(began)).
			Msg("the station is taken over from another node")
	}
}

// underWay returns the session of a station that is under way, and whether another node flew it. It is as the store
// says; where that does not answer soon, as the holder said last.
func (n *Node) underWay(st *station) (session string, theirs bool) {
	ctx, cancel := context.WithTimeout(n.ctx, n.opt.Times.Store)
	defer cancel()
	l, err := flow.Lease{}, flow.ErrAway
	if n.opt.Flow.Away().IsZero() {
		l, err = n.opt.Flow.Holder(ctx, st.name)
	}
	st.mu.Lock()
	defer st.mu.Unlock()
	if err == nil && l.Fence >= st.lease.Fence {
		st.lease, st.known = l, true
		st.lease.Station = st.name
	}
	if st.lastOf != "" && (err != nil || st.lastly.Fence > l.Fence) { // the store is away, or behind
		if st.lastly.Fence > st.lease.Fence {
			st.lease = flow.Lease{Station: st.name, Node: st.lastOf, Fence: st.lastly.Fence, Session: st.lastly.Session}
			st.known = false
		}
	}
	session = st.lease.Session
	if session == "" || st.lastOf != "" && st.lastly.Fence >= st.lease.Fence && st.lastly.Session != "" {
		session = st.lastly.Session // its lease is not written yet
	}
	return session, st.lease.Node != n.opt.Name || session == st.left
}

// adopt goes on with a session of another node, and returns the end of what it recorded. A session that was over, or
// whose station was silent for too long before what the hearing holds, ends instead.
func (n *Node) adopt(st *station, session string, h *hearing) (tail []tenures.Held, err error) {
	st.mu.Lock()
	if st.hurry != nil {
		st.hurry() // what begins to be followed just now is read again
	}
	st.mu.Unlock()
	st.following.Lock()
	sh := st.shadow
	st.shadow = nil
	st.following.Unlock()
	if sh != nil && sh.on.session != session {
		sh.leave()
		sh = nil
	}
	if sh == nil {
		ctx, cancel := context.WithTimeout(n.ctx, readWait)
		defer cancel()
		if sh, err = n.shadowOf(ctx, st, session); err != nil {
			return nil, err
		}
	}
	st.mu.Lock()
	for id := range st.numbers.Published() {
		sh.on.published[id] = true
	}
	if session == st.left { // this node published some of it
		for _, e := range st.numbers.Latest() {
			sh.on.published[e.ID] = true
		}
	}
	sh.on.after = &sh.at
	sh.recent.Drop(st.lastly.Kept)
	sh.on.carry, st.kept = sh.recent.List(), st.lastly.Kept
	st.mu.Unlock()
	n.notes.Remove(session) // its record here is the whole of it; before anything of it is entered
	over := sh.unpack.Over
	if next, ok := h.after(sh.unpack.Ending); ok && !over {
		over = sh.played.Over(next)
	}
	if over {
		err = sh.played.End()
	} else {
		err = sh.played.GoOn(time.Now())
	}
	if err != nil {
		sh.leave()
		return nil, err
	}
	n.following(session, false)
	n.goOn(st, sh.on, over)
	return sh.unpack.Ending, nil
}

// after is when the first datagram was received that is held after those at the end of a record; false where none is.
func (h *hearing) after(tail []tenures.Held) (received time.Time, ok bool) {
	if h == nil {
		return received, false
	}
	h.mu.Lock()
	defer h.mu.Unlock()
	if waits := h.ring.From(h.ring.After(tail)); len(waits) > 0 {
		return waits[0].Received, true
	}
	return received, false
}

// lose leaves a station to the node that holds it: what this one recorded of it since is not kept. It may be called
// more than once.
func (n *Node) lose(st *station, to string) {
	st.mu.Lock()
	was := st.coached || st.tenure != nil || st.flew != ""
	if st.refused, st.leftAt = nil, time.Now(); st.session != "" || st.flew != "" {
		st.left = cmp.Or(st.session, st.flew)
	}
	flew := st.flew
	st.coached, st.leaving = false, false
	st.leaveTenure()
	st.session, st.flew, st.goesOn, st.aside = "", "", nil, flew
	st.known = false
	st.pending = nil
	st.mu.Unlock()
	st.keeper.clear()
	if !was {
		return
	}
	n.counts.fenced.Inc()
	n.opt.Log.Warn().Str("station", st.name).Str("node", to).
		Msg("another node has taken the station over; it goes on there, and ends here")
	left := false
	for _, h := range n.hearings() {
		name, _ := h.heardAt()
		switch {
		case name != st.name:
		case h.become(coaching, leaving):
			left = true
		default:
			h.become(ready, standby) // its session waits at the desk still
		}
	}
	if !left {
		n.leaveWaiting(st, flew)
	}
	n.stir()
}

// leaveWaiting leaves the session that waits at the desk. One that this node flew when it ended may be played still,
// which takes too long to be waited for by what hears the other nodes: it is moved aside after that.
func (n *Node) leaveWaiting(st *station, flew string) {
	session := n.desk.Abandon(st.name)
	if session == "" {
		n.mu.Lock()
		delete(n.fences, flew)
		n.mu.Unlock()
	} else {
		st.mu.Lock()
		st.aside = ""
		st.mu.Unlock()
	}
	n.abandoned(st, session)
}

// leaveTenure has nothing more recorded: the station is another node's. mu is held.
func (st *station) leaveTenure() {
	if st.tenure != nil {
		st.tenure.left = true
	}
	st.tenure = nil
}

// abandoned notes that a session was left to another node.
func (n *Node) abandoned(st *station, session string) {
	n.mu.Lock()
	delete(n.fences, session)
	n.mu.Unlock()
	st.mu.Lock()
	st.coached = false
	st.leaveTenure()
	st.session, st.goesOn = "", nil
	st.mu.Unlock()
	n.notes.Aside(st.name, session)
}

// handOver gives a station away that another node hears and this one does not. What was recorded is kept first.
func (n *Node) handOver(st *station, now time.Time) {
	st.mu.Lock()
	coached := st.coached && !st.leaving && !st.own
	st.mu.Unlock()
	if !coached || !n.heardElsewhere(st.name) {
		return
	}
	var here *hearing
	for _, h := range n.hearings() {
		name, heard := h.heardAt()
		if name != st.name {
			continue
		}
		// What others say that they hear is as old as their last sign of life: all fall silent at once at the end of
		// a flight.
		if now.Sub(heard) < n.opt.Times.Silent+n.opt.Times.Dead {
			return
		}
		here = h
	}
	if here == nil {
		return // it waits for its station, or ends
	}
	n.opt.Log.Info().Str("station", st.name).Msg("another node hears the station: it is handed over")
	st.release()
	here.become(coaching, leaving)
}

// release has the lease given back once all is kept, or the store does not answer soon; the station is held until then.
func (st *station) release() {
	st.flush(time.Now(), true)
	st.mu.Lock()
	// What is recorded from here on is the successor's, which does not wait for the disk here.
	st.leaving, st.coached = true, false
	st.leaveTenure()
	st.mu.Unlock()
	done := make(chan struct{})
	// It is done once it is dropped, and then once more when the store answers what was asked before.
	st.keeper.put(&step{release: sync.OnceFunc(func() { close(done) })})
	n := st.node
	n.work.Go(func() {
		select {
		case <-done:
		case <-n.ctx.Done():
		case <-time.After(n.opt.Times.Store):
		}
		st.mu.Lock()
		st.leaving = false
		st.mu.Unlock()
		n.stir()
	})
}

// adoptOrphans goes on with the sessions that nobody hears and whose node is gone: they are ended after the idle time.
// One node does so, the first by name.
func (n *Node) adoptOrphans() {
	n.sweep()
	alive := n.peers.Alive()
	if time.Since(n.started) < n.opt.Times.Idle || len(alive) > 0 && alive[0].Name < n.opt.Name {
		return
	}
	ctx, cancel := context.WithTimeout(n.ctx, storeWait)
	defer cancel()
	var orphans []flow.Lease
	err := n.opt.Flow.Held(ctx, func(l flow.Lease) error {
		if l.Session != "" && l.Node != n.opt.Name && n.peers.Living(l.Node) == nil {
			orphans = append(orphans, l)
		}
		return nil
	})
	if err != nil && !errors.Is(err, flow.ErrAway) {
		n.opt.Log.Debug().Err(err).Msg("sessions that nobody flies any more cannot be looked for")
	}
	back := n.givenBack(orphans, time.Now())
	for _, l := range orphans {
		st := n.station(l.Station)
		holder, _ := n.holder(l.Station)
		heard := n.heardElsewhere(l.Station) || slices.Contains(n.hears(time.Now()), l.Station)
		if holder != "" || heard || !n.lost(st, l, back) {
			continue
		}
		n.take(st, nil)
	}
}

// A given lease was given back, as this node has seen since a moment.
type given struct {
	fence uint64
	since time.Time
}

// givenBack notes which leases were given back, and since when each is seen to be.
func (n *Node) givenBack(all []flow.Lease, now time.Time) map[string]given {
	n.mu.Lock()
	defer n.mu.Unlock()
	back := map[string]given{}
	for _, l := range all {
		if l.Node != "" {
			continue
		}
		if back[l.Station] = n.given[l.Station]; back[l.Station].fence != l.Fence {
			back[l.Station] = given{l.Fence, now}
		}
	}
	n.given = back
	return back
}

// lost reports whether the node of a station was not heard of for the idle time, as far as this one knows. A lease that
// was given back is nobody's: what the node that was to take the station over had heard was the last of a flight.
func (n *Node) lost(st *station, l flow.Lease, back map[string]given) bool {
	if l.Node == "" {
		return time.Since(back[l.Station].since) >= n.opt.Times.Idle
	}
	st.mu.Lock()
	node := st.lastOf
	st.mu.Unlock()
	return n.peers.Silent(node, n.opt.Times.Idle)
}
