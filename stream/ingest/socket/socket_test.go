package socket

import (
	"errors"
	"net"
	"net/netip"
	"strings"
	"syscall"
	"testing"
	"testing/synctest"
	"time"

	"go.uber.org/goleak"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// The addresses stand in the order that was asked for, with the ports that the system chose.
func TestOpenAll(t *testing.T) {
	open, where, err := OpenAll(t.Context(), []string{"127.0.0.1:0", "127.0.0.1:0"})
	if err != nil {
		t.Fatal(err)
	}
	defer CloseAll(open)
	if len(open) != 2 || len(where) != 2 || where[0] == where[1] {
		t.Fatalf("%d sockets at %v", len(open), where)
	}
	for i, s := range open {
		if s.Address != where[i] || Local(s.UDPConn) != where[i] || where[i].Port() == 0 {
			t.Errorf("socket %d: %v, %v, %v", i, s.Address, Local(s.UDPConn), where[i])
		}
	}
}

// When one address cannot be had, the sockets of the others are closed: their ports are free again.
func TestOpenAllKeepsNone(t *testing.T) {
	taken, err := net.ListenPacket("udp4", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	free, err := net.ListenPacket("udp4", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	first := free.LocalAddr().String()
	free.Close()
	_, _, err = OpenAll(t.Context(), []string{first, taken.LocalAddr().String()})
	var busy *BusyError
	if !errors.As(err, &busy) || !errors.Is(err, syscall.EADDRINUSE) ||
		!strings.Contains(err.Error(), "choose another port") {
		t.Errorf("%v", err)
	}
	again, err := net.ListenPacket("udp4", first)
	if err != nil {
		t.Fatalf("the first socket was kept: %v", err)
	}
	again.Close()
}

// A script is a source that gives what it holds, in order, and is then closed.
type script []error

func (s *script) ReadFromUDPAddrPort(b []byte) (int, netip.AddrPort, error) {
	if len(*s) == 0 {
		return 0, netip.AddrPort{}, net.ErrClosed
	}
	err := (*s)[0]
	*s = (*s)[1:]
	return copy(b, "data"), netip.MustParseAddrPort("[::ffff:10.0.0.1]:5"), err
}

func (*script) Close() error { return nil }

// Faults of the socket are said once in a row, cost no processor time, and end nothing; senders are told apart by their
// IPv4 address, also on a socket for both families.
func TestReceive(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		broken := errors.New("broken")
		source := script{nil, broken, broken, broken, nil, syscall.ECONNREFUSED, nil, broken, nil}
		var faults, again, got int
		start := time.Now()
		warn := func(err error) {
			if errors.Is(err, errAgain) {
				again++
			} else if faults++; !errors.Is(err, broken) {
				t.Errorf("%v", err)
			}
		}
		take := func(from netip.AddrPort, b []byte, _ time.Time) {
			if got++; from != netip.MustParseAddrPort("10.0.0.1:5") || string(b) != "data" {
				t.Errorf("%v: %q", from, b)
			}
		}
		Receive(&source, Sink{Take: take, Warn: warn})
		if got != 4 || faults != 2 || again != 2 {
			t.Errorf("%d datagrams, %d faults, received again %d times; must be 4, 2 and 2", got, faults, again)
		}
		if waited := time.Since(start); waited < 5*time.Millisecond {
			t.Errorf("waited %v for a socket that fails again and again", waited)
		}
	})
}
