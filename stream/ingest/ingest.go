// Package ingest receives datagrams: it listens on UDP sockets, tells senders apart by their address, and gives each
// its own goroutine and bounded queue, so that a slow sender does not delay the others. Commands and questions to a
// sender's handler go through the same queue, so that their order among the datagrams is fixed.
//
// Memory is bounded whatever arrives: the number of senders, and for each the datagrams, bytes and requests that wait.
// What does not fit is dropped and counted.
package ingest

import (
	"context"
	"errors"
	"fmt"
	"net/netip"
	"slices"
	"sync"
	"time"

	"halfturn/stream/contain"
	"halfturn/stream/ingest/network"
	"halfturn/stream/ingest/socket"
)

// A Handler processes what one sender sends. All calls for one sender come from one goroutine.
type Handler interface {
	// Datagram takes one datagram; b is valid only during the call. The moments of datagrams and ticks are an hour
	// apart when an hour has passed, also where the machine's clock was set meanwhile.
	Datagram(b []byte, received time.Time)
	// Take takes a request, in order with the datagrams, and reports whether the handler ends with it.
	Take(r Request) (ends bool)
	// Tick is called about four times a second, whether datagrams come or not.
	Tick(now time.Time)
	// End is the last call, made exactly once.
	End()
}

// A Prover is a Handler that reports whether anything useful ever came. If not, the sender is dropped after
// Config.Unproven instead of Config.Idle, so that junk from many ports does not take the places of real simulators.
type Prover interface {
	Proven() bool
}

// A Failer is a Handler that is told when a fault in the program ended it: before End, and in place of what was still
// to come. It is told nothing else after that.
type Failer interface {
	Fail()
}

// A Factory makes the Handler of a sender that is not known yet. It is called in the sender's goroutine and may take
// its time.
type Factory func(address netip.AddrPort) Handler

// Config holds the settings of a Listener. Zero fields take the defaults.
type Config struct {
	// HOST:PORT each, IPv4 or IPv6; port 0 lets the system choose; a multicast group is joined
	Addresses   []string
	Allow       []netip.Prefix // whose datagrams are taken, beside loopback; empty: the machine's own private networks
	Known       []netip.Addr   // senders that are taken even when MaxStations is reached
	MaxRate     int            // datagrams per second of one sender, the rest is dropped; 0: no limit
	MaxStations int            // at one time; 1024
	Idle        time.Duration  // after which a silent sender ends; 1 min
	Unproven    time.Duration  // the same for one that never sent anything useful; 5 s
	Queue       int            // datagrams that may wait for one sender; 256
	Tick        time.Duration  // between calls of Handler.Tick; 250 ms
	Receive     int            // bytes of receive buffer asked of the operating system per socket; 4 MiB
	Metrics     *Metrics       // counters; unregistered ones when nil
	// Faults contains faults of handlers, each to its station; when nil, some that tell Warn.
	Faults    *contain.Faults
	Warn      func(error)  // receives faults that are not fatal; dropped when nil
	Tell      func(string) // receives information for the user; dropped when nil
	Subscribe Subscribe    // simulators to ask for their values
	// Line takes the rest of a datagram that begins with LinePrefix, from a sender that is allowed: what a button box
	// asks for. It must not block. Such a datagram starts no station. nil leaves them to the stations.
	Line func(from netip.AddrPort, line string)
}

// ReceiveBuffer is how many bytes of receive buffer are asked of the operating system per socket by default.
const ReceiveBuffer = 4 << 20

// LinePrefix begins a datagram that is a line for the program, not data of a simulator.
const LinePrefix = "halfturn "

// mostLine bounds such a line, in bytes.
const mostLine = 200

