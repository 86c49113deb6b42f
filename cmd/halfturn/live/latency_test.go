package live

import (
	"encoding/json"
	"math"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/gorilla/websocket"

	"halfturn/stream"
	"halfturn/stream/streamtest"
	"halfturn/stream/wire"
	"halfturn/stream/wire/format"
)

// BenchmarkDatagramToSocket measures the time from sending a datagram to having read the WebSocket message it
// caused: in the whole server with one station, and in a relay that only passes the bytes on. Both are sent the
// same recorded flight at 60 Hz, the relay half a period after the server, on schedule whatever comes back.
// Counted is every frame and every datagram that is delivered, after the first second. Run, on an idle machine:
//
//	go test -run '^$' -bench DatagramToSocket -benchtime 3600x ./cmd/halfturn/live
func BenchmarkDatagramToSocket(b *testing.B) {
	flown := sendingOf(b)
	s := serveLive(b, "", nil)
	server := open(b, s.Addresses()[0].String(), "ws"+strings.TrimPrefix(s.URL(), "http")+"live", flown,
		frameTime)
	udp, ws := bareRelay(b)
	relay := open(b, udp, ws, flown, datagramTime())

	const period = time.Second / 60
	next := time.Now()
	for n := 0; b.Loop(); n++ {
		for _, p := range []*path{server, relay} {
			<-time.After(time.Until(next)) // a pace, not a wait for something
			p.send(b, n)
			next = next.Add(period / 2)
		}
	}
	<-time.After(10 * period) // for what is on its way
	b.ReportMetric(0, "ns/op")
	ours, bare := server.close(b), relay.close(b)
	load, _ := os.ReadFile("/proc/loadavg")
	b.Logf("frames %d, relayed %d, load %s", len(ours), len(bare), load)
	for _, m := range []struct {
		name string
		of   func([]time.Duration) time.Duration
	}{
		{"p50", func(l []time.Duration) time.Duration { return l[len(l)/2] }},
		{"p99", func(l []time.Duration) time.Duration { return l[len(l)*99/100] }},
		{"max", func(l []time.Duration) time.Duration { return l[len(l)-1] }},
	} {
		x, y := m.of(ours), m.of(bare)
		b.ReportMetric(float64(x.Microseconds()), m.name+"-µs")
		b.ReportMetric(float64(y.Microseconds()), "relay-"+m.name+"-µs")
		b.ReportMetric(float64(x)/float64(y), m.name+"-ratio")
	}
}

// A sending is a flight's datagrams, and the time each carries, in seconds; NaN when it carries none.
type sending struct {
	datagrams [][]byte
	times     []float64
}

func sendingOf(b *testing.B) sending {
	f := sending{datagrams: streamtest.Payloads(b,
		"../../../coach/session/testdata/flights/wing-over-turboprop-a-turbulence-good.pcap.gz")}
	of := datagramTime()
	for _, d := range f.datagrams {
		f.times = append(f.times, of(d))
	}
	return f
}

// datagramTime returns a function that reads the time in a datagram, NaN where there is none. It is of one goroutine.
func datagramTime() func([]byte) float64 {
	r, s := wire.NewReader(format.Options{}), stream.Sample{}
	return func(b []byte) float64 {
		if r.Decode(b, 0, &s) != nil {
			return math.NaN()
		}
		return s.Value(stream.Time)
	}
}

// frameTime reads the time in a message when it is a frame, else NaN.
func frameTime(b []byte) float64 {
	var m struct {
		Type string
		Time float64
	}
	if json.Unmarshal(b, &m) != nil || m.Type != "frame" {
		return math.NaN()
	}
	return m.Time
}

// A path is one of the two ways from a datagram to a message.
type path struct {
	flight sending
	in     net.Conn
	out    *websocket.Conn
	sent   []atomic.Int64 // when each datagram of the flight was sent last, Unix ns
	count  atomic.Int64   // how many were sent
	took   chan []time.Duration
}

func open(b *testing.B, udp, ws string, flight sending, timeOf func([]byte) float64) *path {
	p := &path{flight: flight, sent: make([]atomic.Int64, len(flight.times)), took: make(chan []time.Duration, 1)}
	var err error
	if p.in, err = net.Dial("udp", udp); err != nil {
		b.Fatal(err)
	}
	if p.out, _, err = websocket.DefaultDialer.Dial(ws, nil); err != nil {
		b.Fatal(err)
	}
	go p.read(timeOf)
	return p
}

// send sends the next datagram of the flight, which begins again when it is over.
func (p *path) send(b *testing.B, n int) {
	n %= len(p.sent)
	p.sent[n].Store(time.Now().UnixNano())
	p.count.Add(1)
	if _, err := p.in.Write(p.flight.datagrams[n]); err != nil {
		b.Fatal(err)
	}
}

// read reads until the socket is closed.
func (p *path) read(timeOf func([]byte) float64) {
	var took []time.Duration
	for {
		_, m, err := p.out.ReadMessage()
		now := time.Now().UnixNano()
		if err != nil {
			p.took <- took
			return
		}
		at := timeOf(m)
		i := slices.IndexFunc(p.flight.times, func(t float64) bool { return math.Abs(t-at) < 1e-3 })
		if i >= 0 && p.count.Load() > 60 { // after the first second
			took = append(took, time.Duration(now-p.sent[i].Load()))
		}
	}
}

// close returns the latencies, sorted.
func (p *path) close(b *testing.B) []time.Duration {
	p.in.Close()
	p.out.Close()
	took := <-p.took
	if len(took) == 0 {
		b.Skip("nothing was delivered after the first second: take a longer -benchtime, such as 3600x")
	}
	slices.Sort(took)
	return took
}

// bareRelay passes datagrams on to a WebSocket and does nothing else.
func bareRelay(b *testing.B) (udp, ws string) {
	in, err := net.ListenPacket("udp", "127.0.0.1:0")
	if err != nil {
		b.Fatal(err)
	}
	upgrader := websocket.Upgrader{}
	web := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		conn, err := upgrader.Upgrade(w, r, nil)
		if err != nil {
			return
		}
		defer conn.Close()
		buf := make([]byte, 2048)
		for {
			n, _, err := in.ReadFrom(buf)
			if err != nil || conn.WriteMessage(websocket.TextMessage, buf[:n]) != nil {
				return
			}
		}
	}))
	b.Cleanup(func() { in.Close(); web.Close() })
	return in.LocalAddr().String(), "ws" + strings.TrimPrefix(web.URL, "http")
}
