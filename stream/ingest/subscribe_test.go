package ingest

import (
	"encoding/binary"
	"math"
	"net"
	"net/netip"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"halfturn/stream/ingest/socket"
	"halfturn/stream/quiet"
	"halfturn/stream/wire/xplane"
)

// A request as a simulator reads it: 413 bytes, "RREF" and a zero byte, the rate and the index in
// four bytes each, the name in 400 (Laminar Research, "Exchanging Data with X-Plane").
type request struct {
	rate, index int32
	name        string
}

// A simulator stands for one: it takes requests on a socket of the loopback.
type simulator struct {
	*net.UDPConn
	t     *testing.T
	asker netip.AddrPort // who asked last
}

func newSimulator(t *testing.T) *simulator {
	t.Helper()
	c, err := net.ListenUDP("udp4", net.UDPAddrFromAddrPort(from(0)))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Close() })
	return &simulator{UDPConn: c, t: t}
}

func (s *simulator) address() netip.AddrPort { return socket.Local(s.UDPConn) }

// take reads the next n requests.
func (s *simulator) take(n int) []request {
	s.t.Helper()
	list := []request{}
	b := make([]byte, 2000)
	for range n {
		if err := s.SetReadDeadline(time.Now().Add(10 * time.Second)); err != nil {
			s.t.Fatal(err)
		}
		size, from, err := s.ReadFromUDPAddrPort(b)
		if err != nil {
			s.t.Fatalf("after %d requests: %v", len(list), err)
		}
		if size != 413 || string(b[:5]) != "RREF\x00" {
			s.t.Fatalf("a request of %d bytes: %q", size, b[:min(size, 20)])
		}
		s.asker = from
		name, _, ended := strings.Cut(string(b[13:413]), "\x00")
		if !ended {
			s.t.Fatal("a name without end")
		}
		list = append(list, request{int32(binary.LittleEndian.Uint32(b[5:])), int32(binary.LittleEndian.Uint32(b[9:])),
			name})
	}
	return list
}

// nothing makes sure that no request is waiting: on the loopback what was sent is there.
func (s *simulator) nothing() {
	s.t.Helper()
	if err := s.SetReadDeadline(time.Now().Add(time.Millisecond)); err != nil {
		s.t.Fatal(err)
	}
	if n, _, err := s.ReadFromUDPAddrPort(make([]byte, 2000)); err == nil {
		s.t.Errorf("a request of %d bytes too many", n)
	}
}

// replies is a datagram with values of the given indices.
func replies(index ...int) []byte {
	b := []byte("RREF,")
	for _, i := range index {
		b = binary.LittleEndian.AppendUint32(b, uint32(i))
		b = binary.LittleEndian.AppendUint32(b, math.Float32bits(float32(i)+0.5))
	}
	return b
}

func everything() []int {
	list := make([]int, len(xplane.Datarefs()))
	for i := range list {
		list[i] = i
	}
	return list
}

// notes collects what was told and warned of.
type notes struct {
	mu   sync.Mutex
	list []string
}

func (n *notes) add(s string) {
	n.mu.Lock()
	defer n.mu.Unlock()
	n.list = append(n.list, s)
}

func (n *notes) have(part string) bool {
	n.mu.Lock()
	defer n.mu.Unlock()
	return slices.ContainsFunc(n.list, func(s string) bool { return strings.Contains(s, part) })
}

// newAsker makes a subscriber whose time is the test's.
func newAsker(t *testing.T, o Subscribe) (*subscriber, *notes) {
	t.Helper()
	n := &notes{}
	config := Config{Tell: n.add, Warn: func(err error) { n.add(err.Error()) }}
	config.fill()
	h := newSenders(config, func(netip.AddrPort) Handler { return deaf{} })
	s, err := subscribe(t.Context(), o, h)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(h.close)
	return s, n
}

