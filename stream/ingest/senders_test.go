package ingest

import (
	"context"
	"errors"
	"net/netip"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"

	"github.com/prometheus/client_golang/prometheus/testutil"
)

// A keeper keeps what it is handed. Its datagrams are read only when its sender has ended.
type keeper struct {
	address   netip.AddrPort
	datagrams []string
	ticks     atomic.Int32
	ends      atomic.Int32
	fails     atomic.Int32
	busy      sync.Mutex // held by a test to stop the station at a datagram
	proven    bool
}

func (s *keeper) Datagram(b []byte, _ time.Time) {
	s.busy.Lock()
	defer s.busy.Unlock()
	if string(b) == "panic" {
		panic("a fault")
	}
	s.datagrams = append(s.datagrams, string(b))
}
func (s *keeper) Tick(time.Time)      { s.ticks.Add(1) }
func (s *keeper) Take(r Request) bool { return r.(call)(s) }
func (s *keeper) Fail()               { s.fails.Add(1) }
func (s *keeper) End()                { s.ends.Add(1) }
func (s *keeper) Proven() bool        { return s.proven }

// A hall is a set of senders whose handlers a test can look at. Run inside a synctest bubble.
type hall struct {
	*senders
	mu       sync.Mutex
	handlers map[netip.AddrPort][]*keeper
	warnings []string
	unproven bool
}

func newHall(config Config) *hall {
	h := &hall{handlers: map[netip.AddrPort][]*keeper{}}
	config.Warn = func(err error) {
		h.mu.Lock()
		defer h.mu.Unlock()
		h.warnings = append(h.warnings, err.Error())
	}
	config.fill()
	h.senders = newSenders(config, func(a netip.AddrPort) Handler {
		h.mu.Lock()
		defer h.mu.Unlock()
		s := &keeper{address: a, proven: !h.unproven}
		h.handlers[a] = append(h.handlers[a], s)
		return s
	})
	return h
}

func from(port int) netip.AddrPort {
	return netip.AddrPortFrom(netip.MustParseAddr("127.0.0.1"), uint16(port))
}

func (h *hall) send(port int, text string) { h.deliver(nil, from(port), []byte(text), time.Now()) }

func (h *hall) dropped(reason string) float64 {
	return testutil.ToFloat64(h.config.Metrics.Dropped(reason))
}

func TestStationsApart(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := newHall(Config{})
		for i := range 30 {
			h.send(1000+i%3, string(rune('a'+i)))
		}
		synctest.Wait()
		if got := testutil.ToFloat64(h.config.Metrics.stations); got != 3 || len(h.addresses()) != 3 {
			t.Errorf("%v stations, addresses %v", got, h.addresses())
		}
		h.close()
		for i, want := range []string{"a,d,g,j,m,p,s,v,y,|", "b,e,h,k,n,q,t,w,z,}", "c,f,i,l,o,r,u,x,{,~"} {
			s := h.handlers[from(1000+i)]
			if len(s) != 1 || s[0].ends.Load() != 1 || strings.Join(s[0].datagrams, ",") != want {
				t.Errorf("station %d: %d handlers, first ended %d times, got %v", i, len(s), s[0].ends.Load(),
					s[0].datagrams)
			}
		}
		h.send(1000, "late")
		if got := testutil.ToFloat64(h.config.Metrics.stations); got != 0 || len(h.handlers) != 3 {
			t.Errorf("after the end: %v stations", got)
		}
	})
}

func TestTickAndIdle(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := newHall(Config{Idle: 10 * time.Second})
		h.send(1000, "a")
		<-time.After(9 * time.Second) // of the bubble's own time
		h.send(1000, "b")
		<-time.After(9 * time.Second) // of the bubble's own time
		synctest.Wait()
		s := h.handlers[from(1000)][0]
		if s.ends.Load() != 0 || s.ticks.Load() < 71 || s.ticks.Load() > 73 { // four a second
			t.Errorf("after 18 s: ended %d times, %d ticks", s.ends.Load(), s.ticks.Load())
		}
		<-time.After(2 * time.Second) // of the bubble's own time
		synctest.Wait()
		if s.ends.Load() != 1 || len(h.addresses()) != 0 {
			t.Errorf("after 11 s of silence: ended %d times, stations %v", s.ends.Load(), h.addresses())
		}
		h.send(1000, "c") // comes back as a new station
		synctest.Wait()
		if n := len(h.handlers[from(1000)]); n != 2 {
			t.Errorf("%d handlers", n)
		}
		h.close()
	})
}

