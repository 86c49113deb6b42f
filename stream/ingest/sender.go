package ingest

import (
	"net/netip"
	"sync/atomic"
	"time"
)

// A sender is the queue and the goroutine of one address that sends. The goroutine owns the address for as long as it
// is known, and runs one life after the other in it: a handler is made only when the one before it has ended, and what
// comes meanwhile waits in the queue.
type sender struct {
	senders  *senders
	address  netip.AddrPort
	inlet    *inlet       // where its datagrams came in last; under senders.mu
	queue    chan item    // datagrams and requests in the order in which they came; sent to and closed under senders.mu
	waiting  atomic.Int64 // bytes in the queue
	requests atomic.Int32 // requests in the queue
	waited   waited
	pulse    pulse
	budget   budget // under senders.mu
	lost     losses // under senders.mu
	life     *life  // under senders.mu; nil while there is no handler

	wait time.Duration // of the goroutine: how long to pause after the next fault
}

// An item is a datagram or a request; a tick when it is neither. It is small, as every sender has a long queue of them.
type item struct {
	buffer  *buffer
	request *pending
}

// A life is the time of one handler. A life waits for no other one, so that no two senders can wait for each other.
type life struct {
	handler Handler
	began   time.Time
	anchor  time.Time     // by which the moments of the life are counted
	over    chan struct{} // closed when no request is taken any more
	ended   chan struct{} // closed when Handler.End has returned
}

// run is the sender's goroutine.
func (s *sender) run() {
	for again := true; again; {
		l := &life{over: make(chan struct{}), ended: make(chan struct{}), began: time.Now()}
		l.anchor = l.began
		whole := s.guard(func() { l.handler = s.senders.factory(s.address) })
		if l.handler != nil {
			s.begin(l)
			whole = s.guard(func() { s.work(l) })
			close(l.over)
			if whole {
				whole = s.guard(func() { s.tell(l.handler, s.untold()) })
			} else {
				s.fail(l.handler)
			}
			whole = s.guard(l.handler.End) && whole
		}
		s.end(l)
		switch {
		case !whole:
			s.rest(l)
		case l.handler == nil: // nobody takes what it sends
			s.drop()
		}
		again = s.follows()
	}
}

// guard runs a part of a life. A fault in it ends that life alone, and is reported; what waits is dropped, as it may
// be the cause.
func (s *sender) guard(part func()) (whole bool) {
	if s.senders.config.Faults.Run("station", s.address.String(), part) {
		return true
	}
	s.drop()
	s.senders.config.Metrics.fault.Inc()
	return false
}

// fail tells a handler, if it asks for that, that a fault ended it.
func (s *sender) fail(h Handler) {
	if f, ok := h.(Failer); ok {
		s.guard(f.Fail)
	}
}

// Pauses after faults: a fault that comes back with every datagram must not begin a session with each of them.
const (
	firstPause   = time.Second
	longestPause = time.Minute
)

// rest returns when a sender may live again after a fault and has something to live for, or was silent for long. At the
// first fault that is at once; where they come one after the other it drops what comes for longer each time.
func (s *sender) rest(l *life) {
	if time.Since(l.began) > longestPause {
		s.wait = 0
	}
	until := time.Now().Add(s.wait)
	s.wait = min(max(firstPause, 2*s.wait), longestPause)
	ticker := time.NewTicker(s.senders.config.Tick)
	defer ticker.Stop()
	for !s.senders.isClosed() {
		past := time.Since(until)
		if past < 0 {
			s.drop()
		} else if s.waits() || past > longestPause {
			return
		}
		<-ticker.C
	}
}

// waits reports whether datagrams wait.
func (s *sender) waits() bool {
	besides := int(s.requests.Load())
	if s.pulse.called.Load() {
		besides++
	}
	return len(s.queue) > besides
}

// begin opens the handler to requests.
func (s *sender) begin(l *life) {
	s.senders.mu.Lock()
	defer s.senders.mu.Unlock()
	s.life = l
}

// end ends a life for all that wait for it.
func (s *sender) end(l *life) {
	s.senders.mu.Lock()
	defer s.senders.mu.Unlock()
	s.life = nil
	close(l.ended)
}

// follows reports whether another life follows because datagrams came meanwhile. Otherwise the sender is forgotten.
func (s *sender) follows() bool {
	s.senders.mu.Lock()
	defer s.senders.mu.Unlock()
	if s.waits() {
		return true
	}
	s.drop()
	delete(s.senders.all, s.address)
	s.senders.config.Metrics.stations.Dec()
	return false
}

// work feeds the handler until it is to end.
func (s *sender) work(l *life) {
	last := time.Now() // of the datagrams
	ticked := last
	for i := range s.queue {
		now := last
		switch {
		case i.request != nil:
			if s.answer(l, i.request) {
				return
			}
			now = time.Now()
		case i.buffer != nil:
			if now = i.buffer.received; now.Sub(last) > anchorAfter {
				l.anchor = now
			}
			last = now
			s.take(l, i.buffer)
		default:
			s.pulse.called.Store(false)
			now = time.Now()
		}
		s.noteWork(now)
		if past := now.Sub(ticked); i != (item{}) && past >= 0 && past < s.senders.config.Tick {
			continue
		}
		ticked = now
		l.handler.Tick(l.steady(now))
		if now.Sub(last) > s.patience(l.handler) && len(s.queue) == 0 {
			return
		}
	}
}

// anchorAfter is the silence after which the moments of a life are counted by the machine's clock again: nothing goes
// on over it.
const anchorAfter = 2 * time.Second

// steady counts a moment from the anchor, so that the machine's clock may be set without moving what is measured.
func (l *life) steady(t time.Time) time.Time { return l.anchor.Add(t.Sub(l.anchor)) }

func (s *sender) take(l *life, waits *buffer) {
	defer s.free(waits) // also when the handler fails
	s.tell(l.handler, waits.lost)
	to, received := l.handler, l.steady(waits.received)
	sampled := s.waited.due()
	if !sampled && !s.waited.behind {
		to.Datagram(waits.b, received)
	} else {
		began := time.Now()
		s.senders.config.Metrics.wait.Observe(s.waited.note(began.Sub(waits.received)).Seconds())
		to.Datagram(waits.b, received)
		if sampled {
			s.senders.config.Metrics.work.Observe(time.Since(began).Seconds())
		}
	}
	s.waited.behind = len(s.queue) > 0
}

// free releases a datagram that has left the queue.
func (s *sender) free(waits *buffer) {
	size := int64(len(waits.b))
	s.waiting.Add(-size)
	s.senders.waiting.Add(-size)
	waits.free()
}

// answer hands a request that has left the queue to the handler, and reports whether that ends with it.
func (s *sender) answer(l *life, p *pending) (ends bool) {
	s.requests.Add(-1)
	return p.take(l)
}

// patience is how long the sender may be silent.
func (s *sender) patience(h Handler) time.Duration {
	if p, ok := h.(Prover); ok && !p.Proven() {
		return min(s.senders.config.Unproven, s.senders.config.Idle)
	}
	return s.senders.config.Idle
}

// drop discards what waits.
func (s *sender) drop() {
	for {
		select {
		case i, open := <-s.queue:
			if !open {
				return
			}
			s.discard(i)
		default:
			return
		}
	}
}

// discard drops what has left the queue. Datagrams are counted; requests are given up by their senders.
func (s *sender) discard(i item) {
	switch {
	case i.request != nil:
		s.requests.Add(-1)
		return
	case i.buffer == nil:
		s.pulse.called.Store(false)
		return
	}
	s.free(i.buffer)
	s.senders.config.Metrics.fault.Inc()
}
