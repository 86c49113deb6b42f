package probe

import (
	"net/netip"
	"sync"
	"time"

	"halfturn/coach/probe"
	"halfturn/coach/session"
	"halfturn/stream"
	"halfturn/stream/ingest"
	"halfturn/web/desk/identity"
)

// Heard collects what is known of the senders, as reported by the goroutine of each.
type Heard struct {
	mu   sync.Mutex
	list []*sender
}

// All returns the latest of every sender, in the order in which they appeared.
func (h *Heard) All() []probe.Probe {
	h.mu.Lock()
	defer h.mu.Unlock()
	list := make([]probe.Probe, 0, len(h.list))
	for _, s := range h.list {
		if s.last.Name != "" {
			list = append(list, s.last)
		}
	}
	return list
}

// Sender follows a new sender; names are the stations known in advance.
func (h *Heard) Sender(a netip.AddrPort, o session.Options, names []identity.Sender) ingest.Handler {
	o.Name, o.Address = a.String(), a.String()
	for _, n := range names {
		if n.Address == a || n.Address.Port() == 0 && n.Address.Addr() == a.Addr() {
			o.Name, o.Station = n.Name, n.Station
		}
	}
	s := &sender{heard: h, session: session.New(o)}
	h.mu.Lock()
	h.list = append(h.list, s)
	h.mu.Unlock()
	return s
}

// A sender is one address that sends, and what is known of it.
type sender struct {
	heard   *Heard
	session *session.Session
	now     time.Time
	last    probe.Probe // under heard.mu
}

// Datagram takes one datagram.
func (s *sender) Datagram(b []byte, received time.Time) {
	first := s.now.IsZero()
	s.session.Feed(b, stream.Seconds(received))
	s.now = received
	if first {
		s.look(received)
	}
}

// Take takes nothing: nobody sends requests here.
func (*sender) Take(ingest.Request) bool { return false }

// Tick looks at the sender again while it is quiet.
func (s *sender) Tick(now time.Time) { s.look(now) }

// End keeps what was known when the last datagram came.
func (s *sender) End() {
	if time.Since(s.now) < time.Second {
		s.look(s.now)
	}
}

func (s *sender) look(now time.Time) {
	p := s.session.Probe(stream.Seconds(now))
	s.heard.mu.Lock()
	defer s.heard.mu.Unlock()
	s.last = p
}
