package node

import (
	"context"
	"time"

	"halfturn/web/cluster/flow"
)

// enterWait is how long the store may take to say whose a session is; then it is asked again later.
const enterWait = 2 * time.Second

// MayEnter says whether something of a session may be entered where all nodes see it. The error is flow.ErrTaken where
// another node has the session: then never. Any other says that it is not known now, and is to be asked again. It waits
// a moment for a lease that is being written.
func (n *Node) MayEnter(session string) error {
	st := n.flown(session)
	if st == nil {
		return nil // nobody flies it
	}
	ctx, cancel := context.WithTimeout(n.ctx, enterWait)
	defer cancel()
	for {
		l, err := n.opt.Flow.Holder(ctx, st.name)
		if err != nil {
			return err
		}
		st.mu.Lock()
		own, known := st.lease, st.known
		st.mu.Unlock()
		switch {
		case l.Node == n.opt.Name && (l.Session == session || l.Fence == own.Fence && own.Node == n.opt.Name):
			return nil
		case known && l.Fence > own.Fence:
			return flow.ErrTaken
		}
		if pause(ctx, 20*time.Millisecond); ctx.Err() != nil {
			return flow.ErrAway // the lease is still to be written
		}
	}
}
