package demo

import (
	"context"
	"errors"
	"net"
	"net/netip"
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/coach/command"
	"halfturn/coach/message"
	"halfturn/coach/session"
	"halfturn/stream/trainer"
)

// A host takes what a demonstration sends, and keeps what it chooses.
type host struct {
	conn    *net.UDPConn
	chosen  chan command.Command
	serving error
}

func newHost(t *testing.T) *host {
	t.Helper()
	conn, err := net.ListenUDP("udp", &net.UDPAddr{IP: net.IPv4(127, 0, 0, 1)})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { conn.Close() })
	return &host{conn: conn, chosen: make(chan command.Command, 8)}
}

func (h *host) Addresses() []netip.AddrPort {
	return []netip.AddrPort{h.conn.LocalAddr().(*net.UDPAddr).AddrPort()}
}

func (h *host) Do(_ context.Context, c command.Command) error {
	h.chosen <- c
	return errors.New("refused")
}

func (h *host) Serve(ctx context.Context) error {
	<-ctx.Done()
	return h.serving
}

// quiet drops what it is given.
type quiet struct{ session.Output }

func (quiet) Event(message.Message) {}

func seriesOver(station string) message.Message {
	return message.Message{Station: station, Body: message.Series{Series: new(coach.Series)}}
}

// The next maneuver is chosen, with the airplane that flies, when a series is over; where the next flight is of the
// same maneuver nothing is chosen. A choice that is refused is reported, and the demonstration goes on.
func TestChoosesTheNext(t *testing.T) {
	h := newHost(t)
	warned := make(chan error, 8)
	s := New(Airplane, true, 100)
	s.Flights = []trainer.Flight{
		{Maneuver: "wing-over", Direction: "both", Airplane: Airplane},
		{Maneuver: "wing-over", Direction: "right", Airplane: Airplane},
		{Maneuver: "chandelle-civil", Direction: "right", Airplane: "light-single"},
	}
	s.Warn = func(err error) { warned <- err }
	out := s.Output(quiet{})
	out.Event(seriesOver("of the last run"))
	s.Forget()
	ctx, stop := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() { done <- s.Run(ctx, h) }()
	for range 2 {
		out.Event(seriesOver("seat 3"))
	}
	c := <-h.chosen
	choose, ok := c.Action.(command.Choose)
	if !ok || c.Station != "seat 3" || choose.Maneuver != "chandelle-civil" || choose.Aircraft != "light-single" {
		t.Errorf("it did %+v", c)
	}
	<-warned
	if _, err := h.conn.Read(make([]byte, 2048)); err != nil {
		t.Errorf("nothing is flown: %v", err)
	}
	stop()
	if err := <-done; err != nil {
		t.Error(err)
	}
	if len(h.chosen) > 0 {
		t.Error("it chose twice")
	}
}

// A server that fails ends the demonstration with its error.
func TestHostFails(t *testing.T) {
	h := newHost(t)
	h.serving = errors.New("no more")
	s := New(Airplane, true, 1)
	ctx, stop := context.WithCancel(t.Context())
	stop()
	if err := s.Run(ctx, h); !errors.Is(err, h.serving) {
		t.Errorf("it ends with %v", err)
	}
}

// Ends of series that nobody follows hold nothing up.
func TestManyEnds(t *testing.T) {
	s := New(Airplane, true, 1)
	out := s.Output(quiet{})
	for range 2 * mostWaiting {
		out.Event(seriesOver("seat 3"))
	}
	s.Forget()
	if len(s.over) > 0 {
		t.Error("ends are left")
	}
}

// Without --once it flies for hours, with flaws and without.
func TestFlights(t *testing.T) {
	for _, once := range []bool{true, false} {
		s := New("light-single", once, 1)
		flaws, tried := 0, map[trainer.Flight]bool{} // to try one takes a while, and most are repeated
		for _, f := range s.Flights {
			if f.Flaw != "" {
				flaws++
			}
			if tried[f] {
				continue
			}
			tried[f] = true
			if _, err := trainer.New(f); err != nil || f.Airplane != "light-single" {
				t.Errorf("%+v: %v", f, err)
			}
		}
		if once != (flaws == 0) || once != (len(s.Flights) == 2) {
			t.Errorf("once %v: %d flights, %d with a flaw", once, len(s.Flights), flaws)
		}
	}
}

func TestPause(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	if !Pause(ctx, time.Nanosecond) {
		t.Error("a pause is cut short")
	}
	stop()
	if Pause(ctx, time.Hour) {
		t.Error("a pause outlasts its context")
	}
}