func (c *Config) fill() {
	setDefault(&c.MaxStations, 1024)
	setDefault(&c.Idle, time.Minute)
	setDefault(&c.Unproven, 5*time.Second)
	setDefault(&c.Queue, 256)
	setDefault(&c.Tick, 250*time.Millisecond)
	setDefault(&c.Receive, ReceiveBuffer)
	if c.Metrics == nil {
		c.Metrics, _ = NewMetrics(nil) // without a registry it cannot fail
	}
	if c.Warn == nil {
		c.Warn = func(error) {}
	}
	if c.Faults == nil {
		c.Faults = contain.New(c.Warn)
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

// A Listener is the set of open sockets and their senders.
type Listener struct {
	senders *senders
	sockets []socket.Socket
	where   []netip.AddrPort // in the order of Config.Addresses
	more    extra
	asker   *subscriber // nil when no simulator is asked
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
	sockets, where, err := socket.OpenAll(ctx, config.Addresses)
	if err != nil {
		return nil, err
	}
	l := &Listener{senders: newSenders(config, factory), sockets: sockets, where: where,
		done: make(chan struct{}), wait: closeWait}
	if l.asker, err = subscribe(ctx, config.Subscribe, l.senders); err != nil {
		socket.CloseAll(sockets)
		return nil, err
	}
	allowed := network.Allowed(config.Allow, l.reachable() || config.Subscribe.Discover, network.Own())
	if l.asker != nil {
		allowed = append(allowed, l.asker.networks()...)
	}
	l.senders.setAllowed(allowed)
	for _, s := range l.sockets {
		if err := socket.Enlarge(s.UDPConn, config.Receive); err != nil {
			config.Warn(err)
		}
	}
	for _, s := range l.sockets {
		l.receive(s)
	}
	if l.asker != nil {
		l.asker.start()
	}
	l.detach = context.AfterFunc(ctx, l.shut)
	return l, nil
}

// Limit changes how many datagrams of one sender are taken in a second (0: no limit), and of how many senders at one
// time, as in a Config. Senders that are there stay, whatever their number.
func (l *Listener) Limit(maxRate, maxStations int) {
	l.senders.limits.Store(&limits{maxRate, maxStations})
}

// receive reads a socket until it is closed, in a goroutine of its own. Its senders were not asked.
func (l *Listener) receive(from socket.Socket) {
	in := l.senders.inlet(from.Address.String())
	take := func(from netip.AddrPort, b []byte, received time.Time) {
		if l.asker != nil {
			l.asker.overhear(from, b, received)
		}
		l.senders.deliver(in, from, b, received)
	}
	sink := socket.Sink{Take: take, Lost: func(n uint64) { l.senders.lose(in, n) }, Warn: l.senders.config.Warn}
	l.readers.Go(func() { socket.Receive(from.UDPConn, sink) })
}

// reachable reports whether datagrams of other machines can arrive.
func (l *Listener) reachable() bool {
	return slices.ContainsFunc(l.where, func(a netip.AddrPort) bool { return !a.Addr().IsLoopback() })
}

// Addresses returns where datagrams are taken, in the order of the Config: local addresses of the
// sockets, and the groups joined. Those that Open added come after them.
func (l *Listener) Addresses() []netip.AddrPort {
	return append(slices.Clone(l.where), l.more.addresses()...)
}

// Allowed returns the networks whose datagrams are taken.
func (l *Listener) Allowed() []netip.Prefix { return slices.Clone([]netip.Prefix(l.senders.allowed())) }

// Senders returns the addresses of the senders that have a handler, in no order.
func (l *Listener) Senders() []netip.AddrPort { return l.senders.addresses() }

// Refused says which sender was refused last, as there were as many as Config.MaxStations allows.
func (l *Listener) Refused() Refusal { return l.senders.lastRefused() }

// Send has the handler of a sender take a request, after all that came before it, and returns when it has. The error is
// ErrNotThere, and the request not taken, when the sender has no handler, also while that is being made or is ending;
// ErrBusy when too many requests wait; the cause of ctx when the handler had no time as long as ctx lasted. A Factory
// may call it, also for a sender whose own Factory is at work: that one has no handler yet. A Handler must not call it.
func (l *Listener) Send(ctx context.Context, address netip.AddrPort, r Request) error {
	return l.senders.send(ctx, address, r)
}

// End is Send for a request with which the handler may end: then the handler is given nothing more, and End returns
// when its End has returned, or ctx is over. The next datagram of the sender makes a new handler.
func (l *Listener) End(ctx context.Context, address netip.AddrPort, r Request) error {
	return l.senders.end(ctx, address, r)
}

// closeWait is how long Close waits. Handlers end within moments, many at once on a slow and busy disk within half a
// minute; a disk that does not answer could hold them forever.
const closeWait = time.Minute

// Close takes what the system holds, for a fifth of a second at most, stops receiving, lets the senders work off what
// waits for them, ends every handler and returns when all goroutines are gone. The error says which handlers have not
// ended after a minute; they are not waited for.
func (l *Listener) Close() error {
	l.detach()
	go l.shut()
	select {
	case <-l.done:
		return nil
	case <-time.After(l.wait):
	}
	return fmt.Errorf("not ended after %v: stations %v; is the disk at fault? What was recorded is kept, "+
		"and the next start goes on with it", l.wait, l.senders.addresses())
}

func (l *Listener) shut() {
	l.close.Do(func() {
		if l.asker != nil {
			l.asker.close()
		}
		for _, s := range l.sockets {
			socket.Drain(s.UDPConn)
		}
		l.more.drain()
		l.readers.Wait()
		socket.CloseAll(l.sockets)
		l.more.shut()
		l.senders.close()
		close(l.done)
	})
}
