package ingest

import (
	"context"
	"errors"
	"net/netip"
	"slices"
	"sync"

	"halfturn/stream/ingest/network"
	"halfturn/stream/ingest/socket"
)

// An extra is the sockets that are opened and closed while the Listener receives.
type extra struct {
	mu      sync.Mutex
	sockets []socket.Socket
	where   []netip.AddrPort
	over    bool // the Listener is closed
}

func (e *extra) addresses() []netip.AddrPort {
	e.mu.Lock()
	defer e.mu.Unlock()
	return slices.Clone(e.where)
}

// drain has what the system holds of the sockets received, and lets no more be opened.
func (e *extra) drain() {
	e.mu.Lock()
	defer e.mu.Unlock()
	e.over = true
	for _, s := range e.sockets {
		socket.Drain(s.UDPConn)
	}
}

// shut closes the sockets for good.
func (e *extra) shut() {
	e.mu.Lock()
	defer e.mu.Unlock()
	e.closeAll()
}

// closeAll closes the sockets. mu is held.
func (e *extra) closeAll() {
	socket.CloseAll(e.sockets)
	e.sockets, e.where = nil, nil
}

// ErrClosed says that the Listener is closed.
var ErrClosed = errors.New("no datagrams are received any more")

// IsReachable reports whether datagrams of other machines can arrive.
func (l *Listener) IsReachable() bool { return l.reachable() || len(l.more.addresses()) > 0 }

// Open also receives at more addresses of this machine, HOST:PORT, until Shut; those that were opened before are
// closed. Datagrams of the networks that the Config allows are taken there.
func (l *Listener) Open(ctx context.Context, addresses []string) error {
	l.more.mu.Lock()
	defer l.more.mu.Unlock()
	if l.more.over {
		return ErrClosed
	}
	l.more.closeAll()
	sockets, where, err := socket.OpenAll(ctx, addresses)
	if err != nil {
		return err
	}
	config := &l.senders.config
	for _, p := range network.Allowed(config.Allow, true, network.Own()) {
		l.senders.allowAlso(p)
	}
	for _, s := range sockets {
		if err := socket.Enlarge(s.UDPConn, config.Receive); err != nil {
			config.Warn(err)
		}
		l.receive(s)
	}
	l.more.sockets, l.more.where = sockets, where
	return nil
}

// Shut closes the addresses that Open opened.
func (l *Listener) Shut() {
	l.more.mu.Lock()
	defer l.more.mu.Unlock()
	l.more.closeAll()
}
