package send

import (
	"bytes"
	"context"
	"errors"
	"io"
	"net"
	"strings"
	"sync"
	"syscall"
	"testing"
	"testing/synctest"
	"time"

	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
)

// tape is a socket that keeps what is written and when.
type tape struct {
	mu     *sync.Mutex
	data   [][]byte
	at     []time.Time
	err    error
	closed bool
}

func (c *tape) Write(b []byte) (int, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.err != nil {
		err := c.err
		c.err = nil
		return 0, err
	}
	c.data = append(c.data, bytes.Clone(b))
	c.at = append(c.at, time.Now())
	return len(b), nil
}

func (c *tape) Close() error { c.closed = true; return nil }

// tapes makes a dialer that hands out tapes.
func tapes(all *[]*tape) func() (io.WriteCloser, error) {
	mu := &sync.Mutex{}
	return func() (io.WriteCloser, error) {
		c := &tape{mu: mu}
		*all = append(*all, c)
		return c, nil
	}
}

func pilot(t testing.TB, f trainer.Flight) *trainer.Pilot {
	t.Helper()
	p, err := trainer.New(f)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// In every format what arrives is what was flown, at the pace asked for, without drift.
func TestSendKeepsTheClock(t *testing.T) {
	for _, format := range encode.Formats() {
		t.Run(format, func(t *testing.T) {
			p := pilot(t, trainer.Flight{Direction: "right"})
			synctest.Test(t, func(t *testing.T) {
				ctx, cancel := context.WithTimeout(t.Context(), 12*time.Second)
				defer cancel()
				var all []*tape
				start := time.Now()
				counts, err := Send(ctx, Options{Format: format, Rate: 30, Pace: 2, dial: tapes(&all)}, p)
				if !errors.Is(err, context.DeadlineExceeded) {
					t.Fatalf("error %v; must be the context's", err)
				}
				e, _ := encode.New(format)
				flown, preambles := 0, 0
				for i, b := range all[0].data {
					if e.Preamble() != nil && bytes.Equal(b, e.Preamble()) {
						preambles++
						continue
					}
					if bytes.HasPrefix(b, []byte("XGPS")) { // beside the attitude, once a second
						continue
					}
					due := start.Add(time.Duration(flown) * time.Second / 60)
					if d := all[0].at[i].Sub(due); d.Abs() > time.Microsecond {
						t.Fatalf("datagram %d is %v off the clock", flown, d)
					}
					flown++
				}
				within(t, "datagrams in 12 s", float64(flown), 720, 721)
				if want := 3; e.Preamble() != nil && preambles != want {
					t.Errorf("%d preambles; must be one at 0, 5 and 10 s", preambles)
				}
				if counts.Datagrams != uint64(len(all[0].data)) || !all[0].closed {
					t.Errorf("counts %+v for %d datagrams, closed %v", counts, len(all[0].data), all[0].closed)
				}
			})
		})
	}
}

// Stations share pilots: each station's stream is a pilot's, whole and in order.
func TestStationsSharePilots(t *testing.T) {
	a, b := pilot(t, trainer.Flight{Direction: "right"}),
		pilot(t, trainer.Flight{Direction: "left", Airplane: "light-single"})
	synctest.Test(t, func(t *testing.T) {
		var all []*tape
		counts, err := Send(t.Context(), Options{Format: "json", Rate: 5, Stations: 7, dial: tapes(&all)}, a, b)
		if err != nil {
			t.Fatal(err)
		}
		if len(all) != 7 || counts.Failed+counts.Refused+counts.Late != 0 {
			t.Fatalf("%d stations, %+v", len(all), counts)
		}
		total := 0
		for i, c := range all {
			total += len(c.data)
			if len(c.data) != len(all[i%2].data) || !bytes.Equal(bytes.Join(c.data, nil),
				bytes.Join(all[i%2].data, nil)) {
				t.Errorf("station %d does not show the flight of its pilot", i)
			}
		}
		if bytes.Equal(all[0].data[100], all[1].data[100]) {
			t.Error("two pilots, one flight")
		}
		if counts.Datagrams != uint64(total) {
			t.Errorf("%d datagrams counted, %d sent", counts.Datagrams, total)
		}
	})
}

// Over a real socket: the reader of the wire package reads the flight back.
func TestSendIsReadBack(t *testing.T) {
	listener, err := net.ListenUDP("udp", &net.UDPAddr{IP: net.IPv4(127, 0, 0, 1)})
	if err != nil {
		t.Fatal(err)
	}
	defer listener.Close()
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan Counts)
	go func() {
		c, _ := Send(ctx, Options{To: listener.LocalAddr().String(), Format: "json", Pace: 20},
			pilot(t, trainer.Flight{Heading: 123}))
		done <- c
	}()
	buf := make([]byte, 65536)
	for range 50 {
		listener.SetReadDeadline(time.Now().Add(10 * time.Second))
		n, err := listener.Read(buf)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Contains(buf[:n], []byte("heading")) {
			t.Fatalf("datagram %q", buf[:n])
		}
	}
	cancel()
	if c := <-done; c.Datagrams < 50 || c.Failed != 0 {
		t.Errorf("%+v", c)
	}
}

