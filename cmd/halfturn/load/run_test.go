package load

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"math"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"github.com/gorilla/websocket"

	"halfturn/cmd/halfturn/cmdtest"
	"halfturn/cmd/halfturn/demo"
	"halfturn/stream"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
)

// rate is how often each station sends, per second.
const rate = 60

// run measures one server.
func run(t *testing.T, program string, stations, viewers int) figures {
	s := start(t, program, stations)
	idle := s.memory(t)
	flight := flown(t)
	d := &driver{flight: flight, sent: make([][]atomic.Int64, stations)}
	for i := range d.sent {
		d.sent[i] = make([]atomic.Int64, len(flight.datagrams))
		conn, err := net.Dial("udp", s.udp)
		if err != nil {
			t.Fatal(err)
		}
		defer conn.Close()
		d.conns = append(d.conns, conn)
	}
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	var wait sync.WaitGroup
	wait.Go(func() { d.send(ctx) })
	<-time.After(*warm / 3) // until the stations are there
	for i := range viewers {
		wait.Go(func() { d.look(ctx, t, s.pages, i*stations/viewers) })
	}
	<-time.After(*warm - *warm/3)
	before, own := s.measure(t), ownTime(t)
	d.measuring.Store(true)
	if *profile {
		s.profile(t, filepath.Join(*out, fmt.Sprintf("cpu-%d.pprof", stations)))
	} else {
		<-time.After(*measured)
	}
	d.measuring.Store(false)
	after, ownAfter := s.measure(t), ownTime(t)
	f := d.figures(before, after)
	f.stations, f.viewers = stations, viewers
	f.driver = (ownAfter - own) / f.seconds
	f.memory = after.memory - idle
	stop()
	wait.Wait()
	s.stop(t)
	return f
}

// A flight is the datagrams of one, and which of them has a stream time, in whole ms.
type flight struct {
	preamble  []byte
	datagrams [][]byte
	at        map[int64]int
}

// flown is a flight of a wing-over in both directions, with the level flight between.
func flown(t *testing.T) flight {
	t.Helper()
	wing := trainer.Flight{Maneuver: "wing-over", Direction: "both", Airplane: demo.Airplane, Seed: 1}
	pilot, err := trainer.New(wing)
	if err != nil {
		t.Fatal(err)
	}
	e, err := encode.New("labels")
	if err != nil {
		t.Fatal(err)
	}
	f := flight{preamble: e.Preamble(), at: map[int64]int{}}
	var s stream.Sample
	for more := true; more; {
		more = pilot.Step(1.0/rate, &s)
		f.at[millis(s.Value(stream.Time))] = len(f.datagrams)
		f.datagrams = append(f.datagrams, e.Append(nil, &s))
	}
	return f
}

func millis(seconds float64) int64 { return int64(math.Round(seconds * 1000)) }

// A driver sends and looks.
type driver struct {
	flight    flight
	conns     []net.Conn
	sent      [][]atomic.Int64 // when each datagram of each station was sent, Unix ns
	measuring atomic.Bool

	count atomic.Int64 // datagrams sent while it was measured

	mu     sync.Mutex
	took   []time.Duration // from datagrams to pages
	behind []time.Duration // of the schedule
}

// send has each station send its flight over and over. Each begins at another place of the flight, so that they do not
// all enter and end their legs at once, and sends at a moment of its own within the period.
func (d *driver) send(ctx context.Context) {
	const period = time.Second / rate
	began := time.Now()
	for round := 0; ; round++ {
		for i, conn := range d.conns {
			n := len(d.flight.datagrams)
			datagram := (round + i*n/len(d.conns)) % n
			due := began.Add(time.Duration(round)*period + time.Duration(i)*period/time.Duration(len(d.conns)))
			if early := time.Until(due); early > 500*time.Microsecond {
				select {
				case <-ctx.Done():
					return
				case <-time.After(early):
				}
			}
			if round == 0 {
				_, _ = conn.Write(d.flight.preamble)
			}
			now := time.Now()
			d.sent[i][datagram].Store(now.UnixNano())
			_, _ = conn.Write(d.flight.datagrams[datagram]) // a server that has ended is noticed elsewhere
			if d.measuring.Load() {
				d.count.Add(1)
				if i%64 == 0 {
					d.mu.Lock()
					d.behind = append(d.behind, now.Sub(due))
					d.mu.Unlock()
				}
			}
		}
		if ctx.Err() != nil {
			return
		}
	}
}

var frameTime = regexp.MustCompile(`^.{0,40}"type":"frame".*?"time":([0-9.]+)`)

// look has a viewer look at a station.
func (d *driver) look(ctx context.Context, t *testing.T, pages string, station int) {
	name := d.conns[station].LocalAddr().String()
	url := "ws" + strings.TrimPrefix(pages, "http") + "live?station=" + name
	conn, _, err := websocket.DefaultDialer.DialContext(ctx, url, nil)
	if err != nil {
		t.Error(err)
		return
	}
	defer conn.Close()
	defer context.AfterFunc(ctx, func() { conn.Close() })()
	for {
		_, m, err := conn.ReadMessage()
		now := time.Now().UnixNano()
		if err != nil {
			if ctx.Err() == nil {
				t.Errorf("a viewer of %s: %v", name, err)
			}
			return
		}
		if !d.measuring.Load() {
			continue
		}

		found := frameTime.FindSubmatch(m[:min(len(m), 400)])
		if found == nil {
			continue
		}
		seconds, err := strconv.ParseFloat(string(found[1]), 64)
		if k, is := d.flight.at[millis(seconds)]; is && err == nil {
			took := time.Duration(now - d.sent[station][k].Load())
			d.mu.Lock()
			d.took = append(d.took, took)
			d.mu.Unlock()
		}
	}
}

