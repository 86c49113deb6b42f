package ingest

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"net/netip"
	"slices"
	"sync/atomic"
	"time"
)

// A Reason says why a simulator is asked.
type Reason string

// The reasons.
const (
	ByItself   Reason = "itself"   // it would be on this machine; nobody named it
	ByBeacon   Reason = "beacon"   // it announces itself
	BySettings Reason = "settings" // the configuration or a flag names it
	ByPage     Reason = "page"     // somebody named it while the program runs
)

// A Finding is what is known of simulators that can be asked.
type Finding struct {
	Asked     []Asked
	Announced []Announced
}

// An Asked is a simulator that is asked for its values.
type Asked struct {
	Address netip.AddrPort
	By      Reason
	Name    string // as it announces itself; "" when it does not
	Answers bool   // its values come now
	Waited  time.Duration
}

// An Announced is a simulator whose beacon is heard.
type Announced struct {
	Address netip.AddrPort // where it can be asked
	Name    string
	Here    bool // it runs on this machine
}

// thisMachine is where a simulator on this machine is asked.
var thisMachine = netip.AddrPortFrom(netip.AddrFrom4([4]byte{127, 0, 0, 1}), simulatorPort)

const (
	// mostNamed is how many simulators pages may have asked at one time, and mostAnnounced how many beacons are
	// remembered, for anybody in the network can send them.
	mostNamed     = 8
	mostHere      = 4 // simulators on this machine that are asked by their beacons, which others could forge
	mostAnnounced = 16
	// sendsFor is how long after its last datagram a sender of this machine counts as sending by itself.
	sendsFor = 5 * time.Second
)

// Why a simulator is not asked.
var (
	// ErrNotAsking says that the configuration has nobody asked.
	ErrNotAsking = errors.New("no simulator is asked here; set the key nearby under [subscribe] to true")
	// ErrTooManyAsked says that pages have named as many simulators as they may.
	ErrTooManyAsked = errors.New("8 simulators are asked already; stop one of them first")
	// ErrPublic says that an address is none of a private network.
	ErrPublic = errors.New("it is no address of this machine or of a private network; name it with --subscribe")
)

type announced struct {
	name string
	here bool
	at   time.Time
}

// A local is what this machine's programs send by themselves: when the last datagram came, and the last row of data
// output, in Unix nanoseconds.
type local struct{ any, rows atomic.Int64 }

// overhear notes that a program on this machine sends by itself. A simulator that does so need not be asked, and would
// be at two stations.
func (s *subscriber) overhear(from netip.AddrPort, b []byte, received time.Time) {
	if !s.nearby || !s.isHere(from.Addr()) {
		return
	}
	s.others.any.Store(received.UnixNano())
	if bytes.HasPrefix(b, []byte("DATA")) {
		s.others.rows.Store(received.UnixNano())
	}
}

// waits reports whether a simulator that nobody named is left alone now, because one sends by itself. mu is held.
func (s *subscriber) waits(t *target, now time.Time) bool {
	if !s.nearby || t.told() {
		return false
	}
	lately := func(at *atomic.Int64) bool { return now.UnixNano()-at.Load() < int64(sendsFor) }
	answers := now.Sub(t.replied) < askSilent
	switch {
	case lately(&s.others.rows):
		if answers {
			s.end(t)
			t.replied = time.Time{}
		}
		return true
	case t.by == ByItself && !answers && s.announcedHere(now): // asked at the port that its beacon names
		return true
	}
	return !answers && lately(&s.others.any)
}

// announcedHere reports whether a simulator on this machine announces another port than the usual one. mu is held.
func (s *subscriber) announcedHere(now time.Time) bool {
	for a, k := range s.announced {
		if k.here && a.Port() != s.here.Port() && now.Sub(k.at) < askGone {
			return true
		}
	}
	return false
}

// isHere reports whether an address is one of this machine's.
func (s *subscriber) isHere(a netip.Addr) bool {
	return a.IsLoopback() || slices.ContainsFunc(s.own, func(p netip.Prefix) bool { return p.Addr() == a })
}

