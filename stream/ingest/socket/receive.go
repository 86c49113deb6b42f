package socket

import (
	"errors"
	"fmt"
	"net"
	"net/netip"
	"os"
	"syscall"
	"time"
)

// A Source is a socket that datagrams come from.
type Source interface {
	ReadFromUDPAddrPort(b []byte) (n int, from netip.AddrPort, err error)
	Close() error
}

// A Sink takes what comes from a Source. All calls come from one goroutine.
type Sink struct {
	// Take takes a datagram and the time of its receipt; b is valid only during the call.
	Take func(from netip.AddrPort, b []byte, received time.Time)
	// Lost takes how many datagrams the system dropped just before the next one that is taken, because the receive
	// buffer was full. It is never called where CountsLost is false; nil ignores it.
	Lost func(n uint64)
	// Warn receives faults of the socket, the first of a row only, and that datagrams are received again after them.
	Warn func(error)
}

// longest is more than any UDP payload: 65,507 bytes over IPv4, 65,527 over IPv6.
const longest = 1 << 16

// A reader hands on what comes from a source, until that fails.
type reader interface {
	// receive hands each datagram to take: what it holds, valid only during the call, its sender, and how many the
	// system had dropped by then. That count goes on from 0 after its largest value. The error is never nil.
	receive(take func(b []byte, from netip.AddrPort, dropped uint32)) error
}

// errAgain says that a fault of the socket is over.
var errAgain = errors.New("datagrams are received again")

// How a socket is drained: until nothing comes for a moment, but not for long, as simulators go on sending.
const (
	drainGap  = 5 * time.Millisecond
	drainMost = 200 * time.Millisecond
)

// Drain has Receive hand on what the system holds of a socket, and then return. It does not wait for that.
func Drain(conn *net.UDPConn) {
	if conn.SetReadDeadline(time.Now().Add(drainGap)) != nil {
		conn.Close()
	}
}

// drained reports whether a source that is drained holds nothing more, since when nothing was read of it; else it is
// read on.
func drained(from Source, came bool, since time.Time) bool {
	conn, is := from.(*net.UDPConn)
	return !is || !came || time.Since(since) > drainMost || conn.SetReadDeadline(time.Now().Add(drainGap)) != nil
}

// Receive reads datagrams until the source is closed or drained, and hands them on.
func Receive(from Source, to Sink) {
	counted, faults := uint32(0), 0
	came, draining := false, time.Time{}
	warned := false
	take := func(b []byte, from netip.AddrPort, dropped uint32) {
		came = true
		if faults = 0; warned {
			warned = false
			to.Warn(errAgain)
		}
		if lost := dropped - counted; lost != 0 {
			counted = dropped
			if to.Lost != nil {
				to.Lost(uint64(lost))
			}
		}
		to.Take(netip.AddrPortFrom(from.Addr().Unmap(), from.Port()), b, time.Now())
	}
	for r := newReader(from); ; {
		err := r.receive(take)
		if errors.Is(err, net.ErrClosed) {
			return
		}
		if errors.Is(err, os.ErrDeadlineExceeded) {
			if draining.IsZero() {
				draining = time.Now()
			}
			if drained(from, came, draining) {
				return
			}
			came = false
			continue
		}
		// Some systems report here that an earlier datagram was refused. An error that repeats must not use up the
		// processor.
		if faults++; faults == 1 && !errors.Is(err, syscall.ECONNREFUSED) {
			warned = true
			to.Warn(fmt.Errorf("receiving datagrams: %w; going on", err))
		}
		time.Sleep(min(time.Duration(faults), 100) * time.Millisecond)
	}
}

// A single reads one datagram at a time, from any source. The system does not say what it dropped.
type single struct {
	source Source
	b      []byte
}

func newSingle(source Source) *single { return &single{source: source, b: make([]byte, longest)} }

func (s *single) receive(take func(b []byte, from netip.AddrPort, dropped uint32)) error {
	for {
		n, from, err := s.source.ReadFromUDPAddrPort(s.b)
		if err != nil {
			return err
		}
		take(s.b[:n], from, 0)
	}
}
