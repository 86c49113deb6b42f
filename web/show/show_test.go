package show

import (
	"context"
	"errors"
	"net"
	"net/netip"
	"sync"
	"testing"

	"github.com/rs/zerolog"
	"go.uber.org/goleak"

	"halfturn/coach"
	"halfturn/coach/aircraft"
	"halfturn/coach/maneuver"
	"halfturn/stream/contain"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/airplane"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// A host takes what a demonstration sends, and notes its stations.
type host struct {
	conn   *net.UDPConn
	wrong  error
	faults func(call string) // panics at a call; nil
	mu     sync.Mutex
	choice maneuver.Choice
	here   map[netip.AddrPort]bool
}

func newHost(t *testing.T) *host {
	t.Helper()
	conn, err := net.ListenUDP("udp", &net.UDPAddr{IP: net.IPv4(127, 0, 0, 1)})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { conn.Close() })
	return &host{conn: conn, here: map[netip.AddrPort]bool{}}
}

func (h *host) Expect(a netip.AddrPort, c maneuver.Choice) (string, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.fault("expect")
	h.choice, h.here[a] = c, true
	return "Demonstration", h.wrong
}

func (h *host) Leave(_ context.Context, a netip.AddrPort) {
	h.mu.Lock()
	defer h.mu.Unlock()
	delete(h.here, a)
	h.fault("leave")
}

func (h *host) fault(call string) {
	if h.faults != nil {
		h.faults(call)
	}
}

func (h *host) Aircraft() []*aircraft.Aircraft {
	return []*aircraft.Aircraft{
		{Name: "mine", Entry: 99}, {Name: "fast", Entry: 300}, {Name: "turboprop-trainer", Entry: 101}, {Name: "blank"},
	}
}

func (h *host) stations() int {
	h.mu.Lock()
	defer h.mu.Unlock()
	return len(h.here)
}

func newShow(h *host) *Show {
	to := h.conn.LocalAddr().(*net.UDPAddr).AddrPort()
	return New(Options{Host: h, To: to, Log: zerolog.Nop()})
}

// A demonstration is expected before its first datagram, which comes from the address that was named; the next one, and
// the end, make its station leave.
func TestFlies(t *testing.T) {
	h := newHost(t)
	s := newShow(h)
	if _, on := s.Now(); on {
		t.Error("one is flown before any began")
	}
	now, err := s.Begin(maneuver.Choice{Maneuver: "lazy-eight", Aircraft: "light-single"}, 1)
	if err != nil || now.Station != "Demonstration" || h.choice.Maneuver != "lazy-eight" {
		t.Fatalf("%+v, %v, expected %+v", now, err, h.choice)
	}
	_, from, err := h.conn.ReadFromUDPAddrPort(make([]byte, 4096))
	if err != nil || !h.here[from] {
		t.Errorf("a datagram from %v, expected %v", from, h.here)
	}
	if is, on := s.Now(); !on || is != now {
		t.Errorf("%+v is flown, %t", is, on)
	}
	if _, err := s.Begin(maneuver.Choice{Maneuver: "wing-over"}, 1); err != nil || h.stations() != 1 {
		t.Errorf("%v; %d stations", err, h.stations())
	}
	s.End()
	if _, on := s.Now(); on || h.stations() != 0 {
		t.Errorf("%d stations after the end", h.stations())
	}
	s.End()
	s.Close()
	if _, err := s.Begin(maneuver.Choice{Maneuver: "wing-over"}, 1); err == nil {
		t.Error("one is flown after the close")
	}
}

// A flight that is over makes its station leave by itself.
func TestEndsByItself(t *testing.T) {
	h := newHost(t)
	s := newShow(h)
	defer s.Close()
	if _, err := s.Begin(maneuver.Choice{Maneuver: "steep-turn"}, 200); err != nil {
		t.Fatal(err)
	}
	<-s.now.over
	if _, on := s.Now(); on || h.stations() != 0 {
		t.Errorf("%d stations after the flight", h.stations())
	}
}

// A fault ends the demonstration in which it happens, and its station; whoever asked for it hears of it, and the next
// one flies.
func TestFaultEndsOne(t *testing.T) {
	for _, c := range []struct {
		at    string
		flies bool
	}{{"expect", false}, {"leave", true}} {
		t.Run(c.at, func(t *testing.T) {
			h := newHost(t)
			h.faults = func(call string) {
				if call == c.at {
					panic("the host failed")
				}
			}
			told := make(chan error, 10)
			s := newShow(h)
			s.o.Faults = contain.New(func(err error) { told <- err })
			defer s.Close()
			_, err := s.Begin(maneuver.Choice{Maneuver: "wing-over"}, 1)
			if (err == nil) != c.flies {
				t.Errorf("it begins with %v", err)
			}
			s.End()
			var fault *contain.Fault
			if err := <-told; !errors.As(err, &fault) || fault.Part != "demonstration" || len(told) > 0 {
				t.Errorf("told is %v, and %d more", err, len(told))
			}
			if _, on := s.Now(); on || h.stations() != 0 {
				t.Errorf("after it %d stations are there", h.stations())
			}
			h.mu.Lock()
			h.faults = nil
			h.mu.Unlock()
			if _, err := s.Begin(maneuver.Choice{Maneuver: "wing-over"}, 1); err != nil || h.stations() != 1 {
				t.Errorf("the next: %v, %d stations", err, h.stations())
			}
		})
	}
}

// The built-in aircraft that flies is the chosen one, or the one most like it.
func TestLike(t *testing.T) {
	s := newShow(newHost(t))
	for card, want := range map[string]string{
		"turboprop-trainer": "turboprop-trainer", // whatever its card says
		"mine":              "light-single",
		"fast":              "turboprop-trainer",
		"blank":             airplane.Names()[0],
		"":                  airplane.Names()[0],
	} {
		if got := s.like(card); got.Name != want {
			t.Errorf("%q is shown by %s; must be %s", card, got.Name, want)
		}
	}
}

// Every maneuver of the trainer can be shown, whichever is flown is a wing-over; what it cannot fly, and what the host
// refuses, is an error, and nothing is left.
func TestChoices(t *testing.T) {
	h := newHost(t)
	s := newShow(h)
	defer s.Close()
	for _, name := range append(trainer.Maneuvers(), coach.AutoManeuver, "") {
		want := name
		if name == "" || name == coach.AutoManeuver {
			want = "wing-over"
		}
		if now, err := s.Begin(maneuver.Choice{Maneuver: name}, 1); err != nil || now.Maneuver != want {
			t.Errorf("%q: %+v, %v", name, now, err)
		}
	}
	if _, err := s.Begin(maneuver.Choice{Maneuver: "clearing-turns"}, 1); err == nil {
		t.Error("clearing turns are shown")
	}
	h.wrong = errors.New("no such card")
	if _, err := s.Begin(maneuver.Choice{Maneuver: "wing-over"}, 1); !errors.Is(err, h.wrong) || h.stations() != 0 {
		t.Errorf("%v; %d stations", err, h.stations())
	}
}

// A server that listens nowhere can show nothing.
func TestNoServer(t *testing.T) {
	s := New(Options{Host: newHost(t), Log: zerolog.Nop()})
	defer s.Close()
	if _, err := s.Begin(maneuver.Choice{Maneuver: "wing-over"}, 1); err == nil {
		t.Error("it flies for nobody")
	}
}
