package ingest

import (
	"context"
	"fmt"
	"net/netip"
	"runtime/debug"
	"sync/atomic"
	"time"
)

// A station is one sender's queue and goroutine. The goroutine owns the address for as long as the hub knows it, and
// runs one life after the other in it: a seat is made only when the seat before it has ended, and what comes
// meanwhile waits in the queue.
type station struct {
	hub     *hub
	address netip.AddrPort
	queue   chan delivery // sent to and closed under hub.mu
	waiting atomic.Int64  // bytes in the queue
	budget  budget        // under hub.mu
	life    *life         // under hub.mu; nil while there is no seat
}

type delivery struct {
	buffer   *buffer
	received time.Time
}

// A life is the time of one seat. A life waits for no other one, so that no two stations can wait for each other.
type life struct {
	seat  Seat
	calls chan call
	over  chan struct{} // closed when no call is taken any more
	ended chan struct{} // closed when Seat.End has returned
}

// A call is a function to be run with the seat; the seat ends after it when it returns true.
type call struct {
	f    func(Seat) bool
	done chan struct{}
}

// call runs f in the goroutine of the seat. It waits for its turn no longer than ctx lasts; once f has begun, it
// waits for that to return.
func (l *life) call(ctx context.Context, f func(Seat) bool) error {
	if ctx.Err() != nil {
		return context.Cause(ctx)
	}
	c := call{f, make(chan struct{})}
	select {
	case l.calls <- c:
		<-c.done
		return nil
	case <-l.over:
		return ErrNoSeat
	case <-ctx.Done():
		return context.Cause(ctx)
	}
}

// run is the station's goroutine.
func (s *station) run() {
	for again := true; again; {
		l := &life{calls: make(chan call), over: make(chan struct{}), ended: make(chan struct{})}
		s.guard(func() { l.seat = s.hub.factory(s.address) })
		if l.seat != nil {
			s.begin(l)
			s.guard(func() { s.work(l) })
			close(l.over)
			s.guard(l.seat.End)
		}
		again = s.follow(l)
	}
}

// guard runs a part of a life. A fault in it ends that life alone, and is reported; what waits is dropped, as it may
// be the cause.
func (s *station) guard(part func()) {
	defer func() {
		wrong := recover()
		if wrong == nil {
			return
		}
		s.drop()
		s.hub.config.Metrics.fault.Inc()
		stack := debug.Stack()
		s.hub.warn(fault, s.address.String(), func() error {
			return fmt.Errorf("station %v was ended by a fault in the program, please report it: %v\n%s",
				s.address, wrong, stack)
		})
	}()
	part()
}

// begin lets others call the seat.
func (s *station) begin(l *life) {
	s.hub.mu.Lock()
	defer s.hub.mu.Unlock()
	s.life = l
}

// follow ends a life for all who wait for that, and tells whether another one follows, as something came meanwhile.
// Else the hub forgets the station.
func (s *station) follow(l *life) bool {
	s.hub.mu.Lock()
	defer s.hub.mu.Unlock()
	s.life = nil
	close(l.ended)
	if l.seat != nil && len(s.queue) > 0 {
		return true
	}
	s.drop()
	delete(s.hub.stations, s.address)
	s.hub.config.Metrics.stations.Dec()
	return false
}

// work feeds the seat until it is to end.
func (s *station) work(l *life) {
	ticker := time.NewTicker(s.hub.config.Tick)
	defer ticker.Stop()
	last := time.Now()
	for {
		select {
		case d, open := <-s.queue:
			if !open {
				return
			}
			last = d.received
			s.take(l.seat, d)
		case c := <-l.calls:
			if c.run(l.seat) {
				return
			}
		case now := <-ticker.C:
			l.seat.Tick(now)
			if now.Sub(last) > s.patience(l.seat) && len(s.queue) == 0 {
				return
			}
		}
	}
}

func (s *station) take(seat Seat, d delivery) {
	defer s.free(d) // also when the seat fails
	seat.Datagram(d.buffer.b, d.received)
}

// free lets go of a datagram that has left the queue.
func (s *station) free(d delivery) {
	size := int64(len(d.buffer.b))
	s.waiting.Add(-size)
	s.hub.waiting.Add(-size)
	d.buffer.free()
}

func (c *call) run(seat Seat) bool {
	defer close(c.done)
	return c.f(seat)
}

// patience is how long the station may be silent.
func (s *station) patience(seat Seat) time.Duration {
	if p, ok := seat.(Prover); ok && !p.Proven() {
		return min(s.hub.config.Unproven, s.hub.config.Idle)
	}
	return s.hub.config.Idle
}

// drop lets go of what waits, and counts it.
func (s *station) drop() {
	for {
		select {
		case d, open := <-s.queue:
			if !open {
				return
			}
			s.free(d)
			s.hub.config.Metrics.fault.Inc()
		default:
			return
		}
	}
}
