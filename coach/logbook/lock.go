package logbook

import "context"

// A Locker is a [Book] that several nodes share, each with a data directory of its own. Without it, nodes that change
// one session at once find that out afterwards, and begin again.
type Locker interface {
	// LockSession waits until nobody else holds the lock of a session, on whichever node, and takes it until unlock is
	// called. The lock of a node that dies is free again. The error is that of the context when it ends first.
	LockSession(ctx context.Context, id string) (unlock func(), err error)
}

// A Fencer is a [Book] that refuses what a node enters of a session that another one has taken over.
type Fencer interface {
	// Under makes changes under the fence of the lease by which a node flies a session. Each raises the fence of its
	// session to that; one under a smaller fence than the session has changes nothing, and the error is a [*Fenced].
	Under(fence uint64) Changes
}

// Under makes changes of a book under a fence; as they are where that is 0, or the book has no fences.
func Under(b Book, fence uint64) Changes {
	if f, ok := b.(Fencer); ok && fence > 0 {
		return f.Under(fence)
	}
	return b
}