// The whole life of a subscription, by a clock of the test's: asked at once for every value,
// not again while all of them come, for what never came a few times, for everything after a
// silence, and to stop at the end.
func TestSubscription(t *testing.T) {
	sim := newSimulator(t)
	s, told := newAsker(t, Subscribe{Addresses: []string{sim.address().String()}, Rate: 50})
	refs, now := xplane.Datarefs(), time.Unix(1000, 0)
	if len(refs) < 20 || len(refs) > 100 {
		t.Fatalf("%d values; at most 100 may be asked for at once", len(refs))
	}
	after := func(d time.Duration) { now = now.Add(d); s.step(now) }
	s.step(now)
	for i, r := range sim.take(len(refs)) {
		if r != (request{50, int32(i), refs[i].Name}) {
			t.Errorf("request %d: %+v", i, r)
		}
	}
	after(time.Second)
	sim.nothing() // it may take a moment to answer

	for range 20 { // five seconds of everything
		s.reply(sim.address(), replies(everything()...), now)
		after(askEvery)
	}
	sim.nothing()

	after(3 * time.Second) // the simulator was started again
	if got := sim.take(len(refs)); got[0].rate != 50 {
		t.Errorf("asked again: %+v", got[0])
	}
	for range 80 { // and does not know one value
		s.reply(sim.address(), replies(everything()[1:]...), now)
		after(askEvery)
	}
	for range askRounds {
		if r := sim.take(1)[0]; r.index != 0 || r.rate != 50 {
			t.Errorf("asked for %+v, only the first never came", r)
		}
	}
	sim.nothing()

	s.close()
	for i, r := range sim.take(len(refs)) {
		if r.rate != 0 || r.index != int32(i) {
			t.Errorf("at the end: %+v", r)
		}
	}
	s.step(now.Add(time.Hour))
	sim.nothing()
	if !told.have("asking the simulator at " + sim.address().String()) {
		t.Errorf("told %q", told.list)
	}
}

// A simulator that is not there is asked again and again, and the user is told once.
func TestSubscriptionUnanswered(t *testing.T) {
	sim := newSimulator(t)
	s, told := newAsker(t, Subscribe{Addresses: []string{sim.address().String()}})
	now := time.Unix(1000, 0)
	s.targets[sim.address()].since = now
	for range 30 { // every two seconds
		s.step(now)
		sim.take(len(s.refs))
		s.step(now.Add(askSilent - askEvery))
		now = now.Add(askSilent)
	}
	sim.nothing()
	warned := 0
	for _, n := range told.list {
		if strings.Contains(n, "does not answer; is a flight loaded there") {
			warned++
		}
	}
	if warned != 1 {
		t.Errorf("told %q", told.list)
	}
	s.reply(sim.address(), replies(0), now)
	if !told.have("answers") {
		t.Errorf("told %q", told.list)
	}
	s.reply(netip.MustParseAddrPort("192.0.2.7:49000"), replies(0), now) // RFC 5737: an address of no machine
	if s.senders.all[netip.MustParseAddrPort("192.0.2.7:49000")] != nil {
		t.Error("a reply that was not asked for got a handler")
	}
	s.close()
}

// Through the Listener and real sockets: the simulator is asked, its replies reach a handler, and
// closing stops it.
func TestListenSubscribed(t *testing.T) {
	sim := newSimulator(t)
	l, all := listen(t, t.Context(), Config{Addresses: []string{"127.0.0.1:0"},
		Subscribe: Subscribe{Addresses: []string{sim.address().String()}}})
	n := len(xplane.Datarefs())
	sim.take(n)
	want := string(replies(everything()...))
	if _, err := sim.WriteToUDPAddrPort([]byte(want), sim.asker); err != nil {
		t.Fatal(err)
	}
	if got := receive(t, all.got); got != want {
		t.Errorf("%d bytes reached the handler", len(got))
	}
	if got := l.Senders(); len(got) != 1 || got[0] != sim.address() {
		t.Errorf("stations %v, want the simulator %v", got, sim.address())
	}
	l.Close()
	for _, r := range sim.take(n) {
		if r.rate != 0 {
			t.Fatalf("at the end: %+v", r)
		}
	}
}

// beaconOf is a beacon as documented: five letters, version 1.2, host, version of the simulator, role,
// port, name.
func beaconOf(major byte, host, role uint32, port uint16) []byte {
	b := append([]byte("BECN\x00"), major, 2)
	b = binary.LittleEndian.AppendUint32(b, host)
	b = binary.LittleEndian.AppendUint32(b, 120100)
	b = binary.LittleEndian.AppendUint32(b, role)
	b = binary.LittleEndian.AppendUint16(b, port)
	return append(b, "station three\x00\x00\x00"...)
}

