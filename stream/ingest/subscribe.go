package ingest

import (
	"context"
	"encoding/binary"
	"fmt"
	"net"
	"net/netip"
	"slices"
	"strconv"
	"sync"
	"time"

	"halfturn/stream/ingest/network"
	"halfturn/stream/ingest/socket"
	"halfturn/stream/wire/xplane"
)

// Subscribe says which simulators are asked for their values. The zero value asks none.
//
// X-Plane answers a request (RREF) by sending the value at the rate that was asked for, to the address and port of the
// request, until it is asked to stop (Laminar Research, "Exchanging Data with X-Plane"). A request is one datagram that
// can be lost, and a restarted simulator has forgotten all of them, so requests must be repeated.
type Subscribe struct {
	Addresses []string // HOST or HOST:PORT of simulators
	Discover  bool     // ask every simulator that announces itself by its beacon
	Nearby    bool     // ask the simulator of this machine, where none sends by itself
	Rate      int      // values per second; 30

	Beacons socket.Source // where beacons are read; the multicast group's own socket when nil

	here netip.AddrPort // where the simulator of this machine would be; thisMachine, but for tests
}

// beaconGroup is where X-Plane announces itself once a second.
var beaconGroup = netip.MustParseAddrPort("239.255.1.1:49707")

// simulatorPort is where X-Plane takes requests unless its settings say another.
const simulatorPort = 49000

// The times at which requests are repeated: common practice, no source. Requests of one round stay below the hundred
// that may be sent at once.
const (
	askSilent  = 2 * time.Second  // silence after which everything is asked for again
	askMissing = 3 * time.Second  // after which values that never arrived are asked for again ...
	askRounds  = 3                // ... at most this number of times, as the simulator may not know them
	askTell    = 10 * time.Second // silence from the beginning after which the user is informed
	askGone    = 15 * time.Second // without beacon and reply: a discovered simulator is forgotten
	askGivenUp = 15 * time.Minute // without reply: one that a page named is forgotten
	askEvery   = 250 * time.Millisecond
)

// A subscriber asks simulators and takes their replies on a socket of its own.
type subscriber struct {
	conn    *net.UDPConn
	inlet   *inlet // of conn
	beacons socket.Source
	senders *senders
	rate    int
	refs    []xplane.Dataref
	own     []netip.Prefix
	nearby  bool
	here    netip.AddrPort
	others  local // what else this machine sends
	running sync.WaitGroup
	stop    chan struct{}

	mu        sync.Mutex
	targets   map[netip.AddrPort]*target
	announced map[netip.AddrPort]announced
}

// A target is one simulator that is asked.
type target struct {
	address netip.AddrPort
	by      Reason
	name    string // as it announces itself
	since   time.Time
	asked   time.Time
	heard   time.Time // a beacon
	replied time.Time
	knocked bool // one value alone was asked for, to see whether anybody is there
	rounds  int  // of asking for what is missing
	seen    []bool
	silent  bool // the silence was reported
}

// told reports whether a person named the simulator.
func (t *target) told() bool { return t.by == BySettings || t.by == ByPage }

// subscribe opens the sockets and resolves the addresses; nil when there is none to ask.
func subscribe(ctx context.Context, o Subscribe, h *senders) (*subscriber, error) {
	if len(o.Addresses) == 0 && !o.Discover && !o.Nearby {
		return nil, nil
	}
	setDefault(&o.Rate, 30)
	s := &subscriber{
		senders:   h,
		rate:      o.Rate,
		refs:      xplane.Datarefs(),
		own:       network.Own(),
		nearby:    o.Nearby,
		stop:      make(chan struct{}),
		targets:   map[netip.AddrPort]*target{},
		announced: map[netip.AddrPort]announced{},
	}
	now := time.Now()
	for _, a := range o.Addresses {
		to, err := simulatorAddress(ctx, a)
		if err != nil {
			return nil, err
		}
		s.add(to, BySettings, now)
	}
	if s.here = o.here; !s.here.IsValid() {
		s.here = thisMachine
	}
	if o.Nearby {
		s.add(s.here, ByItself, now)
	}
	conn, err := net.ListenUDP("udp", nil)
	if err != nil {
		return nil, fmt.Errorf("no socket to ask the simulator from: %w", err)
	}
	s.conn = conn
	s.inlet = h.inlet("replies")
	if !o.Discover && !o.Nearby {
		return s, nil
	}
	if s.beacons = o.Beacons; s.beacons == nil {
		b, err := socket.Group(ctx, beaconGroup)
		if err != nil && !o.Discover {
			return s, nil // the simulator's usual port is asked all the same
		}
		if err != nil {
			conn.Close()
			return nil, fmt.Errorf("the simulator's beacon cannot be heard (%w); give the simulator's address "+
				"instead of auto, such as --subscribe 127.0.0.1", err)
		}
		s.beacons = b
	}
	return s, nil
}

