package ingest

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/netip"
	"os"
	"runtime"
	"strings"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/testutil"
)

// An echo reports on channels what it is told.
type echo struct {
	address netip.AddrPort
	got     chan string
	ended   chan netip.AddrPort
}

func (e *echo) Datagram(b []byte, received time.Time) {
	if received.IsZero() {
		panic("no time")
	}
	e.got <- string(b)
}
func (e *echo) Take(r Request) bool { return r.(call)(e) }
func (e *echo) Tick(time.Time)      {}
func (e *echo) End()                { e.ended <- e.address }

func listen(t *testing.T, ctx context.Context, config Config) (*Listener, *echo) {
	t.Helper()
	all := &echo{got: make(chan string, 100), ended: make(chan netip.AddrPort, 100)}
	l, err := Listen(ctx, config, func(a netip.AddrPort) Handler { return &echo{a, all.got, all.ended} })
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { l.Close() })
	return l, all
}

func dial(t testing.TB, to netip.AddrPort) *net.UDPConn {
	t.Helper()
	c, err := net.DialUDP("udp", nil, net.UDPAddrFromAddrPort(to))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Close() })
	return c
}

func receive[T any](t *testing.T, from chan T) (v T) {
	t.Helper()
	select {
	case v = <-from:
	case <-time.After(10 * time.Second):
		t.Fatal("nothing in 10 s")
	}
	return v
}

func TestListen(t *testing.T) {
	addresses := []string{"127.0.0.1:0", "127.0.0.1:0"}
	if c, err := net.ListenPacket("udp", "[::1]:0"); err == nil {
		c.Close()
		addresses = append(addresses, "[::1]:0")
	}
	l, all := listen(t, t.Context(), Config{Addresses: addresses})
	var from []netip.AddrPort
	for i, to := range l.Addresses() {
		c := dial(t, to)
		from = append(from, c.LocalAddr().(*net.UDPAddr).AddrPort())
		for _, text := range []string{"a line\n", "", strings.Repeat("x", 65507)} {
			if _, err := c.Write([]byte(text)); err != nil {
				t.Fatal(err)
			}
			if got := receive(t, all.got); got != text {
				t.Errorf("socket %d: got %d bytes; must be %d", i, len(got), len(text))
			}
		}
		if err := l.senders.do(t.Context(), from[i], func(s Handler) {
			if s.(*echo).address != from[i] {
				t.Errorf("handler of %v for %v", s.(*echo).address, from[i])
			}
		}); err != nil {
			t.Errorf("station %v: %v", from[i], err)
		}
	}
	if got := len(l.Senders()); got != len(from) {
		t.Errorf("%d stations; must be %d", got, len(from))
	}
	l.Close()
	l.Close() // again does nothing
	if len(all.ended) != len(from) {
		t.Errorf("%d of %d handlers ended", len(all.ended), len(from))
	}
}

// An IPv4 sender on a socket for both families is known by its IPv4 address.
func TestListenEverywhere(t *testing.T) {
	l, all := listen(t, t.Context(), Config{Addresses: []string{":0"}})
	c := dial(t, netip.AddrPortFrom(netip.MustParseAddr("127.0.0.1"), l.Addresses()[0].Port()))
	c.Write([]byte("x"))
	receive(t, all.got)
	if got, want := l.Senders(), c.LocalAddr().(*net.UDPAddr).AddrPort(); len(got) != 1 || got[0] != want {
		t.Errorf("stations %v; must be %v", got, want)
	}
}

func TestContextCloses(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	l, all := listen(t, ctx, Config{Addresses: []string{"127.0.0.1:0"}})
	c := dial(t, l.Addresses()[0])
	c.Write([]byte("x"))
	receive(t, all.got)
	cancel()
	receive(t, all.ended)
	<-l.done
}

