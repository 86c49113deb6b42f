package lan

import (
	"context"
	"errors"
	"net"
	"net/netip"
	"strconv"
	"sync"

	"github.com/rs/zerolog"

	"halfturn/coach/who"
)

// A Status is what the pages say of the network.
type Status struct {
	Open      bool     `json:"open"`
	Always    bool     `json:"always,omitempty"` // open by the configuration
	Addresses []string `json:"addresses"`        // of the pages there, as a browser takes them
	Code      string   `json:"code,omitempty"`   // to be typed by each device; only its owner is told
	Role      who.Role `json:"role,omitempty"`   // of the devices
}

// Options say how a network is opened.
type Options struct {
	Own     net.Addr            // where the pages are served in any case
	Machine func() []netip.Addr // this machine's addresses in private networks; see [Addresses]
	// Serve answers at a listener until it is closed; it is called in a goroutine of its own.
	Serve  func(net.Listener) error
	Secure bool // the pages are served over TLS
	Log    zerolog.Logger
}

// A Network opens and closes the pages to the local network. It is safe for concurrent use.
type Network struct {
	o      Options
	passes passes

	mu        sync.Mutex
	listeners []*listener
	code      string
	role      who.Role
	wait      sync.WaitGroup
	closed    sync.Once // said that no further device is let in
}

// New makes a network that is closed, unless the configuration has opened the pages to others: then it asks them for a
// code from the start.
func New(o Options) *Network {
	n := &Network{o: o}
	if n.always() {
		n.role = who.RoleStudent
		n.code = n.passes.renew(n.role)
	}
	return n
}

// own is the address that the pages are served at in any case.
func (n *Network) own() netip.AddrPort {
	if tcp, ok := n.o.Own.(*net.TCPAddr); ok {
		return tcp.AddrPort()
	}
	return netip.AddrPort{}
}

// always reports whether the configuration has opened the pages to others.
func (n *Network) always() bool { return n.own().IsValid() && !n.own().Addr().Unmap().IsLoopback() }

// Open listens at this machine's private addresses and returns what to tell of it. It does nothing where that is done
// already. The devices that come have a role.
func (n *Network) Open(ctx context.Context, role who.Role) (Status, error) {
	n.mu.Lock()
	defer n.mu.Unlock()
	if n.always() || len(n.listeners) > 0 {
		return n.status(), nil
	}
	var failed error
	for _, ip := range n.o.Machine() {
		at := net.JoinHostPort(ip.String(), strconv.Itoa(int(n.own().Port())))
		l, err := (&net.ListenConfig{}).Listen(ctx, "tcp", at)
		if err != nil {
			failed = errors.Join(failed, err)
			continue
		}
		n.listeners = append(n.listeners, &listener{Listener: l, open: map[*device]bool{}})
	}
	if len(n.listeners) == 0 {
		if failed == nil {
			return n.status(), errNoNetwork
		}
		return n.status(), failed
	}
	n.role = role
	n.code = n.passes.renew(role)
	for _, l := range n.listeners {
		n.wait.Go(func() {
			if err := n.o.Serve(l); err != nil && !errors.Is(err, net.ErrClosed) {
				n.o.Log.Warn().Err(err).Stringer("http", l.Addr()).Msg("the pages are no longer served in the network")
			}
		})
	}
	n.o.Log.Warn().Strs("pages", n.status().Addresses).
		Msg("the pages are open to the local network, for devices that type the code shown on the page")
	return n.status(), nil
}

// Close closes it: the devices that are there are cut off, and their passes are void.
func (n *Network) Close() Status {
	n.shut("")
	n.wait.Wait()
	return n.Status()
}

// shut closes the listeners and all connections but one, which is named by its remote address. It reports whether the
// network was open.
func (n *Network) shut(but string) bool {
	if n.always() {
		return false
	}
	n.passes.end()
	n.mu.Lock()
	listeners := n.listeners
	n.listeners, n.code, n.role = nil, "", ""
	n.mu.Unlock()
	for _, l := range listeners {
		l.shut(but)
	}
	return len(listeners) > 0
}

// Status tells how it is now.
func (n *Network) Status() Status {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.status()
}

func (n *Network) status() Status {
	s := Status{
		Open:      len(n.listeners) > 0,
		Always:    n.always(),
		Addresses: []string{},
		Code:      n.code,
		Role:      n.role,
	}
	scheme := "http://"
	if n.o.Secure {
		scheme = "https://"
	}
	for _, l := range n.listeners {
		s.Addresses = append(s.Addresses, scheme+l.Addr().String()+"/")
	}
	if !s.Always {
		return s
	}
	s.Open = true
	port := strconv.Itoa(int(n.own().Port()))
	at := []netip.Addr{n.own().Addr().Unmap()}
	if at[0].IsUnspecified() {
		at = n.o.Machine()
	}
	for _, ip := range at {
		s.Addresses = append(s.Addresses, scheme+net.JoinHostPort(ip.String(), port)+"/")
	}
	return s
}
