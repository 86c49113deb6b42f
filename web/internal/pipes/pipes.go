// Package pipes is a network for tests: connections are pipes, so that servers run in the time of a synctest bubble.
package pipes

import (
	"bytes"
	"net"
	"net/netip"
	"sync"
	"time"
)

// A Listener accepts what Dial connects.
type Listener struct {
	conns  chan net.Conn
	closed chan struct{}
	once   sync.Once
}

// Listen makes a Listener.
func Listen() *Listener { return &Listener{conns: make(chan net.Conn), closed: make(chan struct{})} }

// Accept returns the next connection, or net.ErrClosed.
func (l *Listener) Accept() (net.Conn, error) {
	select {
	case c := <-l.conns:
		return c, nil
	case <-l.closed:
		return nil, net.ErrClosed
	}
}

// Close ends Accept.
func (l *Listener) Close() error {
	l.once.Do(func() { close(l.closed) })
	return nil
}

// Addr is a loopback address.
func (l *Listener) Addr() net.Addr { return &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 7180} }

// Dial connects as a client of an IP address.
func (l *Listener) Dial(from string) net.Conn {
	client, server := net.Pipe()
	l.conns <- end{server, netip.AddrPortFrom(netip.MustParseAddr(from), 50000)}
	return client
}

// An end is the server's end of a connection.
type end struct {
	net.Conn
	from netip.AddrPort
}

// RemoteAddr is the address of the client.
func (e end) RemoteAddr() net.Addr { return net.TCPAddrFromAddrPort(e.from) }

// A Log is an io.Writer that can be read while it is written.
type Log struct {
	mu  sync.Mutex
	buf bytes.Buffer
}

// Write appends.
func (l *Log) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.buf.Write(p)
}

// String is what was written so far.
func (l *Log) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.buf.String()
}

// Since is how long ago a moment was, in whole seconds.
func Since(t time.Time) int { return int(time.Since(t).Round(time.Second).Seconds()) }