// simulatorAddress reads HOST or HOST:PORT.
func simulatorAddress(ctx context.Context, a string) (netip.AddrPort, error) {
	host, port, err := net.SplitHostPort(a)
	if err != nil {
		host, port = a, strconv.Itoa(simulatorPort)
	}
	n, err := strconv.ParseUint(port, 10, 16)
	if err != nil || n == 0 || host == "" {
		return netip.AddrPort{}, fmt.Errorf("simulator address is %q; must be HOST or HOST:PORT, such as "+
			"192.168.1.20 or "+
			"192.168.1.20:%d", a, simulatorPort)
	}
	ips, err := net.DefaultResolver.LookupNetIP(ctx, "ip", host)
	if err != nil || len(ips) == 0 {
		return netip.AddrPort{}, fmt.Errorf("simulator address %q: the name %s is not known: give the address in "+
			"numbers, such as 192.168.1.20", a, host)
	}
	best := slices.IndexFunc(ips, func(ip netip.Addr) bool { return ip.Unmap().Is4() }) // the simulator listens there
	return netip.AddrPortFrom(ips[max(best, 0)].Unmap(), uint16(n)), nil
}

// networks are those of the simulators that the user named, from whom replies are taken.
func (s *subscriber) networks() []netip.Prefix {
	var list []netip.Prefix
	for a := range s.targets {
		list = append(list, netip.PrefixFrom(a.Addr(), a.Addr().BitLen()))
	}
	return list
}

// start begins to ask and to listen.
func (s *subscriber) start() {
	s.running.Go(s.ask)
	replies := socket.Sink{
		Take: s.reply,
		Lost: func(n uint64) { s.senders.lose(s.inlet, n) },
		Warn: s.senders.config.Warn,
	}
	s.running.Go(func() { socket.Receive(s.conn, replies) })
	if s.beacons != nil {
		if !s.nearby {
			s.senders.config.Tell(fmt.Sprintf("waiting for the beacon of a simulator on %v", beaconGroup))
		}
		s.running.Go(func() { socket.Receive(s.beacons, socket.Sink{Take: s.beacon, Warn: s.senders.config.Warn}) })
	}
}

// close asks every simulator to stop, and ends.
func (s *subscriber) close() {
	close(s.stop)
	s.mu.Lock()
	for _, t := range s.targets {
		s.end(t)
	}
	s.mu.Unlock()
	socket.Drain(s.conn)
	if s.beacons != nil {
		s.beacons.Close()
	}
	s.running.Wait()
	s.conn.Close()
}

func (s *subscriber) ask() {
	ticker := time.NewTicker(askEvery)
	defer ticker.Stop()
	for now := time.Now(); ; {
		s.step(now)
		select {
		case <-s.stop:
			return
		case now = <-ticker.C:
		}
	}
}

// step sends the requests that are due.
func (s *subscriber) step(now time.Time) {
	s.mu.Lock()
	defer s.mu.Unlock()
	select {
	case <-s.stop: // the simulators were asked to stop
		return
	default:
	}
	for _, t := range s.targets {
		switch {
		case t.by == ByBeacon && now.Sub(t.heard) > askGone && now.Sub(t.replied) > askGone:
			s.tell(t, "gone", "the simulator at %v is gone", t.address)
			delete(s.targets, t.address)
		case t.by == ByPage && now.Sub(t.since) > askGivenUp && now.Sub(t.replied) > askGivenUp:
			delete(s.targets, t.address)
		case s.waits(t, now):
		default:
			s.stepOne(t, now)
		}
	}
}

func (s *subscriber) stepOne(t *target, now time.Time) {
	all := func(int) bool { return true }
	switch {
	case now.Sub(t.replied) >= askSilent:
		if now.Sub(t.asked) < askSilent {
			return
		}
		t.knocked = t.by == ByItself
		if t.asked.IsZero() && !t.knocked {
			s.tell(t, "asked", "asking the simulator at %v for %d values, %d times a second", t.address, len(s.refs),
				s.rate)
		}
		t.rounds = 0
		clear(t.seen)
		s.send(t, int32(s.rate), func(i int) bool { return !t.knocked || i == 0 })
	case t.knocked: // somebody is there
		t.knocked = false
		s.tell(t, "asked", "a simulator answers at %v", t.address)
		s.send(t, int32(s.rate), all)
	case now.Sub(t.asked) >= askMissing && t.rounds < askRounds && slices.Contains(t.seen, false):
		t.rounds++
		s.send(t, int32(s.rate), func(i int) bool { return !t.seen[i] })
	default:
		return
	}
	t.asked = now
	s.sayMute(t, now)
}