func TestTooManyStations(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := newHall(Config{MaxStations: 2})
		h.unproven = true
		for port := range 1000 { // junk from everywhere
			h.send(2000+port, "junk")
		}
		synctest.Wait()
		if len(h.handlers) != 2 || h.dropped("too-many-stations") != 998 {
			t.Errorf("%d handlers, %v refused", len(h.handlers), h.dropped("too-many-stations"))
		}
		want := "datagrams from 127.0.0.1:2002 are refused: 2 senders are taken already, and max-stations in the " +
			"configuration allows no more; stop a sender that is not needed, or raise max-stations"
		if len(h.warnings) != 1 || h.warnings[0] != want {
			t.Errorf("warnings %q; must be %q", h.warnings, want)
		}
		if got := h.lastRefused(); got != (Refusal{from(2999), 2, time.Now()}) {
			t.Errorf("refused last was %v", got)
		}
		h.unproven = false
		<-time.After(6 * time.Second) // those that proved nothing go soon
		h.send(1, "real")
		h.send(2, "real")
		<-time.After(50 * time.Second) // of the bubble's own time
		synctest.Wait()
		if got := len(h.addresses()); got != 2 || len(h.handlers[from(1)]) != 1 || len(h.handlers[from(2)]) != 1 {
			t.Errorf("%d stations, handlers %v", got, h.handlers)
		}
		h.close()
		if len(h.warnings) != 2 || !strings.Contains(h.warnings[1], "datagrams from 127.0.0.1:2999 are refused") ||
			!strings.HasSuffix(h.warnings[1], "(the last of 997 such datagrams since this was last said)") {
			t.Errorf("in the end warnings %q", h.warnings)
		}
	})
}

func TestQueueFull(t *testing.T) {
	tests := []struct {
		name       string
		size, kept int
	}{
		{"by number", 100, 8 + 1}, // one is being worked on
		{"by bytes", 65507, 1 + 8},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				h := newHall(Config{Queue: 8})
				h.send(1000, "first")
				synctest.Wait()
				s := h.handlers[from(1000)][0]
				s.busy.Lock()
				text := strings.Repeat("x", test.size)
				for range 100 {
					h.send(1000, text)
				}
				h.send(1001, "another station is not concerned")
				s.busy.Unlock()
				synctest.Wait()
				h.close()
				// The station may or may not have taken one from the queue meanwhile.
				if n := len(s.datagrams) - 1; n < test.kept-1 || n > test.kept ||
					h.dropped("queue-full") != float64(100-n) {
					t.Errorf("%d kept, %v dropped", n, h.dropped("queue-full"))
				}
				if got := h.handlers[from(1001)][0].datagrams; len(got) != 1 {
					t.Errorf("other station got %v", got)
				}
				if h.waiting.Load() != 0 {
					t.Errorf("%d bytes still counted as waiting", h.waiting.Load())
				}
			})
		})
	}
}

// The bytes that wait are bounded for one station and for all together.
func TestWaitingBytes(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := newHall(Config{Queue: 1000})
		big := strings.Repeat("x", 65507)
		for port := range 100 {
			h.send(port, "first")
		}
		synctest.Wait()
		for _, s := range h.handlers {
			s[0].busy.Lock()
		}
		for port := range 100 {
			for range 30 {
				h.send(port, big)
			}
			if got := h.all[from(port)].waiting.Load(); got > senderBytes {
				t.Fatalf("%d bytes wait for one station", got)
			}
		}
		if got := h.waiting.Load(); got > allBytes || got < allBytes-2*65507 {
			t.Errorf("%d bytes wait", got)
		}
		for _, s := range h.handlers {
			s[0].busy.Unlock()
		}
		h.close()
		if h.waiting.Load() != 0 {
			t.Errorf("%d bytes still counted as waiting", h.waiting.Load())
		}
	})
}