// A simulator that tells of itself is asked without an address being given.
func TestDiscovery(t *testing.T) {
	group, sim := newSimulator(t), newSimulator(t) // the first stands for the group's socket
	told := &notes{}
	l, _ := listen(t, t.Context(), Config{Addresses: []string{"127.0.0.1:0"}, Tell: told.add,
		Subscribe: Subscribe{Discover: true, Beacons: group.UDPConn}})
	c := dial(t, group.address())
	for _, b := range [][]byte{
		// none of them is a simulator's
		[]byte("BECN"), {}, beaconOf(2, 1, 1, 1), beaconOf(1, 2, 1, 1), beaconOf(1, 1, 2, 1), beaconOf(1, 1, 1, 0),
		beaconOf(1, 1, 1, sim.address().Port()), beaconOf(1, 1, 1, sim.address().Port()),
	} {
		if _, err := c.Write(b); err != nil {
			t.Fatal(err)
		}
	}
	if got := sim.take(len(xplane.Datarefs())); got[0].rate != 30 {
		t.Errorf("asked %+v", got[0])
	}
	if !told.have(`found the simulator "station three" (version 120100) at ` + sim.address().String()) {
		t.Errorf("told %q", told.list)
	}
	if n := len(l.asker.targets); n != 1 {
		t.Errorf("%d simulators found", n)
	}
	l.Close()
}

// Beacons from outside the allowed networks are refused, many fill no memory, one that falls
// silent is forgotten, and this machine's simulator is not asked twice.
func TestDiscoveryBounds(t *testing.T) {
	s, told := newAsker(t, Subscribe{Discover: true, Beacons: newSimulator(t).UDPConn})
	now := time.Unix(1000, 0)
	for i := range 100 {
		s.beacon(stranger(i), beaconOf(1, 1, 1, 49000), now)
	}
	if len(s.targets) != 0 || !told.have("datagrams from 203.0.113.0 are refused") || len(told.list) != quiet.Senders {
		t.Errorf("%d simulators, told %d", len(s.targets), len(told.list))
	}
	for i := range 5000 {
		s.beacon(from(1), beaconOf(1, 1, 1, uint16(i+1)), now)
	}
	if len(s.targets) != s.senders.config.MaxStations {
		t.Errorf("%d simulators", len(s.targets))
	}
	s.step(now.Add(askGone + time.Second))
	if len(s.targets) != 0 || !told.have("is gone") {
		t.Errorf("%d simulators after the silence", len(s.targets))
	}
	if n := len(told.list); n > 4*quiet.Senders { // refused, found, asked and gone
		t.Errorf("%d lines about 5,000 beacons", n)
	}
	s.close()

	s, _ = newAsker(t, Subscribe{Addresses: []string{"127.0.0.1"}, Discover: true, Beacons: newSimulator(t).UDPConn})
	s.own = []netip.Prefix{netip.MustParsePrefix("192.168.7.9/24")}
	s.senders.setAllowed(append(s.senders.allowed(), netip.MustParsePrefix("192.168.7.0/24")))
	s.beacon(netip.MustParseAddrPort("192.168.7.9:49707"), beaconOf(1, 1, 1, 49000), now)
	s.beacon(netip.MustParseAddrPort("192.168.7.8:49707"), beaconOf(1, 1, 1, 49000), now)
	if len(s.targets) != 2 || s.targets[netip.MustParseAddrPort("192.168.7.8:49000")] == nil {
		t.Errorf("asking %v", s.targets)
	}
	s.close()
}

func TestSubscribeErrors(t *testing.T) {
	for address, want := range map[string]string{
		"127.0.0.1:0":          "must be HOST or HOST:PORT, such as 192.168.1.20",
		"127.0.0.1:x":          "must be HOST or HOST:PORT",
		"":                     "must be HOST or HOST:PORT",
		"no-such-host.invalid": "the name no-such-host.invalid is not known: give the address in numbers", // RFC 2606
	} {
		_, err := Listen(t.Context(), Config{Addresses: []string{"127.0.0.1:0"},
			Subscribe: Subscribe{Addresses: []string{address}}}, nil)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v; must be %s", address, err, want)
		}
	}
	to, err := simulatorAddress(t.Context(), "::1")
	if err != nil || to != netip.MustParseAddrPort("[::1]:49000") {
		t.Errorf("IPv6: %v, %v", to, err)
	}
}

// A reply may be forged: an index beyond what was asked for, as great as 32 bits can say, marks nothing.
func TestForgedRepliesMarkNothing(t *testing.T) {
	for _, index := range []uint32{2, 1 << 16, 1 << 31, 1<<32 - 1} {
		asked := &target{seen: make([]bool, 2)}
		b := []byte("RREF,")
		b = binary.LittleEndian.AppendUint32(b, index)
		b = append(b, 0, 0, 128, 63)
		asked.note(b, time.Now())
		if slices.Contains(asked.seen, true) {
			t.Errorf("a reply with the index %d marks %v", index, asked.seen)
		}
	}
}
