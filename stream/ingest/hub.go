package ingest

import (
	"context"
	"errors"
	"fmt"
	"net/netip"
	"slices"
	"sync"
	"sync/atomic"
	"time"

	"halfturn/stream/quiet"
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
	quiet   quiet.Log

	mu       sync.Mutex
	stations map[netip.AddrPort]*station
	refused  Refusal // who was refused last
	closed   bool
}

// A Refusal says who was refused a seat because there are as many as there may be.
type Refusal struct {
	Sender netip.AddrPort
	Seats  int       // as many as there may be
	At     time.Time // of the last datagram that was refused; zero when none was
}

// The kinds of message that anybody who sends may cause.
const (
	notAllowed = "not-allowed"
	tooMany    = "too-many-stations"
	tooFast    = "too-fast"
	fault      = "fault"
)

func newHub(config Config, factory Factory) *hub {
	return &hub{config: config, factory: factory, allow: loopbacks, stations: make(map[netip.AddrPort]*station)}
}

// deliver puts a copy of one datagram into its station's queue, or drops and counts it.
func (h *hub) deliver(from netip.AddrPort, b []byte, received time.Time) {
	switch h.put(from, b, received) {
	case notAllowed:
		h.refuse(from.Addr())
	case tooMany:
		h.config.Metrics.tooMany.Inc()
		h.warn(tooMany, from.Addr().String(), func() error {
			return fmt.Errorf("datagrams from %v are refused: %d senders have a seat already, and max-stations in the "+
				"configuration allows no more; stop a sender that is not needed, or raise max-stations", from, h.config.MaxStations)
		})
	case tooFast:
		h.config.Metrics.tooFast.Inc()
		h.warn(tooFast, from.String(), func() error {
			return fmt.Errorf("station %v sends more than %d datagrams a second; what is more is dropped: "+
				"lower the rate in the simulator, or raise max-rate in the configuration", from, h.config.MaxRate)
		})
	}
}

// put puts a datagram into its station's queue; else it returns what kind of refusal there is something to say about.
func (h *hub) put(from netip.AddrPort, b []byte, received time.Time) (refusal string) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.closed {
		return ""
	}
	s := h.stations[from]
	if s == nil {
		if s, refusal = h.admit(from, received); s == nil {
			return refusal
		}
	}
	if !s.budget.spend(h.config.MaxRate, received) {
		return tooFast
	}
	size := int64(len(b))
	if len(s.queue) == cap(s.queue) || s.waiting.Load()+size > stationBytes || h.waiting.Load()+size > allBytes {
		h.config.Metrics.queueFull.Inc()
		return ""
	}
	s.waiting.Add(size)
	h.waiting.Add(size)
	s.queue <- delivery{fill(b), received} // only this goroutine sends while mu is held: there is room
	return ""
}

// admit starts the station of a new sender, or tells why it is refused. mu is held.
func (h *hub) admit(from netip.AddrPort, received time.Time) (s *station, refusal string) {
	switch {
	case !h.allows(from.Addr()):
		return nil, notAllowed
	case !h.room(from.Addr()):
		h.refused = Refusal{from, h.config.MaxStations, received}
		return nil, tooMany
	}
	s = &station{hub: h, address: from, queue: make(chan delivery, h.config.Queue)}
	h.stations[from] = s
	h.config.Metrics.stations.Inc()
	h.running.Go(s.run)
	return s, ""
}

// refuse counts a sender that is not allowed, and says how to take it.
func (h *hub) refuse(from netip.Addr) {
	h.config.Metrics.notAllowed.Inc()
	h.warn(notAllowed, from.String(), func() error {
		return fmt.Errorf("datagrams from %v are refused: it is in none of the allowed networks (%s); "+
			"to take them, add %q to allow in the configuration", from, prefixes(h.allow), from)
	})
}

// warn says something that a sender caused: at once, or in a summary when it was said of late.
func (h *hub) warn(what, sender string, words func() error) {
	h.quiet.Say(what, sender, func(more int) {
		if more > 0 {
			h.config.Warn(fmt.Errorf("%w (the last of %d such datagrams since this was last said)", words(), more))
			return
		}
		h.config.Warn(words())
	})
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
}

// spend takes one datagram from the budget; false when it is empty.
func (b *budget) spend(rate int, now time.Time) bool {
	if rate <= 0 {
		return true
	}
	if b.at.IsZero() {
		b.left = float64(rate)
	}
	if past := now.Sub(b.at).Seconds(); past > 0 {
		b.left = min(b.left+past*float64(rate), float64(rate))
	}
	b.at = now
	if b.left < 1 {
		return false
	}
	b.left--
	return true
}

// refused says who was refused a seat last.
func (h *hub) lastRefused() Refusal {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.refused
}

// addresses lists the senders that have a seat.
func (h *hub) addresses() []netip.AddrPort {
	h.mu.Lock()
	defer h.mu.Unlock()
	list := make([]netip.AddrPort, 0, len(h.stations))
	for a, s := range h.stations {
		if s.life != nil {
			list = append(list, a)
		}
	}
	return list
}

// ErrNoSeat says that a sender has no seat: it is not known, or its seat is being made or is ending.
var ErrNoSeat = errors.New("the sender has no seat")

func (h *hub) do(ctx context.Context, address netip.AddrPort, f func(Seat)) error {
	l := h.life(address)
	if l == nil {
		return ErrNoSeat
	}
	return l.call(ctx, func(s Seat) bool { f(s); return false })
}

func (h *hub) end(ctx context.Context, address netip.AddrPort, f func(Seat) bool) error {
	l := h.life(address)
	if l == nil {
		return ErrNoSeat
	}
	ends := false
	err := l.call(ctx, func(s Seat) bool { ends = f(s); return ends })
	if err == nil && !ends || err != nil && !errors.Is(err, ErrNoSeat) {
		return err
	}
	select {
	case <-l.ended:
		return err
	case <-ctx.Done():
		return context.Cause(ctx)
	}
}

// life is that of a sender's seat; nil when it has none.
func (h *hub) life(address netip.AddrPort) *life {
	h.mu.Lock()
	defer h.mu.Unlock()
	if s := h.stations[address]; s != nil {
		return s.life
	}
	return nil
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
	h.quiet.Close()
}