// What the system holds when the listener is closed is still taken, and a sender that goes on does not hold that up.
func TestCloseDrains(t *testing.T) {
	held, release := make(chan struct{}), make(chan struct{})
	l, all := listen(t, t.Context(), Config{
		Addresses: []string{"127.0.0.1:0"},
		Line: func(netip.AddrPort, string) { // holds the reader of the socket up
			close(held)
			<-release
		},
	})
	const waiting = 90
	c := dial(t, l.Addresses()[0])
	c.Write([]byte(LinePrefix + "wait"))
	<-held
	for range waiting {
		c.Write([]byte("x"))
	}
	closed := make(chan error, 1)
	go func() { closed <- l.Close() }()
	for !errors.Is(l.Open(t.Context(), nil), ErrClosed) {
		<-time.After(time.Millisecond)
	}
	close(release)
	for range waiting {
		receive(t, all.got)
	}
	for more := true; more; {
		select {
		case <-all.got:
		case err := <-closed:
			if more = false; err != nil {
				t.Error(err)
			}
		case <-time.After(time.Millisecond):
			c.Write([]byte("x")) // refused once the socket is closed
		}
	}
}

// A handler that does not end is not waited for without end.
func TestCloseGivesUp(t *testing.T) {
	l, all := listen(t, t.Context(), Config{Addresses: []string{"127.0.0.1:0"}})
	l.wait = 50 * time.Millisecond
	for len(all.ended) < cap(all.ended) { // the handler has no way to say that it ended
		all.ended <- netip.AddrPort{}
	}
	c := dial(t, l.Addresses()[0])
	c.Write([]byte("x"))
	receive(t, all.got)
	if err := l.Close(); err == nil || !strings.HasPrefix(err.Error(),
		"not ended after 50ms: stations ["+c.LocalAddr().String()+"]; ") {
		t.Errorf("it says %v", err)
	}
	for range cap(all.ended) {
		<-all.ended
	}
	<-l.done
}

func TestListenErrors(t *testing.T) {
	taken, err := net.ListenPacket("udp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	port := taken.LocalAddr().(*net.UDPAddr).Port
	inUse := ": stop the other program"
	if runtime.GOOS == "linux" { // which tells who has it: this test
		inUse = fmt.Sprintf(" by %s (process %d): stop that program or choose another port, here and in the simulator",
			"ingest.test", os.Getpid())
	}
	tests := []struct {
		address, want string
		is            error
	}{
		{taken.LocalAddr().String(), fmt.Sprintf("UDP port %d on 127.0.0.1 is already in use%s", port, inUse),
			syscall.EADDRINUSE},
		{"7181", `UDP address is "7181"; must be HOST:PORT such as 127.0.0.1:7181`, nil},
		// RFC 5737: an address of no machine
		{"192.0.2.1:0", "this computer has no address 192.0.2.1: use 0.0.0.0", syscall.EADDRNOTAVAIL},
		{"127.0.0.1:70000", `cannot listen on UDP address "127.0.0.1:70000"`, nil},
	}
	for _, test := range tests {
		_, err := Listen(t.Context(), Config{Addresses: []string{"127.0.0.1:0", test.address}}, nil)
		if err == nil || !strings.HasPrefix(err.Error(), test.want) || test.is != nil && !errors.Is(err, test.is) {
			t.Errorf("%s: %v\nwant %s", test.address, err, test.want)
		}
	}
	if _, err := Listen(t.Context(), Config{}, nil); err == nil || !strings.HasPrefix(err.Error(), "no UDP address") {
		t.Errorf("no address: %v", err)
	}
}

// A receive buffer the system does not grant is told, not fatal.
func TestReceiveBuffer(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("other systems refuse or grant by other rules")
	}
	var warning error
	listen(t, t.Context(), Config{
		Addresses: []string{"127.0.0.1:0"},
		Receive:   1 << 30,
		Warn:      func(err error) { warning = err },
	})
	if warning == nil || !strings.Contains(warning.Error(), "of the 1048576 KiB asked") ||
		!strings.Contains(warning.Error(), "net.core.rmem_max=1073741824") {
		t.Errorf("warning %v", warning)
	}
}