// add makes a target, unless there is one. mu is held.
func (s *subscriber) add(to netip.AddrPort, by Reason, now time.Time) *target {
	if t := s.targets[to]; t != nil {
		return t
	}
	t := &target{address: to, by: by, since: now, seen: make([]bool, len(s.refs))}
	s.targets[to] = t
	return t
}

// count counts the targets of a reason. mu is held.
func (s *subscriber) count(by Reason) (n int) {
	for _, t := range s.targets {
		if t.by == by {
			n++
		}
	}
	return n
}

// end asks a simulator to stop, if it was ever asked for everything. mu is held.
func (s *subscriber) end(t *target) {
	if !t.asked.IsZero() && !(t.by == ByItself && t.replied.IsZero()) {
		s.send(t, 0, func(int) bool { return true })
	}
}

// announce remembers a beacon. mu is held.
func (s *subscriber) announce(at netip.AddrPort, name string, here bool, now time.Time) {
	for a, k := range s.announced {
		if now.Sub(k.at) > askGone {
			delete(s.announced, a)
		}
	}
	if _, known := s.announced[at]; known || len(s.announced) < mostAnnounced {
		s.announced[at] = announced{name, here, now}
	}
}

// found says what is asked and heard at a moment.
func (s *subscriber) found(now time.Time) (f Finding) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, t := range s.targets {
		f.Asked = append(f.Asked, Asked{
			Address: t.address,
			By:      t.by,
			Name:    t.name,
			Answers: now.Sub(t.replied) < askSilent,
			Waited:  now.Sub(t.since),
		})
	}
	for a, k := range s.announced {
		if now.Sub(k.at) < askGone {
			f.Announced = append(f.Announced, Announced{Address: a, Name: k.name, Here: k.here})
		}
	}
	slices.SortFunc(f.Asked, func(a, b Asked) int { return a.Address.Compare(b.Address) })
	slices.SortFunc(f.Announced, func(a, b Announced) int {
		return cmp.Or(a.Address.Compare(b.Address), cmp.Compare(a.Name, b.Name))
	})
	return f
}

// askNow asks a simulator at once, whether or not it was asked before.
func (s *subscriber) askNow(to netip.AddrPort, now time.Time) error {
	if !to.Addr().IsLoopback() && !to.Addr().IsPrivate() && !to.Addr().IsLinkLocalUnicast() && !s.isHere(to.Addr()) {
		return ErrPublic
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	t := s.targets[to]
	if t == nil {
		if s.count(ByPage) >= mostNamed {
			return ErrTooManyAsked
		}
		s.senders.allowAlso(netip.PrefixFrom(to.Addr(), to.Addr().BitLen()))
		t = s.add(to, ByPage, now)
	}
	if t.by == ByItself {
		t.by = ByPage
	}
	t.since, t.silent = now, false
	if now.Sub(t.replied) >= askSilent {
		t.asked = time.Time{} // so that the next step asks
	}
	return nil
}

// stopAsking forgets a simulator that a page named, and asks it to stop.
func (s *subscriber) stopAsking(to netip.AddrPort) {
	s.mu.Lock()
	defer s.mu.Unlock()
	t := s.targets[to]
	if t == nil || t.by != ByPage {
		return
	}
	s.end(t)
	delete(s.targets, to)
	if s.nearby && to == s.here {
		s.add(to, ByItself, time.Now())
	}
}

// Found says which simulators are asked, and whose beacons are heard.
func (l *Listener) Found() Finding {
	if l.asker == nil {
		return Finding{}
	}
	return l.asker.found(time.Now())
}

// Ask has a simulator asked for its values from now on, at HOST or HOST:PORT. The error says what is wrong with the
// address, or is ErrNotAsking, ErrTooManyAsked or ErrPublic.
func (l *Listener) Ask(ctx context.Context, address string) error {
	if l.asker == nil {
		return ErrNotAsking
	}
	to, err := simulatorAddress(ctx, address)
	if err != nil {
		return err
	}
	return l.asker.askNow(to, time.Now())
}

// StopAsking has a simulator that Ask named asked no more. It does nothing for any other.
func (l *Listener) StopAsking(ctx context.Context, address string) error {
	if l.asker == nil {
		return ErrNotAsking
	}
	to, err := simulatorAddress(ctx, address)
	if err == nil {
		l.asker.stopAsking(to)
	}
	return err
}
