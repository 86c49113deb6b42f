// Package socket opens the UDP sockets that datagrams are received on: it joins multicast groups, asks the system for
// larger buffers, and says in a user's words why a port cannot be had and which program has it.
package socket

import (
	"context"
	"fmt"
	"net"
	"net/netip"
)

// A Socket is open.
type Socket struct {
	*net.UDPConn
	Address netip.AddrPort // that it was opened for: a group's where it joined one
}

// OpenAll opens every address, HOST:PORT each. A multicast group is joined on a socket that has its port already, or on
// one of its own. It returns the sockets, and where datagrams are received, in the order of the addresses. When one
// cannot be had, none is kept and the error says what to do.
func OpenAll(ctx context.Context, addresses []string) ([]Socket, []netip.AddrPort, error) {
	var open []Socket
	where := make([]netip.AddrPort, len(addresses))
	groups := []int{}
	fail := func(err error) ([]Socket, []netip.AddrPort, error) {
		CloseAll(open)
		return nil, nil, err
	}
	for i, address := range addresses {
		if isGroup(address) {
			groups = append(groups, i)
			continue
		}
		conn, err := openOne(ctx, address)
		if err != nil {
			return fail(err)
		}
		where[i] = Local(conn)
		open = append(open, Socket{conn, where[i]})
	}
	for _, i := range groups {
		group := netip.MustParseAddrPort(addresses[i]) // isGroup read it
		conn := sharing(open, group)
		if conn == nil {
			var err error
			if conn, err = listenGroup(ctx, group); err != nil {
				return fail(err)
			}
			open = append(open, Socket{conn, group})
		}
		if err := join(conn, group.Addr()); err != nil {
			return fail(fmt.Errorf("the multicast group %v cannot be joined: %w; is this computer on a network? "+
				"Take the group out of udp, or give 0.0.0.0:%d instead", group, err, group.Port()))
		}
		where[i] = netip.AddrPortFrom(group.Addr(), Local(conn).Port())
	}
	return open, where, nil
}

// CloseAll closes sockets.
func CloseAll(open []Socket) {
	for _, s := range open {
		s.Close()
	}
}

// Local returns the local address of a socket.
func Local(conn *net.UDPConn) netip.AddrPort {
	return conn.LocalAddr().(*net.UDPAddr).AddrPort()
}

func isGroup(address string) bool {
	a, err := netip.ParseAddrPort(address)
	return err == nil && a.Addr().IsMulticast()
}

// sharing finds a socket of every interface that has the group's port already, so that the two do not
// compete for it.
func sharing(open []Socket, group netip.AddrPort) *net.UDPConn {
	for _, s := range open {
		a := Local(s.UDPConn)
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
		return nil, fmt.Errorf("UDP address is %q; must be HOST:PORT such as 127.0.0.1:7181, or :7181 for every "+
			"interface",
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

// Group opens a socket of its own for a multicast group and joins the group.
func Group(ctx context.Context, group netip.AddrPort) (*net.UDPConn, error) {
	conn, err := listenGroup(ctx, group)
	if err != nil {
		return nil, err
	}
	if err := join(conn, group.Addr()); err != nil {
		conn.Close()
		return nil, err
	}
	return conn, nil
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
