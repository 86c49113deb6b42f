package ingest

import (
	"fmt"
	"time"

	"github.com/prometheus/client_golang/prometheus"

	"halfturn/stream/ingest/socket"
)

// A Loss counts datagrams that this machine received and could not keep.
type Loss struct {
	Own    uint64 // of this sender: its queue was full
	Shared uint64 // of all senders at the same socket, this one perhaps among them: the system dropped them unread
}

// A Loser is a Handler that is told of losses: before the datagram that came after them, at most once a second, and at
// the end of what was not told yet. A loss that nothing follows is told before End.
type Loser interface {
	Lost(l Loss)
}

// tellEvery is how often at most a sender's handler is told of losses: an overloaded machine must not get more work
// from them.
const tellEvery = time.Second

// losses are those of a sender that its handler was not told of yet.
type losses struct {
	Loss
	told time.Time // when it was told last; zero before
}

// due takes what is to be told before a datagram.
func (l *losses) due(received time.Time) (now Loss) {
	if l.Loss == (Loss{}) || !l.told.IsZero() && received.Sub(l.told).Abs() < tellEvery {
		return now
	}
	now, l.Loss, l.told = l.Loss, Loss{}, received
	return now
}

// untold takes what the handler was not told of yet.
func (s *sender) untold() Loss {
	s.senders.mu.Lock()
	defer s.senders.mu.Unlock()
	l := s.lost.Loss
	s.lost = losses{}
	return l
}

// tell tells a handler of a loss, if there is one and it listens.
func (s *sender) tell(h Handler, l Loss) {
	if loser, listens := h.(Loser); listens && l != (Loss{}) {
		loser.Lost(l)
	}
}

// An inlet is a socket, as far as the senders know it.
type inlet struct {
	name string
	lost prometheus.Counter // datagrams that the system dropped there; nil where it does not say
}

// inlet makes what the senders know of a socket. Its name is its address, or what comes in there where the system chose
// the port: there are few.
func (h *senders) inlet(name string) *inlet {
	in := &inlet{name: name}
	if socket.CountsLost {
		in.lost = h.config.Metrics.lost.WithLabelValues(name)
	}
	return in
}

// lose notes that the system dropped datagrams of a socket. Whose they were it does not say: each sender that comes in
// there may miss some.
func (h *senders) lose(in *inlet, n uint64) {
	in.lost.Add(float64(n))
	h.mu.Lock()
	now := time.Now()
	h.dropped.Datagrams += n
	h.unread += n
	h.dropped.Last = now
	for _, s := range h.all {
		if s.inlet == in {
			s.lost.Shared += n
		}
	}
	h.mu.Unlock()
	h.warn(notRead, in.name, func() error {
		return fmt.Errorf("the system dropped datagrams that came to %s, %d of them just now: they came faster than "+
			"they were read; stop other work on this machine, let the simulators send fewer a second, or allow a "+
			"larger receive buffer", in.name, n)
	})
}

// Dropped counts datagrams that the system dropped before they could be read.
type Dropped struct {
	Datagrams uint64
	Last      time.Time // when that was noticed last; zero when it never was
}

// Dropped says how many datagrams the system dropped at all sockets since the Listener was made. The system says so
// with the next datagram that is read, and only where [socket.CountsLost].
func (l *Listener) Dropped() Dropped {
	l.senders.mu.Lock()
	defer l.senders.mu.Unlock()
	return l.senders.dropped
}
