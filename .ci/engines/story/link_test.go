package story

import (
	"net"
	"sync"
	"testing"
)

// A link is what lies between a node and the NATS servers: a relay for each server. While it is cut nothing passes in
// either direction and no connection is made or closed, as on a network that drops packets; what was sent meanwhile
// arrives when it is whole again, unless its sender gave up.
type link struct {
	gate sync.RWMutex // held for writing while the link is cut
	urls []string     // of the relays
	work sync.WaitGroup

	mu    sync.Mutex
	conns map[net.Conn]bool
	over  bool
}

// newLink makes a link to servers, HOST:PORT each.
func newLink(t *testing.T, servers []string) *link {
	t.Helper()
	l := &link{conns: map[net.Conn]bool{}}
	for _, server := range servers {
		door, err := net.Listen("tcp", "127.0.0.1:0")
		if err != nil {
			t.Fatal(err)
		}
		l.urls = append(l.urls, "nats://"+door.Addr().String())
		l.work.Go(func() { l.relay(door, server) })
		t.Cleanup(func() { door.Close() })
	}
	t.Cleanup(func() { // before the doors are closed
		l.mu.Lock()
		l.over = true
		for c := range l.conns {
			c.Close()
		}
		l.mu.Unlock()
	})
	return l
}

// cut has nothing pass until mend.
func (l *link) cut() { l.gate.Lock() }

func (l *link) mend() { l.gate.Unlock() }

// relay takes connections to a server.
func (l *link) relay(door net.Listener, server string) {
	for {
		near, err := door.Accept()
		if err != nil {
			return
		}
		l.work.Go(func() {
			defer near.Close()
			l.gate.RLock()
			far, err := net.Dial("tcp", server)
			l.gate.RUnlock()
			if err != nil {
				return // as the server refuses
			}
			defer far.Close()
			if !l.hold(near, far) {
				return
			}
			defer l.drop(near, far)
			done := make(chan struct{})
			go func() {
				defer close(done)
				l.pass(far, near)
			}()
			l.pass(near, far)
			<-done
		})
	}
}

// pass copies until one of the two is closed, and closes both.
func (l *link) pass(to, from net.Conn) {
	defer to.Close()
	defer from.Close()
	b := make([]byte, 64<<10)
	for {
		n, err := from.Read(b)
		l.gate.RLock()
		if n > 0 && err == nil {
			_, err = to.Write(b[:n])
		}
		l.gate.RUnlock()
		if err != nil {
			return
		}
	}
}

// hold notes connections, to be closed with the link; false when it is over.
func (l *link) hold(conns ...net.Conn) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, c := range conns {
		l.conns[c] = true
	}
	return !l.over
}

func (l *link) drop(conns ...net.Conn) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, c := range conns {
		delete(l.conns, c)
	}
}
