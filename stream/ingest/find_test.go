package ingest

import (
	"errors"
	"fmt"
	"net/netip"
	"testing"
	"time"

	"halfturn/stream/wire/xplane"
)

// near makes a subscriber that nobody told anything, on a machine with this simulator.
func near(t *testing.T, sim *simulator) (*subscriber, *notes) {
	t.Helper()
	s, told := newAsker(t, Subscribe{Nearby: true, here: sim.address(), Beacons: newSimulator(t).UDPConn})
	t.Cleanup(s.close)
	return s, told
}

// asked is what is known of one simulator.
func (s *subscriber) asked(t *testing.T, at netip.AddrPort, now time.Time) Asked {
	t.Helper()
	for _, a := range s.found(now).Asked {
		if a.Address == at {
			return a
		}
	}
	t.Fatalf("%v is not asked: %+v", at, s.found(now))
	return Asked{}
}

// The simulator of this machine is asked for one value until it answers, and then for all; nothing is said of one that
// is not there.
func TestAsksNearby(t *testing.T) {
	sim := newSimulator(t)
	s, told := near(t, sim)
	refs, now := xplane.Datarefs(), time.Unix(1000, 0)
	for range 8 { // sixteen seconds without an answer
		s.step(now)
		if got := sim.take(1); got[0] != (request{30, 0, refs[0].Name}) {
			t.Fatalf("it asks %+v", got)
		}
		sim.nothing()
		now = now.Add(askSilent)
	}
	if len(told.list) > 0 {
		t.Errorf("it says %q", told.list)
	}
	if a := s.asked(t, sim.address(), now); a.Answers || a.By != ByItself {
		t.Errorf("%+v", a)
	}
	s.reply(sim.address(), replies(0), now)
	s.step(now.Add(askEvery))
	sim.take(len(refs))
	if a := s.asked(t, sim.address(), now); !a.Answers || !told.have("a simulator answers at") {
		t.Errorf("%+v, %q", a, told.list)
	}
	s.end(s.targets[sim.address()])
	for _, r := range sim.take(len(refs)) {
		if r.rate != 0 {
			t.Fatalf("at the end: %+v", r)
		}
	}
}

// What sends by itself on this machine need not be asked: not before it answers, and never beside its own rows.
func TestSendsByItself(t *testing.T) {
	sim := newSimulator(t)
	s, _ := near(t, sim)
	refs, now := xplane.Datarefs(), time.Unix(1000, 0)
	s.overhear(from(50000), []byte(`{"heading": 1}`), now)
	s.step(now.Add(time.Second))
	sim.nothing()
	s.overhear(stranger(1), []byte("DATA*"), now.Add(6*time.Second)) // another machine's
	now = now.Add(sendsFor + time.Second)
	s.step(now)
	sim.take(1)
	s.reply(sim.address(), replies(0), now)
	s.step(now.Add(askEvery))
	sim.take(len(refs))
	s.overhear(from(50000), []byte(`{"heading": 1}`), now.Add(askEvery)) // another simulator: both go on
	s.reply(sim.address(), replies(everything()...), now.Add(askEvery))
	s.step(now.Add(2 * askEvery))
	sim.nothing()
	s.overhear(from(49001), []byte("DATA*"), now.Add(2*askEvery))
	s.step(now.Add(3 * askEvery))
	for _, r := range sim.take(len(refs)) {
		if r.rate != 0 {
			t.Fatalf("it still asks: %+v", r)
		}
	}
	s.step(now.Add(4 * askEvery))
	sim.nothing()
}

// A beacon of this machine is followed by itself, on its loopback address; one of another machine is only told of.
func TestBeaconsNearby(t *testing.T) {
	here, usual := newSimulator(t), newSimulator(t)
	s, _ := near(t, usual)
	s.own = []netip.Prefix{netip.MustParsePrefix("192.168.7.9/24")}
	now := time.Unix(1000, 0)
	s.beacon(netip.MustParseAddrPort("192.168.7.8:49707"), beaconOf(1, 1, 1, 49000), now)
	s.beacon(netip.MustParseAddrPort("192.168.7.9:49707"), beaconOf(1, 1, 1, here.address().Port()), now)
	s.step(now)
	here.take(len(xplane.Datarefs()))
	usual.nothing() // it announces another port
	if a := s.asked(t, here.address(), now); a.By != ByBeacon || a.Name != "station three" {
		t.Errorf("%+v", a)
	}
	f := s.found(now)
	if len(f.Announced) != 2 || f.Announced[0].Here || !f.Announced[1].Here || len(f.Asked) != 2 {
		t.Errorf("%+v", f)
	}
	for i := range 200 { // forged
		s.beacon(netip.MustParseAddrPort(fmt.Sprintf("192.168.7.%d:49707", i)), beaconOf(1, 1, 1, uint16(20000+i)), now)
		s.beacon(from(1), beaconOf(1, 1, 1, uint16(30000+i)), now)
	}
	if f := s.found(now); len(f.Announced) > mostAnnounced || len(f.Asked) > mostHere+1 {
		t.Errorf("%d announced, %d asked", len(f.Announced), len(f.Asked))
	}
	if f := s.found(now.Add(askGone)); len(f.Announced) != 0 {
		t.Errorf("%+v after a silence", f.Announced)
	}
}

