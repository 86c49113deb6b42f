package ingest

import (
	"sync/atomic"
	"time"
)

// waitEvery is how many datagrams of a sender there are for one whose wait and work are measured: reading the clock
// costs about as much as decoding a short datagram.
const waitEvery = 16

// A waited knows how long the datagrams of a sender wait for it.
type waited struct {
	count   int          // datagrams; of the sender's goroutine
	behind  bool         // the next datagram came while the one before was worked on; likewise
	longest atomic.Int64 // ns, since it was last asked for; stored by that goroutine alone
}

// due counts a datagram and reports whether it is one of those that are always measured.
func (w *waited) due() bool {
	w.count++
	return w.count%waitEvery == 1
}

// note notes how long a datagram has waited, and returns that.
func (w *waited) note(d time.Duration) time.Duration {
	d = max(d, 0)
	if int64(d) > w.longest.Load() {
		w.longest.Store(int64(d))
	}
	return d
}

// A Strain says how well a Listener keeps up with what arrives.
type Strain struct {
	Wait    time.Duration // the longest that a datagram waited for its station
	Dropped uint64        // datagrams that did not fit into the queues of their stations
	Unread  uint64        // datagrams that the system dropped, where it says so
}

// Strain says how well the Listener kept up since it was last asked.
func (l *Listener) Strain() Strain { return l.senders.strain() }

func (h *senders) strain() (is Strain) {
	h.mu.Lock()
	defer h.mu.Unlock()
	for _, s := range h.all {
		is.Wait = max(is.Wait, time.Duration(s.waited.longest.Swap(0)))
	}
	is.Dropped, h.full = h.full, 0
	is.Unread, h.unread = h.unread, 0
	return is
}
