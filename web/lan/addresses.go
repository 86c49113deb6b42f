package lan

import (
	"net"
	"net/netip"
	"slices"
)

// Addresses returns this machine's addresses in private networks, IPv4 before IPv6: those that a device beside it can
// reach. Link-local ones are left out, for a browser cannot be given their zone.
func Addresses() []netip.Addr {
	all, err := net.InterfaceAddrs()
	if err != nil {
		return nil
	}
	var list []netip.Addr
	for _, a := range all {
		n, ok := a.(*net.IPNet)
		if !ok {
			continue
		}
		if ip, ok := netip.AddrFromSlice(n.IP); ok && ip.Unmap().IsPrivate() {
			list = append(list, ip.Unmap())
		}
	}
	slices.SortFunc(list, netip.Addr.Compare)
	return slices.Compact(list)
}