// Another machine is asked when it is named, within bounds, and only in a private network.
func TestAsksOnRequest(t *testing.T) {
	sim, usual := newSimulator(t), newSimulator(t)
	s, told := near(t, usual)
	now := time.Unix(1000, 0)
	for address, want := range map[string]error{
		"8.8.8.8:49000": ErrPublic, "[2001:db8::1]:49000": ErrPublic, sim.address().String(): nil,
	} {
		if err := s.askNow(netip.MustParseAddrPort(address), now); !errors.Is(err, want) {
			t.Errorf("%s: %v; must be %v", address, err, want)
		}
	}
	s.step(now)
	sim.take(len(xplane.Datarefs()))
	s.step(now.Add(askTell))
	if !told.have("does not answer") {
		t.Errorf("it says %q", told.list)
	}
	for i := range 2 * mostNamed {
		err := s.askNow(netip.AddrPortFrom(netip.AddrFrom4([4]byte{192, 168, 7, byte(i)}), 49000), now)
		if (err == nil) != (i < mostNamed-1) {
			t.Errorf("number %d: %v", i, err)
		}
	}
	if !s.senders.allowed().Contains(netip.MustParseAddr("192.168.7.1")) ||
		s.senders.allowed().Contains(netip.MustParseAddr("192.168.7.100")) {
		t.Errorf("datagrams of %v are taken", s.senders.allowed())
	}
	s.stopAsking(netip.MustParseAddrPort("192.168.7.1:49000"))
	s.stopAsking(usual.address()) // nobody named it
	if err := s.askNow(netip.MustParseAddrPort("192.168.7.200:49000"), now); err != nil {
		t.Error(err)
	}
	s.step(now.Add(askGivenUp + time.Second))
	if n := s.count(ByPage); n != 0 {
		t.Errorf("%d are still asked", n)
	}
	if err := s.askNow(usual.address(), now); err != nil || s.asked(t, usual.address(), now).By != ByPage {
		t.Errorf("the simulator of this machine is not asked at once: %v", err)
	}
	s.stopAsking(usual.address())
	if a := s.asked(t, usual.address(), now); a.By != ByItself {
		t.Errorf("%+v", a)
	}
}

// Where nothing is asked, a request says so.
func TestAskOfListener(t *testing.T) {
	l, _ := listen(t, t.Context(), Config{Addresses: []string{"127.0.0.1:0"}})
	if err := l.Ask(t.Context(), "127.0.0.1"); !errors.Is(err, ErrNotAsking) {
		t.Error(err)
	}
	if err := l.StopAsking(t.Context(), "127.0.0.1"); !errors.Is(err, ErrNotAsking) || len(l.Found().Asked) > 0 {
		t.Error(err)
	}
	sim := newSimulator(t)
	l, _ = listen(t, t.Context(), Config{Addresses: []string{"127.0.0.1:0"},
		Subscribe: Subscribe{Nearby: true, here: newSimulator(t).address(), Beacons: newSimulator(t).UDPConn}})
	if err := l.Ask(t.Context(), "a b"); err == nil {
		t.Error("it asks a b")
	}
	if err := l.Ask(t.Context(), sim.address().String()); err != nil || len(l.Found().Asked) != 2 {
		t.Errorf("%v, %+v", err, l.Found())
	}
	sim.take(len(xplane.Datarefs()))
	if err := l.StopAsking(t.Context(), sim.address().String()); err != nil || len(l.Found().Asked) != 1 {
		t.Errorf("%v, %+v", err, l.Found())
	}
}

// More sockets can be opened while it receives, and closed again.
func TestOpenMore(t *testing.T) {
	l, all := listen(t, t.Context(), Config{Addresses: []string{"127.0.0.1:0"}})
	if err := l.Open(t.Context(), []string{"127.0.0.1:0"}); err != nil {
		t.Fatal(err)
	}
	more := l.Addresses()
	if len(more) != 2 || !l.IsReachable() {
		t.Fatalf("it listens at %v", more)
	}
	if _, err := dial(t, more[1]).Write([]byte("here")); err != nil {
		t.Fatal(err)
	}
	if got := receive(t, all.got); got != "here" {
		t.Errorf("received %q", got)
	}
	if err := l.Open(t.Context(), []string{"nowhere"}); err == nil || len(l.Addresses()) != 1 {
		t.Errorf("%v, %v", err, l.Addresses())
	}
	if err := l.Open(t.Context(), []string{"127.0.0.1:0"}); err != nil {
		t.Fatal(err)
	}
	l.Shut()
	if len(l.Addresses()) != 1 || l.IsReachable() {
		t.Errorf("it listens at %v", l.Addresses())
	}
	l.Close()
	if err := l.Open(t.Context(), []string{"127.0.0.1:0"}); !errors.Is(err, ErrClosed) {
		t.Error(err)
	}
}
