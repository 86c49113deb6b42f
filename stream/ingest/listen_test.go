package ingest

import (
	"fmt"
	"net"
	"net/netip"
	"runtime"
	"slices"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"halfturn/stream/quiet"
)

// stranger is one of many forged senders.
func stranger(i int) netip.AddrPort {
	return netip.AddrPortFrom(netip.AddrFrom4([4]byte{203, 0, 113, byte(i % 250)}), uint16(1000+i))
}

// A thousand forged senders from outside the allowed networks, between the datagrams of a known
// one: they get no handler, each datagram is counted, the log stays short, and the known station
// loses nothing.
func TestForgedSenders(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := newHall(Config{MaxStations: 4})
		for i := range 1000 {
			h.deliver(nil, stranger(i), []byte("junk"), time.Now())
			if i%10 == 0 {
				h.send(1, "real")
			}
		}
		h.close()
		if n := len(h.handlers); n != 1 || h.dropped("not-allowed") != 1000 {
			t.Errorf("%d handlers, %v refused", n, h.dropped("not-allowed"))
		}
		if n := len(h.handlers[from(1)][0].datagrams); n != 100 {
			t.Errorf("the known station got %d datagrams of 100", n)
		}
		want := `datagrams from 203.0.113.0 are refused: it is in none of the allowed networks (127.0.0.0/8, ` +
			`::1/128); to take them, add "203.0.113.0" to allow in the configuration`
		// at once, at the end, and of the other senders
		if len(h.warnings) != 2*quiet.Senders+1 || h.warnings[0] != want {
			t.Errorf("%d warnings, first %q", len(h.warnings), h.warnings[0])
		}
		if others := fmt.Sprintf("the last of %d such", 1000-4*quiet.Senders); !slices.ContainsFunc(h.warnings,
			func(w string) bool { return strings.Contains(w, others) }) {
			t.Errorf("no warning says %q: %q", others, h.warnings)
		}
	})
}

// The same from inside an allowed network, where they take every place: a sender named in the
// configuration still gets one, and goes on undisturbed.
func TestForgedSendersInside(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		known := netip.MustParseAddrPort("192.168.7.20:49001")
		h := newHall(Config{MaxStations: 4, Known: []netip.Addr{known.Addr()}})
		h.unproven = true
		h.setAllowed(append(h.allowed(), netip.MustParsePrefix("203.0.113.0/24"),
			netip.MustParsePrefix("192.168.7.0/24")))
		for i := range 1000 {
			h.deliver(nil, stranger(i), []byte("junk"), time.Now())
			if i%10 == 0 {
				h.deliver(nil, known, []byte("real"), time.Now())
			}
		}
		for i := range 20 { // forging the known address itself gains little
			h.deliver(nil, netip.AddrPortFrom(known.Addr(), uint16(i+1)), []byte("junk"), time.Now())
		}
		synctest.Wait()
		if n := len(h.addresses()); n != 8 {
			t.Errorf("%d stations at once, 2 × 4 allowed", n)
		}
		h.close()
		if n := len(h.handlers[known]); n != 1 || len(h.handlers[known][0].datagrams) != 100 {
			t.Errorf("%d handlers of the known station", n)
		}
		if got := h.dropped("too-many-stations"); got != 1000-4+20-3 {
			t.Errorf("%v refused", got)
		}
	})
}

