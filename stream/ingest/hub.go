package ingest

import (
	"fmt"
	"net/netip"
	"runtime/debug"
	"sync"
	"sync/atomic"
	"time"
)

// Limits on the bytes that wait, beside the number of datagrams: the longest datagram is
// forty times the usual one.
const (
	stationBytes = 1 << 20
	allBytes     = 64 << 20
)

// A hub gives every sender its station. It knows nothing of sockets.
type hub struct {
	config  Config
	factory Factory
	running sync.WaitGroup
	waiting atomic.Int64 // bytes in all queues

	mu       sync.Mutex
	stations map[netip.AddrPort]*station
	closed   bool
}

// A station is one sender's queue and goroutine.
type station struct {
	hub     *hub
	address netip.AddrPort
	queue   chan delivery // sent to and closed under hub.mu
	calls   chan call
	ended   chan struct{}
	waiting atomic.Int64 // bytes in the queue
}

type delivery struct {
	buffer   *buffer
	received time.Time
}

type call struct {
	f    func(Seat)
	done chan struct{}
}

func newHub(config Config, factory Factory) *hub {
	return &hub{config: config, factory: factory, stations: make(map[netip.AddrPort]*station)}
}

// deliver puts a copy of one datagram into its station's queue, or drops and counts it.
func (h *hub) deliver(from netip.AddrPort, b []byte, received time.Time) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.closed {
		return
	}
	s := h.stations[from]
	if s == nil {
		if len(h.stations) >= h.config.MaxStations {
			h.config.Metrics.tooMany.Inc()
			return
		}
		s = h.admit(from)
	}
	size := int64(len(b))
	if len(s.queue) == cap(s.queue) || s.waiting.Load()+size > stationBytes || h.waiting.Load()+size > allBytes {
		h.config.Metrics.queueFull.Inc()
		return
	}
	s.waiting.Add(size)
	h.waiting.Add(size)
	s.queue <- delivery{fill(b), received} // only this goroutine sends while mu is held: there is room
}

// admit starts the station of a new sender. mu is held.
func (h *hub) admit(from netip.AddrPort) *station {
	s := &station{
		hub:     h,
		address: from,
		queue:   make(chan delivery, h.config.Queue),
		calls:   make(chan call),
		ended:   make(chan struct{}),
	}
	h.stations[from] = s
	h.config.Metrics.stations.Inc()
	h.running.Go(s.run)
	return s
}

func (h *hub) addresses() []netip.AddrPort {
	h.mu.Lock()
	defer h.mu.Unlock()
	list := make([]netip.AddrPort, 0, len(h.stations))
	for a := range h.stations {
		list = append(list, a)
	}
	return list
}

func (h *hub) do(address netip.AddrPort, f func(Seat)) bool {
	h.mu.Lock()
	s := h.stations[address]
	h.mu.Unlock()
	if s == nil {
		return false
	}
	c := call{f, make(chan struct{})}
	select {
	case s.calls <- c:
		<-c.done
		return true
	case <-s.ended:
		return false
	}
}

// close lets every station work off its queue and waits for all to end. Nothing is
// delivered afterwards.
func (h *hub) close() {
	h.mu.Lock()
	h.closed = true
	for _, s := range h.stations {
		close(s.queue)
	}
	h.mu.Unlock()
	h.running.Wait()
}

// run is the station's goroutine. A fault in a seat ends that station alone.
func (s *station) run() {
	var seat Seat
	defer close(s.ended)
	defer s.leave()
	defer func() { s.end(seat, recover()) }()
	seat = s.hub.factory(s.address)
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
			s.take(seat, d)
		case c := <-s.calls:
			s.serve(seat, c)
		case now := <-ticker.C:
			seat.Tick(now)
			if now.Sub(last) > s.patience(seat) && s.expire() {
				return
			}
		}
	}
}

func (s *station) take(seat Seat, d delivery) {
	size := int64(len(d.buffer.b))
	defer func() { // also when the seat fails
		s.waiting.Add(-size)
		s.hub.waiting.Add(-size)
		d.buffer.free()
	}()
	seat.Datagram(d.buffer.b, d.received)
}

func (s *station) serve(seat Seat, c call) {
	defer close(c.done)
	c.f(seat)
}

// patience is how long the station may be silent.
func (s *station) patience(seat Seat) time.Duration {
	if p, ok := seat.(Prover); ok && !p.Proven() {
		return min(s.hub.config.Unproven, s.hub.config.Idle)
	}
	return s.hub.config.Idle
}

// expire takes the station out of the hub, unless something came meanwhile.
func (s *station) expire() bool {
	s.hub.mu.Lock()
	defer s.hub.mu.Unlock()
	if len(s.queue) > 0 || s.hub.closed {
		return false
	}
	s.remove()
	return true
}

// remove forgets the station. hub.mu is held.
func (s *station) remove() {
	if s.hub.stations[s.address] == s {
		delete(s.hub.stations, s.address)
		s.hub.config.Metrics.stations.Dec()
	}
}

// leave removes a station that did not expire, and lets go of what waits for it.
func (s *station) leave() {
	s.hub.mu.Lock()
	defer s.hub.mu.Unlock()
	s.remove()
	for {
		select {
		case d, open := <-s.queue:
			if !open {
				return
			}
			size := int64(len(d.buffer.b))
			s.hub.waiting.Add(-size)
			d.buffer.free()
			s.hub.config.Metrics.fault.Inc()
		default:
			return
		}
	}
}

// end ends the seat and reports a fault in it, or in its end.
func (s *station) end(seat Seat, fault any) {
	defer func() {
		if again := recover(); again != nil && fault == nil {
			fault = again
		}
		if fault != nil {
			s.hub.config.Metrics.fault.Inc()
			s.hub.config.Warn(fmt.Errorf("station %v was ended by a fault in the program, please report it: %v\n%s", s.address, fault, debug.Stack()))
		}
	}()
	if seat != nil {
		seat.End()
	}
}
