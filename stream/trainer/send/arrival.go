package send

import (
	"errors"
	"sync"
	"sync/atomic"
	"time"
)

// ErrNobody says that no program listens at the address sent to.
var ErrNobody = errors.New("nobody listens")

// settled is how long nothing must have been refused before datagrams are said to arrive again. Systems limit their
// answers to about one per second (RFC 1812, 4.3.2.8, asks for that).
const settled = 2 * time.Second

// arrival tracks whether datagrams arrive, for all sockets together: if one is refused, all are. It reports changes
// only.
type arrival struct {
	told  func(error)
	start time.Time

	bad   atomic.Bool // read after every round, so without a lock
	mu    sync.Mutex
	first time.Time // of the failures
	last  time.Time
	again bool // arrived after a failure
}

// failed takes the failure of one datagram.
func (a *arrival) failed(err error, now time.Time) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.last = now; a.first.IsZero() {
		a.first = now
	}
	if a.bad.CompareAndSwap(false, true) && a.told != nil {
		a.told(err)
	}
}

// look checks whether datagrams arrive again.
func (a *arrival) look(now time.Time) {
	if !a.bad.Load() {
		return
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	if now.Sub(a.last) < settled || !a.bad.CompareAndSwap(true, false) {
		return
	}
	if a.again = true; a.told != nil {
		a.told(nil)
	}
}

// never reports whether nothing has arrived at all.
func (a *arrival) never() bool {
	a.mu.Lock()
	defer a.mu.Unlock()
	return a.bad.Load() && !a.again && a.first.Sub(a.start) < settled
}
