package ingest

import (
	"fmt"
	"net/netip"
	"runtime/debug"
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
	budget   budget // under senders.mu
	lost     losses // under senders.mu
	life     *life  // under senders.mu; nil while there is no handler
}

// An item is a datagram, or a request when that is not nil.
type item struct {
	buffer   *buffer
	received time.Time
	lost     Loss // before the datagram
	request  *pending
}

// A life is the time of one handler. A life waits for no other one, so that no two senders can wait for each other.
type life struct {
	handler Handler
	over    chan struct{} // closed when no request is taken any more
	ended   chan struct{} // closed when Handler.End has returned
}

// run is the sender's goroutine.
func (s *sender) run() {
	for again := true; again; {
		l := &life{over: make(chan struct{}), ended: make(chan struct{})}
		s.guard(func() { l.handler = s.senders.factory(s.address) })
		if l.handler != nil {
			s.begin(l)
			s.guard(func() { s.work(l) })
			close(l.over)
			s.guard(func() { s.tell(l.handler, s.untold()) })
			s.guard(l.handler.End)
		}
		again = s.follow(l)
	}
}

// guard runs a part of a life. A fault in it ends that life alone, and is reported; what waits is dropped, as it may
// be the cause.
func (s *sender) guard(part func()) {
	defer func() {
		wrong := recover()
		if wrong == nil {
			return
		}
		s.drop()
		s.senders.config.Metrics.fault.Inc()
		stack := debug.Stack()
		s.senders.warn(fault, s.address.String(), func() error {
			return fmt.Errorf("station %v was ended by a fault in the program, please report it: %v\n%s",
				s.address, wrong, stack)
		})
	}()
	part()
}

// begin opens the handler to requests.
func (s *sender) begin(l *life) {
	s.senders.mu.Lock()
	defer s.senders.mu.Unlock()
	s.life = l
}

// follow ends a life for all that wait for it, and reports whether another one follows because datagrams came
// meanwhile. Otherwise the sender is forgotten.
func (s *sender) follow(l *life) bool {
	s.senders.mu.Lock()
	defer s.senders.mu.Unlock()
	s.life = nil
	close(l.ended)
	if l.handler != nil && len(s.queue) > int(s.requests.Load()) {
		return true
	}
	s.drop()
	delete(s.senders.all, s.address)
	s.senders.config.Metrics.stations.Dec()
	return false
}

// work feeds the handler until it is to end.
func (s *sender) work(l *life) {
	ticker := time.NewTicker(s.senders.config.Tick)
	defer ticker.Stop()
	last := time.Now()
	for {
		select {
		case i, open := <-s.queue:
			switch {
			case !open:
				return
			case i.request == nil:
				last = i.received
				s.take(l.handler, i)
			case s.answer(l, i.request):
				return
			}
		case now := <-ticker.C:
			l.handler.Tick(now)
			if now.Sub(last) > s.patience(l.handler) && len(s.queue) == 0 {
				return
			}
		}
	}
}

func (s *sender) take(to Handler, i item) {
	defer s.free(i) // also when the handler fails
	s.tell(to, i.lost)
	sampled := s.waited.due()
	if !sampled && !s.waited.behind {
		to.Datagram(i.buffer.b, i.received)
	} else {
		began := time.Now()
		s.senders.config.Metrics.wait.Observe(s.waited.note(began.Sub(i.received)).Seconds())
		to.Datagram(i.buffer.b, i.received)
		if sampled {
			s.senders.config.Metrics.work.Observe(time.Since(began).Seconds())
		}
	}
	s.waited.behind = len(s.queue) > 0
}

// free releases a datagram that has left the queue.
func (s *sender) free(i item) {
	size := int64(len(i.buffer.b))
	s.waiting.Add(-size)
	s.senders.waiting.Add(-size)
	i.buffer.free()
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

// drop discards what waits. Datagrams are counted; requests are given up by their senders.
func (s *sender) drop() {
	for {
		select {
		case i, open := <-s.queue:
			switch {
			case !open:
				return
			case i.request != nil:
				s.requests.Add(-1)
			default:
				s.free(i)
				s.senders.config.Metrics.fault.Inc()
			}
		default:
			return
		}
	}
}
