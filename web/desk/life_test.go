package desk

import (
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"net"
	"net/netip"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/prometheus/client_golang/prometheus/testutil"
	"github.com/rs/zerolog"

	"halfturn/coach/command"
	"halfturn/stream/ingest"
	"halfturn/stream/record"
	"halfturn/web/desk/identity"
	"halfturn/web/hub"
)

// served attaches the desk to sockets, so that stations run in goroutines of their own.
func served(t *testing.T, d *Desk, idle time.Duration) (*ingest.Listener, netip.AddrPort) {
	t.Helper()
	l, err := ingest.Listen(
		t.Context(),
		ingest.Config{Addresses: []string{"127.0.0.1:0"}, Idle: idle, Unproven: idle, Tick: idle / 20,
			Metrics: d.cfg.Metrics, Warn: func(err error) { t.Error(err) }},
		d.Station,
	)
	if err != nil {
		t.Fatal(err)
	}
	d.Attach(l)
	return l, l.Addresses()[0]
}

// Nearly two hundred times senders return at about the moment at which their session is over, some from the same port
// and some from another one, while pages ask for their stations. No station waits for another, each name has one
// station, and each datagram is recorded once.
func TestReturnsAroundExpiry(t *testing.T) {
	const senders, each, idle = 24, 8, 200 * time.Millisecond
	d, _ := recordingDesk(t)
	l, to := served(t, d, idle)
	var sent, asked sync.WaitGroup
	for n := range senders {
		sent.Go(func() { comesBack(t, to, n, each, idle) })
	}
	done := make(chan struct{})
	asked.Go(func() {
		pace := time.NewTicker(10 * time.Millisecond)
		defer pace.Stop()
		for n := 0; ; n++ {
			select {
			case <-done:
				return
			case <-pace.C:
			}
			for _, s := range d.cfg.Output.(*hub.Hub).Stations() {
				_, _ = d.Legs(t.Context(), s.Name)
				student := command.Student{Name: fmt.Sprint("Student ", n)}
				_ = d.Do(t.Context(), commanded(s.Name, student)) // refused when the station leaves meanwhile
				_, _ = d.Probe(t.Context(), s.Name)
			}
		}
	})
	sent.Wait()
	taken := func() float64 { // the socket may hold some when all are sent
		datagrams := d.cfg.Metrics.Datagrams
		return testutil.ToFloat64(datagrams("JSON lines")) + testutil.ToFloat64(datagrams(""))
	}
	for until := time.Now().Add(time.Minute); taken() < senders*each && time.Now().Before(until); {
		runtime.Gosched()
	}
	close(done)
	asked.Wait()
	closed := make(chan error)
	go func() { closed <- l.Close() }()
	select {
	case err := <-closed:
		if err != nil {
			t.Fatal(err)
		}
	case <-time.After(2 * time.Minute):
		t.Fatal("a station waits for another one")
	}
	if len(d.present) != 0 {
		t.Errorf("the stations %v have left and keep their names", d.present)
	}
	folders, err := filepath.Glob(filepath.Join(d.cfg.Book.Dir(), "*"))
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, dir := range folders {
		parts, err := record.Parts(dir)
		if err != nil {
			t.Fatal(err)
		}
		r := record.Read(parts)
		for {
			d, err := r.Next()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatal(err)
			}
			got = append(got, string(d.Payload))
		}
	}
	slices.Sort(got)
	if unique := slices.Compact(slices.Clone(got)); len(got) != senders*each || len(unique) != len(got) {
		t.Errorf(
			"of %d datagrams %d are recorded, %d of them twice, in %d sessions",
			senders*each,
			len(unique),
			len(got)-len(unique),
			len(folders),
		)
	}
	if len(folders) < senders {
		t.Errorf("only %d sessions: that proves little", len(folders))
	}
}

// comesBack sends a datagram after each silence of about the time after which a session is over.
func comesBack(t *testing.T, to netip.AddrPort, n, each int, idle time.Duration) {
	random := rand.New(rand.NewPCG(1, uint64(n)))
	var conn net.Conn
	for i := range each {
		if conn == nil || random.IntN(4) == 0 { // the simulator was started again
			if conn != nil {
				conn.Close()
			}
			var err error
			if conn, err = net.Dial("udp", to.String()); err != nil {
				t.Error(err)
				return
			}
		}
		if _, err := fmt.Fprintf(conn, `{"time": %d.5, "heading": %d, "pitch": 2, "bank": 0, "airspeed": 120}`, i,
			n); err != nil {
			t.Error(err)
		}
		<-time.After(idle - idle/10 + time.Duration(random.Int64N(int64(idle)/3)))
	}
	conn.Close()
}