func TestMaxRate(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := newHall(Config{MaxRate: 100, Queue: 10000})
		for range 10 { // ten seconds of 500 a second
			for range 500 {
				h.send(1, "x")
				<-time.After(2 * time.Millisecond)
			}
			h.send(2, "y")
		}
		h.close()
		// One second's worth at once, then the rate.
		if n := len(h.handlers[from(1)][0].datagrams); n < 1090 || n > 1101 {
			t.Errorf("%d datagrams taken in 10 s at most 100 a second", n)
		}
		if n := len(h.handlers[from(2)][0].datagrams); n != 10 {
			t.Errorf("the other station got %d of 10", n)
		}
		if got := h.dropped("too-fast"); got < 3899 || got > 3910 {
			t.Errorf("%v dropped", got)
		}
		if len(h.warnings) != 2 || h.warnings[0] != "station 127.0.0.1:1 sends more than 100 datagrams a second; "+
			"what is more is dropped: lower the rate in the simulator, or raise max-rate in the configuration" ||
			!strings.HasSuffix(h.warnings[1], fmt.Sprintf(" (the last of %v such datagrams since this was last said)",
				h.dropped("too-fast")-1)) {
			t.Errorf("warnings %q", h.warnings)
		}
	})
}

// freePort is a port that is free just now.
func freePort(t *testing.T) string {
	t.Helper()
	c, err := net.ListenPacket("udp4", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	_, port, _ := net.SplitHostPort(c.LocalAddr().String())
	return port
}

// A group is joined, alone or on a socket that has its port already; datagrams to the group and
// to the machine itself arrive. Sent over the loopback interface, so that no network is needed.
func TestMulticast(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("the loopback interface takes part in multicast on Linux")
	}
	group := "239.255.71.81" // RFC 2365: administratively scoped
	port := freePort(t)
	for name, addresses := range map[string][]string{
		"alone":           {group + ":" + port},
		"one socket":      {"0.0.0.0:" + port, group + ":" + port},
		"in other order":  {group + ":" + port, "0.0.0.0:" + port},
		"beside loopback": {"127.0.0.1:0", group + ":" + port},
	} {
		t.Run(name, func(t *testing.T) {
			l, all := listen(t, t.Context(), Config{Addresses: addresses})
			for i, a := range l.Addresses() {
				if want := netip.MustParseAddrPort(addresses[i]); want.Port() != 0 && a != want {
					t.Errorf("address %v; must be %v", a, want)
				}
			}
			c, err := net.ListenUDP("udp4", net.UDPAddrFromAddrPort(from(0)))
			if err != nil {
				t.Fatal(err)
			}
			defer c.Close()
			if err := throughLoopback(c); err != nil {
				t.Fatal(err)
			}
			if _, err := c.WriteToUDPAddrPort([]byte("to the group"),
				netip.MustParseAddrPort(group+":"+port)); err != nil {
				t.Skip("this machine does not send to groups over loopback:", err)
			}
			if got := receive(t, all.got); got != "to the group" {
				t.Errorf("got %q", got)
			}
			l.Close()
		})
	}
}

// What is sent to everyone on the network (here: on the loopback network) arrives on a socket of
// every interface.
func TestBroadcast(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("other systems do not broadcast on loopback")
	}
	l, all := listen(t, t.Context(), Config{Addresses: []string{"0.0.0.0:0"}})
	c := dial(t, netip.AddrPortFrom(netip.MustParseAddr("127.255.255.255"), l.Addresses()[0].Port()))
	if _, err := c.Write([]byte("to everyone")); err != nil {
		t.Fatal(err)
	}
	if got := receive(t, all.got); got != "to everyone" {
		t.Errorf("got %q", got)
	}
}

func TestMulticastErrors(t *testing.T) {
	taken, err := net.ListenPacket("udp4", "0.0.0.0:0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	_, port, _ := net.SplitHostPort(taken.LocalAddr().String())
	_, err = Listen(t.Context(), Config{Addresses: []string{"239.255.71.81:" + port}}, nil)
	if err == nil || !strings.HasPrefix(err.Error(), "UDP port "+port+" on 239.255.71.81 is already in use") {
		t.Errorf("taken: %v", err)
	}
	_, err = Listen(t.Context(), Config{Addresses: []string{"[ff02::7181%nonsense]:0"}}, nil)
	if err == nil || !strings.Contains(err.Error(), "no interface takes part in multicast") {
		t.Errorf("no such interface: %v", err)
	}
}
