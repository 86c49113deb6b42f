package ingest

import (
	"bytes"
	"fmt"
	"net/netip"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"halfturn/stream/ingest/network"
	"halfturn/stream/quiet"
)

// Limits on the bytes that wait, besides the number of datagrams: the longest datagram is forty times the usual one.
const (
	senderBytes = 1 << 20
	allBytes    = 64 << 20
)

// senders knows every address that sends, and gives each its queue and goroutine. It knows nothing of sockets.
type senders struct {
	config  Config
	factory Factory
	allow   atomic.Pointer[network.List] // replaced, never changed
	limits  atomic.Pointer[limits]       // replaced, never changed
	running sync.WaitGroup
	waiting atomic.Int64 // bytes in all queues
	beat    beat
	quiet   quiet.Log

	mu      sync.Mutex
	all     map[netip.AddrPort]*sender
	refused Refusal // the latest
	dropped Dropped
	full    uint64 // datagrams that did not fit into a queue, since strain was asked
	unread  uint64 // datagrams that the system dropped, since strain was asked
	closed  bool
}

// A Refusal says which sender was refused because there are as many as there may be.
type Refusal struct {
	Sender netip.AddrPort
	Most   int       // as many as there may be
	At     time.Time // of the last datagram that was refused; zero when none was
}

// The kinds of message that any sender may cause.
const (
	notAllowed = "not-allowed"
	tooMany    = "too-many-stations"
	tooFast    = "too-fast"
	notRead    = "not-read"
	queueFull  = "queue-full"
)

func newSenders(config Config, factory Factory) *senders {
	h := &senders{config: config, factory: factory, all: make(map[netip.AddrPort]*sender)}
	h.beat.began, h.beat.stop = time.Now(), make(chan struct{})
	h.setAllowed(network.Allowed(nil, false, nil))
	h.limits.Store(&limits{config.MaxRate, config.MaxStations})
	return h
}

// limits bound what is taken, as in Config.
type limits struct{ rate, stations int }

// allowed are the networks whose datagrams are taken.
func (h *senders) allowed() network.List { return *h.allow.Load() }

func (h *senders) setAllowed(list network.List) { h.allow.Store(&list) }

// allowAlso takes datagrams of one more network.
func (h *senders) allowAlso(p netip.Prefix) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if list := h.allowed(); !slices.Contains(list, p) {
		h.setAllowed(append(slices.Clone(list), p))
	}
}

// deliver puts a copy of one datagram into the queue of its sender, or drops and counts it. in is where it came in.
func (h *senders) deliver(in *inlet, from netip.AddrPort, b []byte, received time.Time) {
	if h.line(from, b) {
		return
	}
	switch h.put(in, from, b, received) {
	case notAllowed:
		h.refuse(from.Addr())
	case tooMany:
		h.config.Metrics.tooMany.Inc()
		h.warn(tooMany, from.Addr().String(), func() error {
			return fmt.Errorf("datagrams from %v are refused: %d senders are taken already, and max-stations in the "+
				"configuration allows no more; stop a sender that is not needed, or raise max-stations", from,
				h.limits.Load().stations)
		})
	case tooFast:
		h.config.Metrics.tooFast.Inc()
		h.warn(tooFast, from.String(), func() error {
			return fmt.Errorf("station %v sends more than %d datagrams a second; what is more is dropped: "+
				"lower the rate in the simulator, or raise max-rate in the configuration", from, h.limits.Load().rate)
		})
	case queueFull:
		h.warn(queueFull, from.String(), func() error {
			return fmt.Errorf("datagrams of station %v are lost: they come faster than this machine works them off; "+
				"stop other work on it, or lower the rate in the simulator", from)
		})
	}
}

