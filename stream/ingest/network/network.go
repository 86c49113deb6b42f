// Package network says from which addresses datagrams are taken: from loopback, and from the networks of the machine or
// those that the user lists.
package network

import (
	"fmt"
	"net"
	"net/netip"
	"slices"
	"strings"
)

// loopbacks are always allowed: no other machine can send from there.
var loopbacks = []netip.Prefix{netip.MustParsePrefix("127.0.0.0/8"), netip.MustParsePrefix("::1/128")}

// Parse reads an entry of an allow-list: a network such as 192.168.1.0/24 or one address.
func Parse(s string) (netip.Prefix, error) {
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

// A List holds the networks whose datagrams are taken.
type List []netip.Prefix

// Allowed returns the list for what the user asked for, beside loopback. Nothing asked for stands for the private
// networks and the addresses of the machine's own interfaces, once a socket can be reached from there.
func Allowed(asked []netip.Prefix, reachable bool, own []netip.Prefix) List {
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

// private keeps the networks that the internet does not route (RFC 1918, RFC 4193 and link-local ones). Of other
// networks it keeps the machine's own address alone, from which a simulator on the machine sends.
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

// Own lists the networks of the machine's interfaces that are up.
func Own() []netip.Prefix {
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

// Contains reports whether datagrams of an address are taken.
func (l List) Contains(from netip.Addr) bool {
	from = from.WithZone("")
	return slices.ContainsFunc(l, func(p netip.Prefix) bool { return p.Contains(from) })
}

// String lists the networks with commas between them.
func (l List) String() string {
	words := make([]string, len(l))
	for i, p := range l {
		words[i] = p.String()
	}
	return strings.Join(words, ", ")
}
