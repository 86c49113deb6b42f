package ingest

import (
	"errors"
	"net"
	"net/netip"
	"syscall"
)

// joinOn joins a group on one interface.
func joinOn(fd uintptr, group netip.Addr, i *net.Interface) error {
	if group.Is6() {
		return syscall.SetsockoptIPv6Mreq(syscall.Handle(fd), syscall.IPPROTO_IPV6, syscall.IPV6_JOIN_GROUP,
			&syscall.IPv6Mreq{Multiaddr: group.As16(), Interface: uint32(i.Index)})
	}
	own, ok := address4(i)
	if !ok {
		return errors.New("no interface has an IPv4 address")
	}
	return syscall.SetsockoptIPMreq(syscall.Handle(fd), syscall.IPPROTO_IP, syscall.IP_ADD_MEMBERSHIP,
		&syscall.IPMreq{Multiaddr: group.As4(), Interface: own})
}
