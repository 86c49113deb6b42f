package ingest

import (
	"fmt"
	"net"
	"net/netip"
	"slices"
	"strings"
)

// loopbacks are always allowed: nothing from another machine can come from there.
var loopbacks = []netip.Prefix{netip.MustParsePrefix("127.0.0.0/8"), netip.MustParsePrefix("::1/128")}

// ParseAllow reads an entry of an allow-list: a network such as 192.168.1.0/24 or one address.
func ParseAllow(s string) (netip.Prefix, error) {
	if a, err := netip.ParseAddr(s); err == nil && a.Zone() == "" {
		a = a.Unmap()
		return netip.PrefixFrom(a, a.BitLen()), nil
	}
	if p, err := netip.ParsePrefix(s); err == nil {
		return p.Masked(), nil
	}
	return netip.Prefix{}, fmt.Errorf("%q is no network; write a network such as 192.168.1.0/24 or one address such "+
		"as 192.168.1.20", s)
}

// allowed works out from whom datagrams are taken: loopback, and what was asked for. Nothing
// asked for stands for the machine's own addresses and private networks, once a socket can be
// reached from there.
func allowed(asked []netip.Prefix, reachable bool, own []netip.Prefix) []netip.Prefix {
	list := slices.Clone(loopbacks)
	switch {
	case len(asked) > 0:
		list = append(list, asked...)
	case reachable:
		list = append(list, private(own)...)
	}
	slices.SortFunc(list, func(a, b netip.Prefix) int {
		if c := a.Addr().Compare(b.Addr()); c != 0 {
			return c
		}
		return a.Bits() - b.Bits()
	})
	return slices.Compact(list)
}

// private keeps the networks that the internet does not route (RFC 1918, RFC 4193 and link-local ones),
// and of others the machine's own address alone: a simulator on it sends from there.
func private(own []netip.Prefix) []netip.Prefix {
	list := []netip.Prefix{}
	for _, p := range own {
		switch a := p.Addr(); {
		case a.IsPrivate() || a.IsLinkLocalUnicast():
			list = append(list, p.Masked())
		case !a.IsLoopback():
			list = append(list, netip.PrefixFrom(a, a.BitLen()))
		}
	}
	return list
}

// ownNetworks lists the networks of the machine's interfaces that are up.
func ownNetworks() []netip.Prefix {
	addresses, err := net.InterfaceAddrs()
	if err != nil {
		return nil
	}
	list := []netip.Prefix{}
	for _, a := range addresses {
		n, ok := a.(*net.IPNet)
		if !ok {
			continue
		}
		addr, ok := netip.AddrFromSlice(n.IP)
		if !ok {
			continue
		}
		ones, _ := n.Mask.Size()
		list = append(list, netip.PrefixFrom(addr.Unmap(), ones))
	}
	return list
}

func prefixes(list []netip.Prefix) string {
	words := make([]string, len(list))
	for i, p := range list {
		words[i] = p.String()
	}
	return strings.Join(words, ", ")
}
