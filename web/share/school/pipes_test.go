package school_test

import (
	"context"
	"errors"
	"net"
	"sync"
)

// pipes are connections that can be cut.
type pipes struct {
	mu   sync.Mutex
	cut  bool
	open []net.Conn
	to   chan net.Conn
	over chan struct{}
}

var errCut = errors.New("the line is cut")

func (p *pipes) dial(ctx context.Context, _, _ string) (net.Conn, error) {
	here, there := net.Pipe()
	p.mu.Lock()
	if p.cut || p.to == nil {
		p.mu.Unlock()
		return nil, errCut
	}
	p.open = append(p.open, here, there)
	to, over := p.to, p.over
	p.mu.Unlock()
	select {
	case to <- addressed{there}:
		return here, nil
	case <-over:
		return nil, errCut
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

// set cuts the line, or mends it.
func (p *pipes) set(cut bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.cut = cut
	if cut {
		for _, c := range p.open {
			_ = c.Close() // whoever uses it sees that
		}
		p.open = nil
	}
}

// listen takes connections in the place of the listener before.
func (p *pipes) listen() *end {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.to, p.over = make(chan net.Conn), make(chan struct{})
	return &end{p.to, p.over, sync.Once{}}
}

// An end is a listener of pipes.
type end struct {
	from chan net.Conn
	over chan struct{}
	once sync.Once
}

func (e *end) Accept() (net.Conn, error) {
	select {
	case c := <-e.from:
		return c, nil
	case <-e.over:
		return nil, net.ErrClosed
	}
}

func (e *end) Close() error {
	e.once.Do(func() { close(e.over) })
	return nil
}

func (e *end) Addr() net.Addr { return &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 80} }

// addressed is a pipe with addresses as a socket has them.
type addressed struct{ net.Conn }

func (addressed) RemoteAddr() net.Addr { return &net.TCPAddr{IP: net.IPv4(192, 0, 2, 7), Port: 4000} }
func (addressed) LocalAddr() net.Addr  { return &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 80} }