func TestDo(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := newHall(Config{})
		h.send(1000, "a")
		synctest.Wait()
		var got Handler
		if err := h.do(t.Context(), from(1000), func(s Handler) { got = s }); err != nil ||
			got != Handler(h.handlers[from(1000)][0]) {
			t.Errorf("%v, ran with %v", err, got)
		}
		if err := h.do(t.Context(), from(1001),
			func(Handler) { t.Error("ran for a station that is not there") }); err != ErrNotThere {
			t.Errorf("a station that is not there: %v", err)
		}
		busy := make(chan struct{})
		go h.do(t.Context(), from(1000), func(Handler) { <-busy })
		synctest.Wait()
		ctx, cancel := context.WithTimeoutCause(t.Context(), time.Second, errors.New("waited long enough"))
		defer cancel()
		for range 2 { // within that time, and after it
			if err := h.do(ctx, from(1000),
				func(Handler) { t.Error("ran after its time") }); err != context.Cause(ctx) {
				t.Errorf("a handler that is busy: %v", err)
			}
			if err := h.finish(ctx, from(1000),
				func(Handler) bool { t.Error("ended after its time"); return true }); err != context.Cause(ctx) {
				t.Errorf("a handler that is busy: %v", err)
			}
		}
		close(busy)
		h.close()
		if err := h.do(t.Context(), from(1000), func(Handler) { t.Error("ran after the end") }); err != ErrNotThere {
			t.Errorf("after the end: %v", err)
		}
	})
}

// A fault in one handler ends that station; the others, and the sender's next datagram, go on.
func TestFault(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := newHall(Config{})
		h.send(1000, "a")
		h.send(1001, "a")
		h.send(1000, "panic")
		synctest.Wait()
		h.send(1000, "b")
		h.send(1001, "b")
		synctest.Wait()
		if err := h.do(t.Context(), from(1001), func(Handler) { panic("in a call") }); err != nil {
			t.Errorf("a call that failed: %v", err)
		}
		h.close()
		first := h.handlers[from(1000)]
		if len(first) != 2 || first[0].ends.Load() != 1 || first[1].ends.Load() != 1 || len(first[1].datagrams) != 1 {
			t.Errorf("%d handlers of the station that failed", len(first))
		}
		if other := h.handlers[from(1001)]; len(other) != 1 || len(other[0].datagrams) != 2 ||
			other[0].ends.Load() != 1 {
			t.Errorf("the other station: %d handlers", len(other))
		}
		if len(h.warnings) != 2 || !strings.HasPrefix(h.warnings[0],
			"station 127.0.0.1:1000 was ended by a fault in the program, please report it: a fault\n") {
			t.Errorf("warnings %q", h.warnings)
		}
	})
}

// A fault that comes with every datagram begins few handlers, and what it drops is counted; after it the sender lives
// on.
func TestFaultEachTime(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := newHall(Config{})
		const sent = 5 * 60 * 10 // ten minutes of five a second
		for range sent {
			h.send(1000, "panic")
			<-time.After(200 * time.Millisecond)
		}
		if n := len(h.handlers[from(1000)]); n < 5 || n > 20 { // after 0, 1, 2, 4 ... 60 s
			t.Errorf("%d handlers", n)
		}
		if n := h.dropped("fault"); n < sent-20 || len(h.warnings) > 11 {
			t.Errorf("%v of %d dropped, %d warnings", n, sent, len(h.warnings))
		}
		<-time.After(2 * time.Minute)
		if got := h.addresses(); len(got) != 0 || testutil.ToFloat64(h.config.Metrics.stations) != 0 {
			t.Errorf("after two minutes of silence there are %v", got)
		}
		h.send(1000, "a")
		h.close()
		all := h.handlers[from(1000)]
		if last := all[len(all)-1]; len(last.datagrams) != 1 || last.ends.Load() != 1 || last.fails.Load() != 0 {
			t.Errorf("then it took %q", last.datagrams)
		}
		for _, s := range all[:len(all)-1] {
			if s.fails.Load() != 1 || s.ends.Load() != 1 {
				t.Errorf("a handler was told of its fault %d times, and ended %d times", s.fails.Load(), s.ends.Load())
			}
		}
	})
}

func TestDeliverAllocates(t *testing.T) {
	h := newHall(Config{Idle: time.Hour})
	defer h.close()
	done := make(chan struct{})
	h.senders.factory = func(netip.AddrPort) Handler { return signal(done) }
	b := []byte(strings.Repeat("x", 500))
	send := func() {
		h.deliver(nil, from(1000), b, time.Now())
		<-done
	}
	send()
	// A garbage collection may empty the pool of buffers now and then.
	if n := testing.AllocsPerRun(2000, send); n >= 1 {
		t.Errorf("%v allocations a datagram", n)
	}
}

// A signal is a handler that says when a datagram arrived.
type signal chan struct{}

func (s signal) Datagram([]byte, time.Time) { s <- struct{}{} }
func (signal) Take(Request) bool            { return false }
func (s signal) Tick(time.Time)             {}
func (s signal) End()                       {}
