package ingest

import (
	"context"
	"fmt"
	"net"
	"net/netip"
)

// A socket is open, and address is what it was opened for: a group's address where it joined one.
type socket struct {
	*net.UDPConn
	address netip.AddrPort
}

// openAll opens every address, in their order. A multicast group is joined on a socket that has its
// port already, or on one of its own.
func openAll(ctx context.Context, config *Config) ([]socket, []netip.AddrPort, error) {
	var open []socket
	where := make([]netip.AddrPort, len(config.Addresses))
	groups := []int{}
	fail := func(err error) ([]socket, []netip.AddrPort, error) {
		closeAll(open)
		return nil, nil, err
	}
	for i, address := range config.Addresses {
		if isGroup(address) {
			groups = append(groups, i)
			continue
		}
		conn, err := openOne(ctx, address)
		if err != nil {
			return fail(err)
		}
		where[i] = localOf(conn)
		open = append(open, socket{conn, where[i]})
	}
	for _, i := range groups {
		group := netip.MustParseAddrPort(config.Addresses[i]) // isGroup read it
		conn := sharing(open, group)
		if conn == nil {
			var err error
			if conn, err = listenGroup(ctx, group); err != nil {
				return fail(err)
			}
			open = append(open, socket{conn, group})
		}
		if err := join(conn, group.Addr()); err != nil {
			return fail(fmt.Errorf("the multicast group %v cannot be joined: %w; is this computer on a network? "+
				"Take the group out of udp, or give 0.0.0.0:%d instead", group, err, group.Port()))
		}
		where[i] = netip.AddrPortFrom(group.Addr(), localOf(conn).Port())
	}
	return open, where, nil
}

func closeAll(open []socket) {
	for _, s := range open {
		s.Close()
	}
}

func localOf(conn *net.UDPConn) netip.AddrPort {
	return conn.LocalAddr().(*net.UDPAddr).AddrPort()
}

func isGroup(address string) bool {
	a, err := netip.ParseAddrPort(address)
	return err == nil && a.Addr().IsMulticast()
}

// sharing finds a socket of every interface that has the group's port already, so that the two do not
// compete for it.
func sharing(open []socket, group netip.AddrPort) *net.UDPConn {
	for _, s := range open {
		a := localOf(s.UDPConn)
		if a.Port() == group.Port() && group.Port() != 0 && a.Addr().IsUnspecified() &&
			(a.Addr().Is6() || group.Addr().Is4()) {
			return s.UDPConn
		}
	}
	return nil
}

func openOne(ctx context.Context, address string) (*net.UDPConn, error) {
	host, _, err := net.SplitHostPort(address)
	if err != nil {
		return nil, fmt.Errorf("UDP address %q: want HOST:PORT such as 127.0.0.1:7181, or :7181 for every interface",
			address)
	}
	network := "udp"
	if a, err := netip.ParseAddr(host); err == nil && a.Is4() { // else 0.0.0.0 stands for both families
		network = "udp4"
	}
	var config net.ListenConfig
	conn, err := config.ListenPacket(ctx, network, address)
	if err != nil {
		return nil, listenError(address, err)
	}
	return conn.(*net.UDPConn), nil
}

// listenGroup opens a socket for a group's port. The port is shared with other programs that
// listen to groups; the system gives each its copy.
func listenGroup(ctx context.Context, group netip.AddrPort) (*net.UDPConn, error) {
	network := "udp4"
	if group.Addr().Is6() {
		network = "udp6"
	}
	var config net.ListenConfig
	conn, err := config.ListenPacket(ctx, network, netip.AddrPortFrom(group.Addr().WithZone(""), group.Port()).String())
	if err != nil {
		return nil, listenError(group.String(), err)
	}
	return conn.(*net.UDPConn), nil
}
