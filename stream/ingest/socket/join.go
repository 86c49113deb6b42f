package socket

import (
	"errors"
	"net"
	"net/netip"
	"slices"

	"golang.org/x/net/ipv4"
	"golang.org/x/net/ipv6"
)

// join joins a group on every interface that can take part, as the interface of the simulator is not known. It fails
// when none could.
func join(conn *net.UDPConn, group netip.Addr) error {
	interfaces, err := net.Interfaces()
	if err != nil {
		return err
	}
	interfaces = slices.DeleteFunc(interfaces, func(i net.Interface) bool {
		other := group.Zone() != "" && group.Zone() != i.Name
		return other || i.Flags&net.FlagUp == 0 || i.Flags&(net.FlagMulticast|net.FlagLoopback) == 0
	})
	joinOn := ipv4.NewPacketConn(conn).JoinGroup
	if group.Is6() {
		joinOn = ipv6.NewPacketConn(conn).JoinGroup
	}
	joined, failed := 0, errors.New("no interface takes part in multicast")
	for i := range interfaces {
		if err := joinOn(&interfaces[i], &net.UDPAddr{IP: group.AsSlice()}); err != nil {
			failed = err
			continue
		}
		joined++
	}
	if joined == 0 {
		return failed
	}
	return nil
}
