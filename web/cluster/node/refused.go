package node

import (
	"context"
	"time"

	"halfturn/coach/ids"
	"halfturn/web/cluster/claim"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/tenures"
	"halfturn/web/share/link"
)

// refused finds out what to do when the store has the lease of another node: that one may have left the station to this
// one meanwhile. Until it is known, the station is coached, and the step waits.
func (k *keeper) refused() {
	n, st := k.st.node, k.st
	ctx, cancel := context.WithTimeout(n.ctx, n.opt.Times.Store)
	defer cancel()
	l, err := n.opt.Flow.Holder(ctx, st.name)
	if err != nil {
		return
	}
	st.mu.Lock()
	if st.refused == nil || st.refused.Fence != l.Fence {
		sent := time.Now().Add(n.opt.Times.Beat) // what is heard before this may have been sent before the lease was
		st.refused = &claim.Refusal{Node: l.Node, Fence: l.Fence, At: sent}
	}
	own := claim.Claim{Fence: st.lease.Fence, Over: st.lease.Node != n.opt.Name, Doubt: st.doubt}
	st.mu.Unlock()
	s := n.sight(st, n.peers.Alive()...)
	if !s.Coaches { // what is recorded of the session is still to be kept
		s.Coaches, s.Claim, s.Listens = true, own, n.deaf(time.Now())
	}
	switch do, to := s.Decide(); {
	case do == claim.Leave:
		n.lose(st, to)
	case do == claim.Renew && !n.mayHold(ctx, l):
		n.opt.Log.Warn().Str("station", st.name).Str("node", l.Node).
			Msg("another node took the station over, and has left it to this one again")
		k.renew(l)
	}
}

// mayHold reports whether the node of a lease that is there holds the station, or does not answer. What it said last
// may have been under way for long: it says so again before the station is taken from it.
func (n *Node) mayHold(ctx context.Context, l flow.Lease) bool {
	if l.Node == n.opt.Name || n.peers.Living(l.Node) == nil {
		return false
	}
	a, err := n.ask(ctx, l.Node, &question{Kind: askHolds, Station: l.Station})
	return err != nil || a.Holds
}

// renew has the lease taken again, after that of another node. What of the tenure is not kept is kept under the new
// lease, as a successor does it.
func (k *keeper) renew(l flow.Lease) {
	st := k.st
	st.mu.Lock()
	defer st.mu.Unlock()
	k.mu.Lock()
	var x *tenure // that was refused
	if len(k.steps) > 0 {
		x = k.steps[0].of
	}
	k.mu.Unlock()
	st.lease, st.known, st.refused = l, true, nil
	st.lease.Station = st.name
	if x == nil { // it was to be claimed, and is now
		return
	}
	if st.tenure == x {
		st.cut()
	}
	y := &tenure{id: ids.New(time.Now()), session: x.session, from: x.from, to: x.to}
	k.carryOver(x, y)
	x.next, x.carried = y, y.number
	if st.tenure != x { // it is over
		return
	}
	st.tenure = y
	st.record(link.RecordOpening, time.Time{}, tenures.Opening{
		Tenure: y.id,
		Node:   st.node.opt.Name,
		After:  &tenures.Point{Tenure: x.id, Number: x.number},
		From:   x.from,
		To:     x.to,
	}.Encode())
}

// carryOver makes the batches of a tenure that wait those of another one, which is to be claimed first.
func (k *keeper) carryOver(x, y *tenure) {
	n := k.st.node
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.lossy == x {
		k.lossy = y // it has a gap all the same
	}
	steps := []*step{{claim: y}}
	for _, s := range k.steps {
		if s.of != x {
			steps = append(steps, s)
			continue
		}
		in := tenures.CarriedOf(s.batch)
		if in == nil {
			in = &tenures.Carried{At: s.kept, Batch: s.batch}
		}
		y.number++
		b := in.Carry(y.number)
		c := &step{batch: b, of: y, kept: in.At, size: b.Size()}
		k.size += c.size - s.size
		n.waiting.Add(int64(c.size - s.size))
		steps = append(steps, c)
	}
	k.steps = steps
}
