// Package ingest receives datagrams: it listens on UDP sockets, tells the stations apart by
// the sender's address, and gives each station its own goroutine and bounded queue, so that
// a slow one costs the others nothing.
//
// Memory is bounded whatever arrives: so many stations, so many datagrams and bytes waiting
// for each. What does not fit is dropped and counted.
package ingest

import (
	"context"
	"errors"
	"fmt"
	"net/netip"
	"slices"
	"sync"
	"time"
)

// A Seat is what is behind one station. All calls for one station come from one goroutine.
type Seat interface {
	// Datagram takes one datagram; b is valid only during the call.
	Datagram(b []byte, received time.Time)
	// Tick is called about four times a second, whether datagrams come or not.
	Tick(now time.Time)
	// End is the last call, made exactly once.
	End()
}

// A Prover is a Seat that can tell whether anything useful ever came. One that says no is
// given up after Config.Unproven instead of Config.Idle, so that junk from many ports does
// not keep the places of real stations.
type Prover interface {
	Proven() bool
}

// A Factory makes the Seat of a sender not known yet. It is called in the station's
// goroutine and may take its time.
type Factory func(address netip.AddrPort) Seat

// Config is what a Listener is told. Zero fields take the defaults.
type Config struct {
	Addresses   []string       // HOST:PORT each, IPv4 or IPv6; port 0 lets the system choose; a multicast group is joined
	Allow       []netip.Prefix // whose datagrams are taken, beside loopback; empty: the machine's own private networks
	Known       []netip.Addr   // senders that get a seat even when MaxStations is reached
	MaxRate     int            // datagrams a second of one sender, what is more is dropped; 0: no limit
	MaxStations int            // at one time; 1024
	Idle        time.Duration  // a station that is silent so long ends; 1 min
	Unproven    time.Duration  // the same for one that never sent anything useful; 5 s
	Queue       int            // datagrams that may wait for one station; 256
	Tick        time.Duration  // between calls of Seat.Tick; 250 ms
	Receive     int            // bytes of receive buffer asked of the operating system per socket; 4 MiB
	Metrics     *Metrics       // counters; unregistered ones when nil
	Warn        func(error)    // takes what went wrong and could be lived with; dropped when nil
	Tell        func(string)   // takes what a user may want to know; dropped when nil
	Subscribe   Subscribe      // simulators that are asked for their values
}

func (c *Config) fill() {
	setDefault(&c.MaxStations, 1024)
	setDefault(&c.Idle, time.Minute)
	setDefault(&c.Unproven, 5*time.Second)
	setDefault(&c.Queue, 256)
	setDefault(&c.Tick, 250*time.Millisecond)
	setDefault(&c.Receive, 4<<20)
	if c.Metrics == nil {
		c.Metrics, _ = NewMetrics(nil) // without a registry it cannot fail
	}
	if c.Warn == nil {
		c.Warn = func(error) {}
	}
	if c.Tell == nil {
		c.Tell = func(string) {}
	}
}

func setDefault[T int | time.Duration](v *T, to T) {
	if *v <= 0 {
		*v = to
	}
}

// A Listener is the set of open sockets and their stations.
type Listener struct {
	hub     *hub
	sockets []socket
	where   []netip.AddrPort // in the order of Config.Addresses
	asker   *subscriber      // nil when no simulator is asked
	readers sync.WaitGroup
	close   sync.Once
	detach  func() bool
	done    chan struct{}
	wait    time.Duration // closeWait
}

// Listen opens every address and begins to receive. Cancelling ctx closes the Listener.
// When an address cannot be had, none is kept and the error says what to do.
func Listen(ctx context.Context, config Config, factory Factory) (*Listener, error) {
	config.fill()
	if len(config.Addresses) == 0 {
		return nil, errors.New("no UDP address to listen on: give at least one, such as 127.0.0.1:7181")
	}
	sockets, where, err := openAll(ctx, &config)
	if err != nil {
		return nil, err
	}
	l := &Listener{hub: newHub(config, factory), sockets: sockets, where: where,
		done: make(chan struct{}), wait: closeWait}
	if l.asker, err = subscribe(ctx, config.Subscribe, l.hub); err != nil {
		closeAll(sockets)
		return nil, err
	}
	l.hub.allow = allowed(config.Allow, l.reachable() || config.Subscribe.Discover, ownNetworks())
	if l.asker != nil {
		l.hub.allow = append(l.hub.allow, l.asker.networks()...)
	}
	for _, s := range l.sockets {
		if err := enlarge(s.UDPConn, config.Receive); err != nil {
			config.Warn(err)
		}
	}
	for _, s := range l.sockets {
		l.readers.Go(func() { pump(s.UDPConn, config.Warn, l.hub.deliver) })
	}
	if l.asker != nil {
		l.asker.start()
	}
	l.detach = context.AfterFunc(ctx, l.shut)
	return l, nil
}

// reachable tells whether datagrams of other machines can arrive.
func (l *Listener) reachable() bool {
	return slices.ContainsFunc(l.where, func(a netip.AddrPort) bool { return !a.Addr().IsLoopback() })
}

// Addresses returns where datagrams are taken, in the order of the Config: local addresses of the
// sockets, and the groups joined.
func (l *Listener) Addresses() []netip.AddrPort { return slices.Clone(l.where) }

// Allowed returns the networks whose datagrams are taken.
func (l *Listener) Allowed() []netip.Prefix { return slices.Clone(l.hub.allow) }

// Stations returns the addresses of the senders that have a seat, in no order.
func (l *Listener) Stations() []netip.AddrPort { return l.hub.addresses() }

// Refused says who was refused a seat last, as there were as many as Config.MaxStations allows.
func (l *Listener) Refused() Refusal { return l.hub.lastRefused() }

// Do runs f with the seat of one sender, in the station's goroutine, and returns when it has run. The error is
// ErrNoSeat, and f not run, when the sender has no seat, also while that is being made or is ending; it is the cause
// of ctx when the seat had no time for f as long as ctx lasted. A Factory may call it, also for a sender whose own
// Factory is at work: that one has no seat yet. A Seat must not call it.
func (l *Listener) Do(ctx context.Context, address netip.AddrPort, f func(Seat)) error {
	return l.hub.do(ctx, address, f)
}

// End is Do for a seat that may have to end: where f returns true, the seat is given nothing more, and End returns when
// its End has returned, or ctx is over. The next datagram of the sender makes a new seat.
func (l *Listener) End(ctx context.Context, address netip.AddrPort, f func(Seat) bool) error {
	return l.hub.end(ctx, address, f)
}

// closeWait is how long Close waits. Seats end within moments, many at once on a slow and busy disk within half a
// minute; a disk that does not answer could hold them for ever.
const closeWait = time.Minute

// Close stops receiving, lets the stations work off what waits for them, ends every seat and returns when all
// goroutines are gone. The error says which senders' seats have not ended after that; they are not waited for.
func (l *Listener) Close() error {
	l.detach()
	go l.shut()
	select {
	case <-l.done:
		return nil
	case <-time.After(l.wait):
	}
	return fmt.Errorf("not ended after %v: stations %v; is the disk at fault? What was recorded is kept, "+
		"and the next start goes on with it", l.wait, l.hub.addresses())
}

func (l *Listener) shut() {
	l.close.Do(func() {
		if l.asker != nil {
			l.asker.close()
		}
		closeAll(l.sockets)
		l.readers.Wait()
		l.hub.close()
		close(l.done)
	})
}
