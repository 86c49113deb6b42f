package db

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"time"

	"halfturn/coach/logbook"
)

// Bounds of the locks of sessions.
const (
	mostLocks  = 16              // that are held or waited for at once, each on a connection of its own
	idleLocks  = 2               // connections that stay for the next
	unlockWait = 5 * time.Second // for the server to take note; then the connection is closed, which unlocks too
)

var _ logbook.Locker = (*Database)(nil)

// aliveParams have the server find out within half a minute that a machine is gone whose connections nobody closed.
var aliveParams = map[string]string{
	"tcp_keepalives_idle":     "10",
	"tcp_keepalives_interval": "5",
	"tcp_keepalives_count":    "4",
}

// LockSession takes an advisory lock on a connection of its own: changes under the lock need those of the other pool.
// The server lets go of it when the connection ends.
func (d *Database) LockSession(ctx context.Context, id string) (unlock func(), err error) {
	conn, err := d.locks.Conn(ctx)
	if err == nil {
		_, err = conn.ExecContext(ctx, `SELECT pg_advisory_lock(hashtextextended($1, $2))`, id, lockNumber)
		if err != nil {
			discard(conn) // it may have been given the lock meanwhile
		}
	}
	switch {
	case ctx.Err() != nil && err != nil:
		return nil, ctx.Err()
	case err != nil:
		return nil, d.plainly(err)
	}
	return func() {
		ctx, cancel := context.WithTimeout(context.Background(), unlockWait)
		defer cancel()
		if _, err := conn.ExecContext(ctx, `SELECT pg_advisory_unlock_all()`); err != nil {
			discard(conn)
			return
		}
		_ = conn.Close() // back to the pool
	}, nil
}

// discard closes a connection, and what it has locked.
func discard(conn *sql.Conn) {
	_ = conn.Raw(func(any) error { return driver.ErrBadConn })
	_ = conn.Close()
}