// line passes on a datagram that is a line for the program, and reports whether it was one.
func (h *senders) line(from netip.AddrPort, b []byte) bool {
	rest, is := bytes.CutPrefix(b, []byte(LinePrefix))
	if !is || h.config.Line == nil || len(b) > mostLine || !h.allowed().Contains(from.Addr()) {
		return false
	}
	h.config.Line(from, strings.TrimSpace(string(rest)))
	return true
}

// put puts a datagram into the queue of its sender. Otherwise it returns the kind of refusal, where there is something
// to say about it.
func (h *senders) put(in *inlet, from netip.AddrPort, b []byte, received time.Time) (refusal string) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.closed {
		return ""
	}
	s := h.all[from]
	if s == nil {
		if s, refusal = h.admit(from, received); s == nil {
			return refusal
		}
	}
	s.inlet = in
	if !s.budget.spend(h.limits.Load().rate, received) {
		return tooFast
	}
	size := int64(len(b))
	if len(s.queue) >= h.config.Queue || s.waiting.Load()+size > senderBytes || h.waiting.Load()+size > allBytes {
		h.config.Metrics.queueFull.Inc()
		s.lost.Own++
		h.full++
		return queueFull
	}
	s.waiting.Add(size)
	h.waiting.Add(size)
	// mu is held, so that the room is still there.
	waits := fill(b)
	waits.received, waits.lost = received, s.lost.due(received)
	s.queue <- item{buffer: waits}
	return ""
}

// admit starts a new sender, or returns why it is refused. mu is held.
func (h *senders) admit(from netip.AddrPort, received time.Time) (s *sender, refusal string) {
	switch {
	case !h.allowed().Contains(from.Addr()):
		return nil, notAllowed
	case !h.room(from.Addr()):
		h.refused = Refusal{from, h.limits.Load().stations, received}
		return nil, tooMany
	}
	s = &sender{senders: h, address: from, queue: make(chan item, h.config.Queue+mostRequests+1)} // and a tick
	h.all[from] = s
	h.startBeat()
	h.config.Metrics.stations.Inc()
	h.running.Go(s.run)
	return s, ""
}

// refuse counts a sender that is not allowed, and says how to take it.
func (h *senders) refuse(from netip.Addr) {
	h.config.Metrics.notAllowed.Inc()
	h.warn(notAllowed, from.String(), func() error {
		return fmt.Errorf("datagrams from %v are refused: it is in none of the allowed networks (%s); "+
			"to take them, add %q to allow in the configuration", from, h.allowed(), from)
	})
}

// warn says something that a sender caused: at once, or in a summary when the same was said lately.
func (h *senders) warn(what, sender string, words func() error) {
	h.quiet.Say(what, sender, func(more int) {
		if more > 0 {
			h.config.Warn(fmt.Errorf("%w (the last of %d such datagrams since this was last said)", words(), more))
			return
		}
		h.config.Warn(words())
	})
}

// room reports whether one more sender is admitted. Known senders have twice the limit, so that unknown ones cannot
// keep them out and a forged known address does not grow memory. mu is held.
func (h *senders) room(from netip.Addr) bool {
	most := h.limits.Load().stations
	if slices.Contains(h.config.Known, from.WithZone("")) {
		most *= 2
	}
	return len(h.all) < most
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

// lastRefused says which sender was refused last.
func (h *senders) lastRefused() Refusal {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.refused
}

// addresses lists the senders that have a handler.
func (h *senders) addresses() []netip.AddrPort {
	h.mu.Lock()
	defer h.mu.Unlock()
	list := make([]netip.AddrPort, 0, len(h.all))
	for a, s := range h.all {
		if s.life != nil {
			list = append(list, a)
		}
	}
	return list
}

func (h *senders) isClosed() bool {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.closed
}

// close lets every sender work off its queue and waits for all to end. Nothing is
// delivered afterwards.
func (h *senders) close() {
	h.mu.Lock()
	h.closed = true
	close(h.beat.stop)
	for _, s := range h.all {
		close(s.queue)
	}
	h.mu.Unlock()
	h.running.Wait()
	h.quiet.Close()
}