// Junk from many source ports must not grow memory: stations, goroutines and queues are
// bounded, and what is refused is counted.
func TestFlood(t *testing.T) {
	const most, ports, each = 20, 400, 50
	var handlers atomic.Int64
	metrics, err := NewMetrics(prometheus.NewRegistry())
	if err != nil {
		t.Fatal(err)
	}
	l, err := Listen(t.Context(), Config{Addresses: []string{"127.0.0.1:0"}, MaxStations: most, Metrics: metrics},
		func(netip.AddrPort) Handler { handlers.Add(1); return deaf{} })
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	junk := make([]byte, 4096)
	flood := func() {
		for range ports {
			c := dial(t, l.Addresses()[0])
			for range each {
				c.Write(junk)
			}
			c.Close()
		}
	}
	refused := func() bool { return testutil.ToFloat64(metrics.Dropped("too-many-stations")) > 0 }
	// The listener may be behind the senders, and the system drops what it cannot keep: all places must be taken before
	// anything is compared.
	for range 50 {
		if flood(); len(l.Senders()) == most && refused() {
			break
		}
	}
	before := heap()
	goroutines := runtime.NumGoroutine()
	flood()
	flood()
	grown := func() int64 { return int64(heap()) - int64(before) }
	more := grown()
	for range 5 { // what is under way comes and goes; what is kept of a flood would only become more
		if more <= 2<<20 {
			break
		}
		flood()
		more = grown()
	}
	if more > 2<<20 {
		t.Errorf("the heap grew by %d KiB", more>>10)
	}
	if n := runtime.NumGoroutine(); n > goroutines+2 || handlers.Load() > most || len(l.Senders()) > most {
		t.Errorf("%d goroutines after %d, %d handlers, %d stations", n, goroutines, handlers.Load(), len(l.Senders()))
	}
	if !refused() {
		t.Error("nothing was refused")
	}
}

func heap() uint64 {
	runtime.GC()
	runtime.GC() // the second empties the pools
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

type deaf struct{}

func (deaf) Datagram([]byte, time.Time) {}
func (deaf) Take(Request) bool          { return false }
func (deaf) Tick(time.Time)             {}
func (deaf) End()                       {}

func TestMetrics(t *testing.T) {
	registry := prometheus.NewRegistry()
	m, err := NewMetrics(registry)
	if err != nil {
		t.Fatal(err)
	}
	m.Datagrams("text columns").Add(3)
	m.Datagrams("").Inc()
	m.Dropped("late").Inc()
	m.lost.WithLabelValues("127.0.0.1:7181").Add(2)
	want := `
		# HELP halfturn_datagrams_dropped_total Datagrams that gave no sample, by reason.
		# TYPE halfturn_datagrams_dropped_total counter
		halfturn_datagrams_dropped_total{reason="fault"} 0
		halfturn_datagrams_dropped_total{reason="late"} 1
		halfturn_datagrams_dropped_total{reason="not-allowed"} 0
		halfturn_datagrams_dropped_total{reason="queue-full"} 0
		halfturn_datagrams_dropped_total{reason="too-fast"} 0
		halfturn_datagrams_dropped_total{reason="too-many-stations"} 0
		halfturn_datagrams_dropped_total{reason="unasked"} 0
		# HELP halfturn_datagrams_total Datagrams read, by the format they were recognized as.
		# TYPE halfturn_datagrams_total counter
		halfturn_datagrams_total{format="text columns"} 3
		halfturn_datagrams_total{format="unknown"} 1
		# HELP halfturn_socket_dropped_datagrams_total Datagrams that the system dropped unread, by socket.
		# TYPE halfturn_socket_dropped_datagrams_total counter
		halfturn_socket_dropped_datagrams_total{socket="127.0.0.1:7181"} 2
		# HELP halfturn_stations Senders that are taken now.
		# TYPE halfturn_stations gauge
		halfturn_stations 0
	`
	err = testutil.GatherAndCompare(registry, strings.NewReader(want), "halfturn_datagrams_total",
		"halfturn_datagrams_dropped_total", "halfturn_socket_dropped_datagrams_total", "halfturn_stations")
	if err != nil {
		t.Error(err)
	}
	if _, err := NewMetrics(registry); err == nil {
		t.Error("registered twice")
	}
}

// From a datagram on the loopback to the handler called, and back.
//
// go test -bench Loopback -benchmem ./stream/ingest
func BenchmarkLoopback(b *testing.B) {
	done := make(chan struct{})
	l, err := Listen(b.Context(), Config{Addresses: []string{"127.0.0.1:0"}},
		func(netip.AddrPort) Handler { return signal(done) })
	if err != nil {
		b.Fatal(err)
	}
	c := dial(b, l.Addresses()[0])
	datagram := []byte(strings.Repeat("x", 500))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := c.Write(datagram); err != nil {
			b.Fatal(err)
		}
		<-done
	}
	l.Close()
}
