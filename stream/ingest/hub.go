package ingest

import (
	"fmt"
	"net/netip"
	"runtime/debug"
	"slices"
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
	allow   []netip.Prefix // fixed before the first datagram
	running sync.WaitGroup
	waiting atomic.Int64 // bytes in all queues

	mu       sync.Mutex
	stations map[netip.AddrPort]*station
	refused  strangers
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
	budget  budget       // under hub.mu
}

type delivery struct {
	buffer   *buffer
	received time.Time
}

type call struct {
	f    func(Seat)
	done chan struct{}
	last bool // the station ends after it
}

func newHub(config Config, factory Factory) *hub {
	return &hub{config: config, factory: factory, allow: loopbacks, stations: make(map[netip.AddrPort]*station)}
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
		if s = h.admit(from); s == nil {
			return
		}
	}
	if told, ok := s.budget.spend(h.config.MaxRate, received); !ok {
		h.config.Metrics.tooFast.Inc()
		if !told {
			h.config.Warn(fmt.Errorf("station %v sends more than %d datagrams a second; what is more is dropped: lower the rate in the simulator, or raise max-rate in the configuration", from, h.config.MaxRate))
		}
		return
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

// admit starts the station of a new sender, nil when it is refused. mu is held.
func (h *hub) admit(from netip.AddrPort) *station {
	if !h.allows(from.Addr()) {
		h.config.Metrics.notAllowed.Inc()
		if err := h.refused.refused(from.Addr(), h.allow); err != nil {
			h.config.Warn(err)
		}
		return nil
	}
	if !h.room(from.Addr()) {
		h.config.Metrics.tooMany.Inc()
		return nil
	}
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

func (h *hub) allows(from netip.Addr) bool {
	from = from.WithZone("")
	for _, p := range h.allow {
		if p.Contains(from) {
			return true
		}
	}
	return false
}

// room tells whether one more station may come. Known senders have twice the room, so that
// strangers do not keep them out and a forged known address does not grow memory. mu is held.
func (h *hub) room(from netip.Addr) bool {
	most := h.config.MaxStations
	if slices.Contains(h.config.Known, from.WithZone("")) {
		most *= 2
	}
	return len(h.stations) < most
}

// A budget is what a sender may send: it fills by the rate, and holds one second of it.
type budget struct {
	left float64
	at   time.Time
	told bool // that it was overdrawn
}

// spend takes one datagram from the budget; not ok when it is empty. told is whether that was said
// before.
func (b *budget) spend(rate int, now time.Time) (told, ok bool) {
	if rate <= 0 {
		return b.told, true
	}
	if b.at.IsZero() {
		b.left = float64(rate)
	}
	if past := now.Sub(b.at).Seconds(); past > 0 {
		b.left = min(b.left+past*float64(rate), float64(rate))
	}
	b.at = now
	if b.left < 1 {
		told, b.told = b.told, true
		return told, false
	}
	b.left--
	return b.told, true
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
	return h.call(address, call{f: f, done: make(chan struct{})})
}

// end ends a station and returns when its seat is gone.
func (h *hub) end(address netip.AddrPort) bool {
	return h.call(address, call{f: func(Seat) {}, done: make(chan struct{}), last: true})
}

func (h *hub) call(address netip.AddrPort, c call) bool {
	h.mu.Lock()
	s := h.stations[address]
	h.mu.Unlock()
	if s == nil {
		return false
	}
	select {
	case s.calls <- c:
		<-c.done
		if c.last {
			<-s.ended
		}
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
			if c.last {
				return
			}
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
