package story

import (
	"context"
	"errors"
	"net"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"halfturn/stream"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
)

// rest is how long a simulator sends nothing between two flights: longer than a session may be interrupted.
const rest = idle + 6*time.Second

// A flight is what a simulator sends, encoded once for all that fly it.
type flight struct {
	name      string
	datagrams [][]byte
}

// kinds is how many different flights there are: more than one simulator flies in a story, so that all legs of a
// station differ.
const kinds = 12

// namedEvery is how often a format says what its columns are: a node that begins to hear a station waits for it.
const namedEvery = 10 * time.Second

// flights flies them: each with its own flaw and noise.
func flights(t *testing.T, rate float64) (all []*flight) {
	t.Helper()
	formats := []string{"json", "labels"}
	flaws := append([]string{""}, trainer.FlawsOf("wing-over")...)
	named := max(1, int(namedEvery.Seconds()*rate))
	for i := range kinds {
		how := trainer.Flight{
			Maneuver: "wing-over",
			Flaw:     flaws[i%len(flaws)],
			Airplane: airplane,
			Heading:  float64(30 * i),
			Seed:     uint64(i + 1),
		}
		pilot, err := trainer.New(how)
		if err != nil {
			t.Fatal(err)
		}
		format := formats[i%len(formats)]
		e, err := encode.New(format)
		if err != nil {
			t.Fatal(err)
		}
		f := &flight{name: strings.TrimSpace(format + " " + how.Flaw)}
		var s stream.Sample
		for more := true; more; {
			if p := e.Preamble(); p != nil && len(f.datagrams)%named == 0 {
				f.datagrams = append(f.datagrams, slices.Clone(p))
			}
			more = pilot.Step(1/rate, &s)
			f.datagrams = append(f.datagrams, e.Append(nil, &s))
		}
		all = append(all, f)
	}
	return all
}

// A way is to which nodes a simulator sends.
type way string

// The ways: to the addresses of two nodes, to those of all, to a multicast group that all nodes have joined, and to the
// address of one node alone.
const (
	toTwo   way = "two nodes"
	toAll   way = "all nodes"
	toGroup way = "a group"
	toOne   way = "one node"
)

// A seat is a simulator. It flies one flight after the other, each a session, and rests in between.
type seat struct {
	name   string // of the station: the address that it sends from
	number int
	way    way
	conn   *net.UDPConn
	to     []*net.UDPAddr
	next   *flight
	at     int // of the flight under way: the datagram that is next
	idle   int // rounds until the next flight

	mu    sync.Mutex
	flown []flown
}

// A flown is a flight that was sent, or is being sent.
type flown struct {
	*flight
	began, ended time.Time // ended is zero while it is under way
}

// history is what was flown so far.
func (s *seat) history() []flown {
	s.mu.Lock()
	defer s.mu.Unlock()
	return slices.Clone(s.flown)
}

// flies reports whether a flight is in its midst: what is done to the station now belongs to a session.
func (s *seat) flies() bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	if len(s.flown) == 0 {
		return false
	}
	last := s.flown[len(s.flown)-1]
	return last.ended.IsZero() && time.Since(last.began) > settling
}

// newSeat makes a simulator with an address of its own.
func newSeat(t *testing.T, number int, w way) *seat {
	t.Helper()
	conn, err := net.ListenUDP("udp4", &net.UDPAddr{IP: net.IPv4(127, 1, byte(number>>8), byte(number))})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { conn.Close() })
	return &seat{name: conn.LocalAddr().String(), number: number, way: w, conn: conn}
}

// throughLoopback sends what goes to a group over the loopback interface.
func throughLoopback(c *net.UDPConn) error {
	raw, err := c.SyscallConn()
	if err != nil {
		return err
	}
	set := error(nil)
	err = raw.Control(func(fd uintptr) {
		set = syscall.SetsockoptInet4Addr(int(fd), syscall.IPPROTO_IP, syscall.IP_MULTICAST_IF, [4]byte{127, 0, 0, 1})
	})
	return errors.Join(set, err)
}

// A field is where all simulators are.
type field struct {
	rate    float64
	flights []*flight
	seats   []*seat
	group   *net.UDPAddr // that all nodes have joined
	closing atomic.Bool  // no other flight begins

	mu   sync.Mutex
	sent int           // datagrams, each counted once
	late time.Duration // the most that one was sent behind its time
}

// run sends until the last flight is over after closing, or the context ends. Each simulator sends at a moment of its
// own within the period.
func (f *field) run(ctx context.Context) {
	period := time.Duration(float64(time.Second) / f.rate)
	began := time.Now()
	for round := 0; ; round++ {
		busy := false
		for i, s := range f.seats {
			due := began.Add(time.Duration(round)*period + time.Duration(i)*period/time.Duration(len(f.seats)))
			if early := time.Until(due); early > time.Millisecond {
				select {
				case <-ctx.Done():
					return
				case <-time.After(early):
				}
			}
			f.noteLate(time.Since(due))
			busy = f.step(s) || busy
		}
		if !busy && f.closing.Load() {
			return
		}
	}
}

func (f *field) noteLate(by time.Duration) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.late = max(f.late, by)
}

// step has a simulator do what is next. It reports whether it flies.
func (f *field) step(s *seat) bool {
	if s.idle > 0 {
		s.idle--
		return false
	}
	now := time.Now()
	if s.at == 0 {
		if f.closing.Load() {
			return false
		}
		s.mu.Lock()
		s.next = f.flights[(s.number+5*len(s.flown))%len(f.flights)]
		s.flown = append(s.flown, flown{flight: s.next, began: now})
		s.mu.Unlock()
	}
	for _, to := range s.to {
		_, _ = s.conn.WriteToUDP(s.next.datagrams[s.at], to) // a node that was killed takes none
	}
	f.mu.Lock()
	f.sent++
	f.mu.Unlock()
	if s.at++; s.at < len(s.next.datagrams) {
		return true
	}
	s.mu.Lock()
	s.flown[len(s.flown)-1].ended = now
	s.mu.Unlock()
	s.at, s.idle = 0, int(rest.Seconds()*f.rate)
	return true
}
