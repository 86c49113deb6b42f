package ingest

import (
	"fmt"
	"net/netip"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/prometheus/client_golang/prometheus/testutil"

	"halfturn/stream/ingest/socket"
)

// A mourner is a handler that keeps what it is told of losses, among its datagrams.
type mourner struct {
	mu   sync.Mutex
	list []string
}

func (m *mourner) note(format string, args ...any) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.list = append(m.list, fmt.Sprintf(format, args...))
}

func (m *mourner) Datagram(b []byte, _ time.Time) { m.note("%s", b) }
func (m *mourner) Lost(l Loss)                    { m.note("lost %d/%d", l.Own, l.Shared) }
func (*mourner) Take(Request) bool                { return false }
func (*mourner) Tick(time.Time)                   {}
func (m *mourner) End()                           { m.note("end") }

func (m *mourner) String() string {
	m.mu.Lock()
	defer m.mu.Unlock()
	return strings.Join(m.list, " ")
}

// datagrams is how many datagrams came.
func (m *mourner) datagrams() (n int) {
	m.mu.Lock()
	defer m.mu.Unlock()
	for _, s := range m.list {
		if s != "end" && !strings.HasPrefix(s, "lost") {
			n++
		}
	}
	return n
}

// Each sender of a socket is told of what the system dropped there, before its next datagram and at most once a second;
// what comes in by another socket is not concerned.
func TestLossIsTold(t *testing.T) {
	if !socket.CountsLost {
		t.Skip("this system does not say what it dropped")
	}
	synctest.Test(t, func(t *testing.T) {
		handlers := map[netip.AddrPort]*mourner{from(1): {}, from(2): {}, from(3): {}}
		config := Config{}
		config.fill()
		h := newSenders(config, func(a netip.AddrPort) Handler { return handlers[a] })
		one, other := h.inlet("one"), h.inlet("other")
		send := func(in *inlet, port int, text string) { h.deliver(in, from(port), []byte(text), time.Now()) }
		send(one, 1, "a")
		send(one, 2, "a")
		send(other, 3, "a")
		h.lose(one, 5)
		send(one, 1, "b")
		h.lose(one, 2)
		send(one, 1, "c") // too soon to tell again
		send(other, 3, "b")
		<-time.After(tellEvery) // of the bubble's own time
		send(one, 1, "d")
		send(one, 2, "b")
		h.lose(one, 1)
		send(one, 1, "e")
		h.close()
		for port, want := range map[int]string{
			1: "a lost 0/5 b c lost 0/2 d e lost 0/1 end",
			2: "a lost 0/7 b lost 0/1 end",
			3: "a b end",
		} {
			if got := handlers[from(port)].String(); got != want {
				t.Errorf("sender %d: %q; must be %q", port, got, want)
			}
		}
		if got := testutil.ToFloat64(one.lost); got != 8 || h.dropped.Datagrams != 8 {
			t.Errorf("%v counted, %d in all; must be 8", got, h.dropped.Datagrams)
		}
	})
}

// A slow handler is told how many of its own datagrams did not fit its queue.
func TestLossOfQueue(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		config := Config{Queue: 3}
		config.fill()
		m, ready := &mourner{}, make(chan struct{})
		h := newSenders(config, func(netip.AddrPort) Handler {
			<-ready
			return m
		})
		for i := range 5 {
			h.deliver(nil, from(1), fmt.Append(nil, i), time.Now())
		}
		close(ready)
		synctest.Wait()
		h.deliver(nil, from(1), []byte("5"), time.Now())
		h.close()
		if got, want := m.String(), "0 1 2 lost 2/0 5 end"; got != want {
			t.Errorf("%q; must be %q", got, want)
		}
	})
}

// What is sent arrives or is counted as dropped: a receive buffer overflows while its reader is held up.
// SO_RXQ_OVFL, socket(7), says how many the system dropped.
func TestOverflow(t *testing.T) {
	if !socket.CountsLost {
		t.Skip("this system does not say what it dropped")
	}
	held, reads := make(chan struct{}), make(chan struct{}, 1)
	var hold sync.Once
	config := Config{
		Addresses: []string{"127.0.0.1:0"},
		Receive:   8 << 10,
		Queue:     1 << 14,
		Line: func(netip.AddrPort, string) { // in the goroutine that reads the socket
			hold.Do(func() {
				reads <- struct{}{}
				<-held
			})
		},
	}
	m := &mourner{}
	l, err := Listen(t.Context(), config, func(netip.AddrPort) Handler { return m })
	if err != nil {
		t.Fatal(err)
	}
	c := dial(t, l.Addresses()[0])
	send := func(text string) {
		if _, err := c.Write([]byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	send("first")
	send(LinePrefix + "hold")
	<-reads
	sent := 1 // taken or dropped; the line starts no station
	for ; sent <= 2000; sent++ {
		send("x")
	}
	close(held)
	for range 1000 { // what is dropped last is counted with the next datagram
		if m.datagrams()+int(l.Dropped().Datagrams) == sent {
			break
		}
		send("x")
		sent++
		<-time.After(5 * time.Millisecond)
	}
	dropped := l.Dropped()
	if err := l.Close(); err != nil {
		t.Fatal(err)
	}
	if got := m.datagrams(); dropped.Datagrams == 0 || got+int(dropped.Datagrams) != sent {
		t.Errorf("%d sent, %d taken, %d dropped", sent, got, dropped.Datagrams)
	}
	told := uint64(0)
	for _, s := range m.list {
		var l Loss
		if n, _ := fmt.Sscanf(s, "lost %d/%d", &l.Own, &l.Shared); n == 2 {
			told += l.Shared
		}
	}
	if told != dropped.Datagrams || dropped.Last.IsZero() {
		t.Errorf("the station was told of %d; must be %d", told, dropped.Datagrams)
	}
	counter := l.senders.config.Metrics.lost.WithLabelValues(l.where[0].String())
	if in := testutil.ToFloat64(counter); in != float64(told) {
		t.Errorf("the metric says %v", in)
	}
}
