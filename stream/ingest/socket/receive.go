package socket

import (
	"errors"
	"fmt"
	"net"
	"net/netip"
	"syscall"
	"time"
)

// A Source is a socket that datagrams come from.
type Source interface {
	ReadFromUDPAddrPort(b []byte) (n int, from netip.AddrPort, err error)
	Close() error
}

// Receive reads datagrams until the source is closed, and hands each to take with the time of its receipt.
// A datagram is valid only during the call. Faults of the socket go to warn, the first of a row only.
func Receive(from Source, warn func(error), take func(from netip.AddrPort, b []byte, received time.Time)) {
	// 65,507 bytes is the longest UDP payload over IPv4, 65,527 over IPv6.
	b := make([]byte, 1<<16)
	for faults := 0; ; {
		n, sender, err := from.ReadFromUDPAddrPort(b)
		switch {
		case err == nil:
			faults = 0
			take(netip.AddrPortFrom(sender.Addr().Unmap(), sender.Port()), b[:n], time.Now())
		case errors.Is(err, net.ErrClosed):
			return
		default:
			// Some systems report here that an earlier datagram was refused. An error that repeats must not use up the
			// processor.
			if faults++; faults == 1 && !errors.Is(err, syscall.ECONNREFUSED) {
				warn(fmt.Errorf("receiving datagrams: %w; going on", err))
			}
			time.Sleep(min(time.Duration(faults), 100) * time.Millisecond)
		}
	}
}