// A sender whose handler failed gets its name again with the next datagram.
func TestNameAfterFault(t *testing.T) {
	at := netip.MustParseAddrPort("192.168.1.20:50000")
	d, doing := newDesk(t, identity.Sender{Address: at, Name: "Seat 3"})
	doing.handlers[at] = d.Station(at)
	delete(doing.handlers, at) // it failed, and was never ended
	if s := d.Station(at).(*station); s.name != "Seat 3" {
		t.Errorf("it is %q", s.name)
	}
}

// Two senders that are made at the same time, for a station that is silent: the one that gets its session gets its
// name.
func TestTwoTakeOver(t *testing.T) {
	at := netip.MustParseAddrPort
	d, doing := newDesk(t, identity.Sender{Address: at("192.168.1.20:0"), Name: "Seat 3"})
	old := d.Station(at("192.168.1.20:50000")).(*station)
	doing.handlers[old.address] = old
	old.hear(time.Now().Add(-time.Minute))
	var other *station
	doing.meanwhile = func() {
		doing.meanwhile = nil
		other = d.Station(at("192.168.1.20:50002")).(*station)
	}
	s := d.Station(at("192.168.1.20:50001")).(*station)
	if s.practice != old.practice || d.present["Seat 3"] != s {
		t.Errorf(
			"it goes on with the session: %v; the station is that of %v",
			s.practice == old.practice,
			d.present["Seat 3"].address,
		)
	}
	if other.name != "Seat 3 (2)" || d.present["Seat 3 (2)"] != other {
		t.Errorf("the other is %q", other.name)
	}
}

// A stream that cannot be read, and one that can be read now and then, is said so of once, and then in summaries.
func TestUnreadableIsToldOnce(t *testing.T) {
	at := netip.MustParseAddrPort("192.168.1.20:50000")
	for what, every := range map[string]int{"junk": 0, "toggling": 30} {
		t.Run(what, func(t *testing.T) {
			var log strings.Builder
			d, _ := changedDesk(t, func(cfg *Config) { cfg.Log = zerolog.New(&log) })
			s := d.Station(at)
			now := time.Now()
			for n := range 6000 {
				if every > 0 && n%every < 2 {
					s.Datagram(line(n), now)
				} else {
					s.Datagram([]byte("junk"), now)
				}
			}
			d.Close()
			if lines := strings.Count(log.String(), "\n"); lines > 8 {
				t.Errorf("%d lines in the log:\n%.1000s", lines, log.String())
			}
			if got := strings.Count(log.String(), `"level":"warn"`); got != 2 ||
				!strings.Contains(log.String(), `"repeated":`) {
				t.Errorf("%d warnings:\n%s", got, log.String())
			}
		})
	}
}

// A line is one sample of level flight at a time, s.
func line(at int) []byte {
	return fmt.Appendf(nil, `{"time": %d.%d, "heading": 90, "pitch": 2, "bank": 0, "airspeed": 120}`, at/10, at%10)
}

// Two simulators of one address have a session each; one that is started again goes on with its own only when it is
// plain which that is.
func TestTwoOnOneAddress(t *testing.T) {
	d, doing := recordingDesk(t)
	now := time.Now()
	begin := func(address string) (s *station, session string) {
		a := netip.MustParseAddrPort(address)
		s = d.Station(a).(*station)
		doing.handlers[a] = s
		s.Datagram(line(0), now)
		s.Datagram(line(1), now)
		return s, s.practice.SessionID()
	}
	silent := func(s *station) { s.hear(now.Add(-10 * time.Second)) }
	one, first := begin("192.168.1.20:49000")
	two, second := begin("192.168.1.20:49001")
	if first == "" || second == "" || first == second {
		t.Fatalf("the sessions are %q and %q", first, second)
	}
	silent(one)
	again, same := begin("192.168.1.20:49002")
	if same != first {
		t.Errorf("the first was started again, and goes on with %q, not %q", same, first)
	}
	silent(again)
	silent(two)
	if _, other := begin("192.168.1.20:49003"); other == first || other == second { // it may be either
		t.Errorf("it goes on with %q, though both are silent", other)
	}
	for _, s := range doing.handlers {
		s.End()
	}
}
