package logbook

import "context"

// A Locker is a [Book] that several nodes share, each with a data directory of its own. Without it, nodes that change
// one session at once find that out afterwards, and begin again.
type Locker interface {
	// LockSession waits until nobody else holds the lock of a session, on whichever node, and takes it until unlock is
	// called. The lock of a node that dies is free again. The error is that of the context when it ends first.
	LockSession(ctx context.Context, id string) (unlock func(), err error)
}
