package ingest

import (
	"sync/atomic"
	"time"
)

// A beat calls the ticks of the senders that are silent. One that sends ticks with its datagrams: a timer of its own
// would be set and taken back with each of them.
type beat struct {
	began   time.Time
	stop    chan struct{}
	running bool // under senders.mu
}

// A pulse is when a sender was last at work.
type pulse struct {
	worked atomic.Int64 // ns since the beat began
	called atomic.Bool  // a tick waits in the queue
}

// startBeat begins the beat with the first sender. mu is held.
func (h *senders) startBeat() {
	if !h.beat.running {
		h.beat.running = true
		h.running.Go(h.runBeat)
	}
}

// runBeat runs until there are no senders.
func (h *senders) runBeat() {
	ticker := time.NewTicker(h.config.Tick)
	defer ticker.Stop()
	for more := true; more; {
		select {
		case <-h.beat.stop:
			return
		case now := <-ticker.C:
			more = h.callSilent(now)
		}
	}
}

// callSilent puts a tick into the queue of each sender that has not worked for half the time between two. It reports
// whether the beat goes on.
func (h *senders) callSilent(now time.Time) bool {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.beat.running = len(h.all) > 0 && !h.closed
	if !h.beat.running {
		return false
	}
	silent := int64(now.Sub(h.beat.began) - h.config.Tick/2)
	for _, s := range h.all {
		if s.pulse.worked.Load() > silent || len(s.queue) == cap(s.queue) || s.pulse.called.Swap(true) {
			continue
		}
		s.queue <- item{}
	}
	return true
}

// noteWork notes that the sender is at work.
func (s *sender) noteWork(now time.Time) { s.pulse.worked.Store(int64(now.Sub(s.senders.beat.began))) }