// sayMute warns once of a simulator that a person named and that does not answer.
func (s *subscriber) sayMute(t *target, now time.Time) {
	quiet := max(now.Sub(t.replied), 0)
	if t.silent || quiet < askTell || now.Sub(t.since) < askTell {
		return
	}
	t.silent = true
	if t.by == ByItself {
		return
	}
	s.senders.quiet.Say("silent", t.address.String(), func(int) {
		s.senders.config.Warn(fmt.Errorf("the simulator at %v does not answer; is a flight loaded there, and are "+
			"address and port (%d unless its network settings say another) right? Asking on",
			t.address, simulatorPort))
	})
}

// tell reports a change of a simulator. Beacons can be forged, so the log is kept short.
func (s *subscriber) tell(t *target, what, format string, args ...any) {
	s.senders.quiet.Say(what, t.address.String(), func(int) { s.senders.config.Tell(fmt.Sprintf(format, args...)) })
}

// send sends the requests. Whether they arrive shows in the replies.
func (s *subscriber) send(t *target, rate int32, which func(int) bool) {
	var b []byte
	for i := range s.refs {
		if which(i) {
			b = xplane.AppendRequest(b[:0], rate, int32(i), s.refs[i].Name)
			_, _ = s.conn.WriteToUDPAddrPort(b, t.address)
		}
	}
}

// reply takes a datagram on the socket that asks.
func (s *subscriber) reply(from netip.AddrPort, b []byte, now time.Time) {
	s.mu.Lock()
	t := s.targets[from]
	for a, other := range s.targets { // some answer from another port
		if t == nil && a.Addr() == from.Addr() {
			t = other
		}
	}
	if t != nil {
		t.note(b, now)
		if t.silent {
			t.silent = false
			s.tell(t, "answers", "the simulator at %v answers", t.address)
		}
	}
	s.mu.Unlock()
	if t == nil {
		s.senders.config.Metrics.unasked.Inc()
		return
	}
	s.senders.deliver(s.inlet, from, b, now)
}

// note remembers which values came. A reply is five bytes and pairs of index and value, four
// bytes each.
func (t *target) note(b []byte, now time.Time) {
	if len(b) < 13 || string(b[:4]) != "RREF" {
		return
	}
	t.replied = now
	for p := b[5:]; len(p) >= 8; p = p[8:] {
		if i := binary.LittleEndian.Uint32(p); i < uint32(len(t.seen)) { // as an int it may be negative
			t.seen[i] = true
		}
	}
}

// The values of a beacon's members that matter.
const (
	beaconSimulator = 1 // not the aircraft editor
	beaconMaster    = 1 // not a further screen or an instructor's station
)

// beacon takes a datagram of the group.
func (s *subscriber) beacon(from netip.AddrPort, b []byte, now time.Time) {
	k, err := xplane.DecodeBeacon(b)
	if err != nil || k.Host != beaconSimulator || k.Role != beaconMaster || k.Port == 0 {
		return
	}
	address := netip.AddrPortFrom(from.Addr(), k.Port)
	s.mu.Lock()
	defer s.mu.Unlock()
	here := s.isHere(address.Addr())
	s.announce(address, k.Name, here, now)
	if s.nearby {
		if !here {
			return // another machine is asked only when a person says so
		}
		address = netip.AddrPortFrom(s.here.Addr(), k.Port)
	}
	if !s.senders.allowed().Contains(address.Addr()) {
		s.senders.refuse(address.Addr())
		return
	}
	t := s.targets[address]
	if t == nil {
		full := len(s.targets) >= s.senders.config.MaxStations || s.nearby && s.count(ByBeacon) >= mostHere
		if full || s.isToldHere(address.Addr()) {
			return
		}
		t = s.add(address, ByBeacon, now)
		s.tell(t, "found", "found the simulator %q (version %d) at %v", k.Name, k.Version, address)
	}
	t.heard, t.name = now, k.Name
}

// isToldHere reports whether an address is this machine's own and the user already named the simulator on it by its
// loopback address: it would be asked twice.
func (s *subscriber) isToldHere(a netip.Addr) bool {
	if !s.isHere(a) {
		return false
	}
	for to, t := range s.targets {
		if t.told() && to.Addr().IsLoopback() {
			return true
		}
	}
	return false
}