// figures are what was measured between two readings of the server.
func (d *driver) figures(before, after reading) (f figures) {
	d.mu.Lock()
	defer d.mu.Unlock()
	slices.Sort(d.took)
	slices.Sort(d.behind)
	at := func(list []time.Duration, share float64) time.Duration {
		if len(list) == 0 {
			return 0
		}
		return list[int(share*float64(len(list)-1))]
	}
	f.seconds = after.at.Sub(before.at).Seconds()
	f.sent, f.frames = int(d.count.Load()), len(d.took)
	f.p50, f.p99, f.most, f.late = at(d.took, 0.5), at(d.took, 0.99), at(d.took, 1), at(d.behind, 0.99)
	f.server = (after.seconds - before.seconds) / f.seconds
	since := func(metric string) int { return int(after.metrics[metric] - before.metrics[metric]) }
	f.worked = since("halfturn_datagrams_total")
	f.unread = since("halfturn_socket_dropped_datagrams_total")
	f.unqueued = since(`halfturn_datagrams_dropped_total{reason="queue-full"}`)
	f.unrecorded = since("halfturn_recording_lost_datagrams_total")
	f.overloaded = since("halfturn_overload_seconds_total")
	return f
}

// A server is the program in its own process.
type server struct {
	cmd        *exec.Cmd
	udp, pages string
	profiles   string // where profiles are served; "" where none are taken
	ended      chan error
}

var listening = regexp.MustCompile(`"pages":"([^"]+)","udp":\["([^"]+)"`)

func start(t *testing.T, program string, stations int) *server {
	t.Helper()
	file := filepath.Join(t.TempDir(), "halfturn.toml")
	text := fmt.Sprintf("max-stations = %d\nsubscribe.nearby = false\nlog.format = 'json'\nmaneuver = 'wing-over'\n",
		stations+10)
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	s := &server{ended: make(chan error, 1)}
	s.cmd = exec.Command(program, "serve", "--config", file, "--data", t.TempDir(), "--http", "127.0.0.1:0", "--udp",
		"127.0.0.1:0")
	if *profile {
		s.profiles = cmdtest.FreeAddress(t)
		s.cmd.Args = append(s.cmd.Args, "--pprof", s.profiles)
	}
	log, err := s.cmd.StderrPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := s.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewReader(log)
	for {
		line, err := lines.ReadString('\n')
		if err != nil {
			t.Fatalf("the server does not listen: %v", err)
		}
		if m := listening.FindStringSubmatch(line); m != nil {
			s.pages, s.udp = m[1], m[2]
			break
		}
	}
	go func() {
		_, _ = io.Copy(io.Discard, lines)
		s.ended <- s.cmd.Wait()
	}()
	return s
}

// profile has the server profile itself while it is measured.
func (s *server) profile(t *testing.T, file string) {
	t.Helper()
	answer, err := http.Get(fmt.Sprintf("http://%s/debug/pprof/profile?seconds=%.0f", s.profiles, measured.Seconds()))
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	data, err := io.ReadAll(answer.Body)
	if err == nil {
		err = os.WriteFile(file, data, 0o644)
	}
	if err != nil {
		t.Error(err)
	}
}

// stop ends the server as Ctrl-C does.
func (s *server) stop(t *testing.T) {
	t.Helper()
	if err := s.cmd.Process.Signal(syscall.SIGINT); err != nil {
		t.Error(err)
	}
	if err := <-s.ended; err != nil {
		t.Error(err)
	}
}

// A reading is what the server says of itself at a moment.
type reading struct {
	at      time.Time
	metrics map[string]float64 // by name, and by name and label; those with a label are summed up under the name
	seconds float64            // of processor time
	memory  float64            // bytes
}

func (s *server) measure(t *testing.T) reading {
	t.Helper()
	answer, err := http.Get(s.pages + "metrics")
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	r := reading{at: time.Now(), metrics: map[string]float64{}}
	lines := bufio.NewScanner(answer.Body)
	for lines.Scan() {
		space := strings.LastIndexByte(lines.Text(), ' ') // labels may have some
		if space < 0 || strings.HasPrefix(lines.Text(), "#") {
			continue
		}
		name := lines.Text()[:space]
		v, err := strconv.ParseFloat(lines.Text()[space+1:], 64)
		if err != nil {
			continue
		}
		r.metrics[name] += v
		if family, _, labeled := strings.Cut(name, "{"); labeled {
			r.metrics[family] += v
		}
	}
	r.seconds, r.memory = r.metrics["process_cpu_seconds_total"], r.metrics["process_resident_memory_bytes"]
	return r
}

func (s *server) memory(t *testing.T) float64 { return s.measure(t).memory }

// ownTime is the processor time of this process, s.
func ownTime(t *testing.T) float64 {
	t.Helper()
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		t.Fatal(err)
	}
	return float64(u.Utime.Nano()+u.Stime.Nano()) / 1e9
}