// Nobody listening is counted and the datagram sent again; other trouble is counted and kept.
func TestTroubleIsCounted(t *testing.T) {
	var c Counts
	e, _ := encode.New("json")
	sock := &tape{mu: &sync.Mutex{}, err: syscall.ECONNREFUSED}
	s := &flight{pilot: pilot(t, trainer.Flight{}), encoder: e, sockets: []io.WriteCloser{sock}}
	s.round(0.1, &arrival{}, &c)
	if c.Refused != 1 || c.Datagrams != 1 || c.Failed != 0 {
		t.Errorf("refused: %+v", c)
	}
	sock.err = errors.New("cable cut")
	s.round(0.1, &arrival{}, &c)
	if c.Failed != 1 || c.Datagrams != 1 || c.LastError == nil {
		t.Errorf("failed: %+v", c)
	}
}

func TestSendRefusesBadOptions(t *testing.T) {
	p := pilot(t, trainer.Flight{})
	for _, r := range []struct {
		o    Options
		want string
	}{
		{Options{To: "127.0.0.1"}, `to is "127.0.0.1"; must be HOST:PORT`},
		{Options{To: "127.0.0.1:0"}, `to is "127.0.0.1:0"; must be HOST:PORT`},
		{Options{To: "127.0.0.1:7181", Format: "morse"}, `format is "morse"; must be labels`},
		{Options{To: "127.0.0.1:7181", Rate: 0.5}, "rate is 0.5; must be between 1 and 1000"},
		{Options{To: "127.0.0.1:7181", Pace: -1}, "pace is -1; must be between 0.01 and 1000"},
		{Options{To: "127.0.0.1:7181", Stations: 5001}, "stations is 5001; must be between 1 and 5000"},
	} {
		if _, err := Send(t.Context(), r.o, p); err == nil || !strings.Contains(err.Error(), r.want) {
			t.Errorf("%+v: error %v; must be one with %q", r.o, err, r.want)
		}
	}
	if _, err := Send[Flyer](t.Context(), Options{To: "127.0.0.1:7181"}); err == nil {
		t.Error("nothing to send must be refused")
	}
	full := func() (io.WriteCloser, error) { return nil, syscall.EMFILE }
	if _, err := Send(t.Context(), Options{dial: full}, p); err == nil || !strings.Contains(err.Error(), "ulimit") {
		t.Errorf("too many open files: %v", err)
	}
}

func TestRoundDoesNotAllocate(t *testing.T) {
	e, err := encode.New("labels")
	if err != nil {
		t.Fatal(err)
	}
	var c Counts
	var a arrival
	s := &flight{pilot: pilot(t, trainer.Flight{}), encoder: e, sockets: []io.WriteCloser{nowhere{}},
		buffer: make([]byte, 0, 4096)}
	s.round(1.0/60, &a, &c)
	if n := testing.AllocsPerRun(100, func() { s.round(1.0/60, &a, &c) }); n != 0 {
		t.Errorf("%v allocations a round", n)
	}
}

type nowhere struct{}

func (nowhere) Write(b []byte) (int, error) { return len(b), nil }
func (nowhere) Close() error                { return nil }

// BenchmarkThousandStations is one round of a thousand stations sharing 32 pilots over real sockets;
// at 60 Hz it may take 16.7 ms of the machine.
func BenchmarkThousandStations(b *testing.B) {
	listener, err := net.ListenUDP("udp", &net.UDPAddr{IP: net.IPv4(127, 0, 0, 1)})
	if err != nil {
		b.Fatal(err)
	}
	defer listener.Close()
	o, err := Options{To: listener.LocalAddr().String(), Stations: 1000}.complete(b.Context(), 32)
	if err != nil {
		b.Fatal(err)
	}
	pilots := []Flyer{}
	for i := range 32 {
		p, err := trainer.New(trainer.Flight{Legs: int(trainer.LegRange.High), Seed: uint64(i)})
		if err != nil {
			b.Fatal(err)
		}
		pilots = append(pilots, p)
	}
	flights, err := o.flights(pilots)
	defer closeAll(flights)
	if err != nil {
		b.Fatal(err)
	}
	var c Counts
	for b.Loop() {
		for _, s := range flights {
			s.round(1.0/60, &arrival{}, &c)
		}
	}
	b.ReportMetric(float64(c.Failed), "failed")
}

func within(t *testing.T, what string, got, low, high float64) {
	t.Helper()
	if !(got >= low && got <= high) {
		t.Errorf("%s: %.2f; must be between %g and %g", what, got, low, high)
	}
}
