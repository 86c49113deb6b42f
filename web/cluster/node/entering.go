package node

import (
	"context"
	"slices"
	"time"

	"halfturn/web/cluster/flow"
)

// enterWait is how long the store may take to say whose a session is; then it is asked again later.
const enterWait = 2 * time.Second

// MayEnter says whether something of a session may be entered where all nodes see it, and under which fence; 0 is that
// of a session that nobody flies. The error is flow.ErrTaken where another node has the session: then never. Any other
// says that it is not known now, and is to be asked again. It waits a moment for a lease that is being written.
func (n *Node) MayEnter(session string) (fence uint64, err error) {
	st := n.flown(session)
	if st == nil {
		if n.notes.IsAside(session) {
			return 0, flow.ErrTaken // it was left to another node, some sessions ago
		}
		return 0, nil // nobody flies it
	}
	ctx, cancel := context.WithTimeout(n.ctx, enterWait)
	defer cancel()
	for {
		l, err := n.opt.Flow.Holder(ctx, st.name)
		if err != nil {
			return 0, err
		}
		st.mu.Lock()
		own, known, coached := st.lease, st.known, st.coached || st.goesOn != nil && st.goesOn.session == session
		over := uint64(0)
		if i := st.finishedAt(session); i >= 0 {
			over = st.finished[i].fence
		}
		st.mu.Unlock()
		ours := l.Node == n.opt.Name
		switch {
		case over > 0 && l.Session != session: // whoever has the station by now has not that
			return over, nil
		case ours && (l.Session == session || l.Fence == own.Fence && own.Node == n.opt.Name):
			return l.Fence, nil
		case ours: // a claim of this node whose answer is still to come
		case st.keeper.waits(): // it finds out whether the other node goes on
		case known && l.Fence > own.Fence, !coached:
			if !coached { // it ended here before that was known
				n.notes.Aside(st.name, session)
			}
			return 0, flow.ErrTaken
		}
		if pause(ctx, 20*time.Millisecond); ctx.Err() != nil {
			return 0, flow.ErrAway // the lease is still to be written
		}
	}
}

// Refused says that another node has entered something of a session, or holds its folder, under a greater fence than
// this one: what this one has of it is moved aside.
func (n *Node) Refused(session string) {
	st := n.flown(session)
	if st == nil {
		return
	}
	st.mu.Lock()
	flies := st.session == session || st.goesOn != nil && st.goesOn.session == session
	st.finished = slices.DeleteFunc(st.finished, func(f finished) bool { return f.session == session && !flies })
	st.mu.Unlock()
	if !flies { // else this node finds out by the lease
		n.notes.Aside(st.name, session)
	}
}

// Fence returns the fence under which the folder of a session may be stored where all nodes see it; 0 is that of one
// that nobody flew here, such as an import. ok is false for one that another node flies, and while there is no lease.
func (n *Node) Fence(session string) (fence uint64, ok bool) {
	n.mu.Lock()
	defer n.mu.Unlock()
	if n.follows[session] {
		return 0, false
	}
	fence, ok = n.fences[session]
	return fence, ok || n.sessions[session] == nil
}

// fenced notes the fence of a session.
func (n *Node) fenced(session string, fence uint64) {
	if session == "" {
		return
	}
	n.mu.Lock()
	defer n.mu.Unlock()
	n.fences[session] = fence
}

// following notes that a session is followed, or is not any more.
func (n *Node) following(session string, is bool) {
	n.mu.Lock()
	defer n.mu.Unlock()
	if is {
		n.follows[session] = true
		return
	}
	delete(n.follows, session)
}
