package lan

import (
	"net"
	"sync"
)

// A listener knows the connections that it has accepted, so that they can be cut off: net/http forgets those of live
// sockets.
type listener struct {
	net.Listener
	mu   sync.Mutex
	open map[*device]bool
}

// Accept returns the next connection.
func (l *listener) Accept() (net.Conn, error) {
	c, err := l.Listener.Accept()
	if err != nil {
		return nil, err
	}
	d := &device{Conn: c, of: l}
	l.mu.Lock()
	defer l.mu.Unlock()
	l.open[d] = true
	return d, nil
}

// shut closes the listener and its connections but one, which is named by its remote address.
func (l *listener) shut(but string) {
	_ = l.Close() // of no more use in any case
	l.mu.Lock()
	defer l.mu.Unlock()
	for d := range l.open {
		if d.RemoteAddr().String() != but {
			_ = d.Conn.Close()
		}
	}
}

// A device is a connection from the network.
type device struct {
	net.Conn
	of *listener
}

// Close closes the connection.
func (d *device) Close() error {
	d.of.mu.Lock()
	delete(d.of.open, d)
	d.of.mu.Unlock()
	return d.Conn.Close()
}

// CloseWrite is for net/http, which calls it after answering a request whose body it did not read to the end.
func (d *device) CloseWrite() error {
	if half, ok := d.Conn.(interface{ CloseWrite() error }); ok {
		return half.CloseWrite()
	}
	return nil
}
