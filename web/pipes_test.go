package web

import (
	"bytes"
	"context"
	"net"
	"net/netip"
	"sync"
	"testing"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/rs/zerolog"

	"halfturn/web/hub"
)

// A piped server listens to pipes, in the time of a synctest bubble.
type piped struct {
	*Server
	t      *testing.T
	conns  chan net.Conn
	closed chan struct{}
	once   sync.Once
	said   *record
	stop   context.CancelFunc
	served chan error
}

// A record is a log that can be read while it is written.
type record struct {
	mu  sync.Mutex
	buf bytes.Buffer
}

func (r *record) Write(p []byte) (int, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.buf.Write(p)
}

func (r *record) String() string {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.buf.String()
}

// logged returns a server and its log.
func logged(cfg Config) (*Server, *record) {
	said := &record{}
	log := zerolog.New(said)
	return New(cfg, hub.New("1.2.3", log), &fakeDesk{}, prometheus.NewRegistry(), log), said
}

// servePipes serves until the test ends.
func servePipes(t *testing.T, cfg Config) *piped {
	t.Helper()
	s, said := logged(cfg)
	p := &piped{Server: s, t: t, said: said, conns: make(chan net.Conn), closed: make(chan struct{}), served: make(chan error, 1)}
	ctx, cancel := context.WithCancel(context.Background())
	p.stop = cancel
	go func() { p.served <- s.Serve(ctx, p) }()
	return p
}

// end stops the server; it must end without an error.
func (p *piped) end() {
	p.t.Helper()
	p.stop()
	if err := <-p.served; err != nil {
		p.t.Error(err)
	}
}

func (p *piped) Accept() (net.Conn, error) {
	select {
	case c := <-p.conns:
		return c, nil
	case <-p.closed:
		return nil, net.ErrClosed
	}
}

func (p *piped) Close() error {
	p.once.Do(func() { close(p.closed) })
	return nil
}

func (p *piped) Addr() net.Addr { return &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 7180} }

// A pipeEnd is the server's end of a connection from an address.
type pipeEnd struct {
	net.Conn
	from netip.AddrPort
}

func (e pipeEnd) RemoteAddr() net.Addr { return net.TCPAddrFromAddrPort(e.from) }

// dial connects as a client of an address.
func (p *piped) dial(from string) net.Conn {
	client, server := net.Pipe()
	p.conns <- pipeEnd{server, netip.AddrPortFrom(netip.MustParseAddr(from), 50000)}
	return client
}

// ask connects and sends what a request begins with.
func (p *piped) ask(text string) net.Conn {
	p.t.Helper()
	c := p.dial("127.0.0.1")
	if _, err := c.Write([]byte(text)); err != nil {
		p.t.Fatal(err)
	}
	return c
}

// since is how long ago something was, in whole seconds.
func since(t time.Time) int { return int(time.Since(t).Round(time.Second).Seconds()) }
