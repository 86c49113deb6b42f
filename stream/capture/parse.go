package capture

import (
	"encoding/binary"
	"net/netip"
)

// A finding is what one packet turned out to be.
type finding uint8

const (
	findDatagram finding = iota
	findCut
	findFragment
	findOther
	findMalformed
)

// Link types by their registered numbers (tcpdump.org/linktypes.html), and what OpenBSD
// writes for raw IP.
const (
	linkNull      = 0
	linkEthernet  = 1
	linkRawBSD    = 12
	linkRawOpen   = 14
	linkRaw       = 101
	linkLoop      = 108
	linkLinuxSLL  = 113
	linkIPv4      = 228
	linkIPv6      = 229
	linkLinuxSLL2 = 276
)

const (
	etherIPv4 = 0x0800
	etherIPv6 = 0x86dd
	protoUDP  = 17
)

// linkBytes returns the length of the link header, −1 for types not understood.
func linkBytes(link int) int {
	switch link {
	case linkRaw, linkRawBSD, linkRawOpen, linkIPv4, linkIPv6:
		return 0
	case linkNull, linkLoop:
		return 4
	case linkEthernet:
		return 14
	case linkLinuxSLL:
		return 16
	case linkLinuxSLL2:
		return 20
	}
	return -1
}

// parse takes a packet apart down to the UDP payload. Checksums are not looked at: a
// machine that records what it sends often sees packets before the network card fills the checksums in.
func (d *Datagram) parse(b []byte, link int) finding {
	head := linkBytes(link)
	if head < 0 {
		return findOther
	}
	if len(b) < head {
		return findMalformed
	}
	ether := 0
	switch link {
	case linkEthernet, linkLinuxSLL:
		ether = int(binary.BigEndian.Uint16(b[head-2:]))
	case linkLinuxSLL2:
		ether = int(binary.BigEndian.Uint16(b))
	}
	b = b[head:]
	for ether == 0x8100 || ether == 0x88a8 || ether == 0x9100 { // VLAN tags, also stacked
		if len(b) < 4 {
			return findMalformed
		}
		ether = int(binary.BigEndian.Uint16(b[2:]))
		b = b[4:]
	}
	if ether != 0 && ether != etherIPv4 && ether != etherIPv6 {
		return findOther
	}
	return d.parseIP(b)
}

// parseIP goes by the version in the first byte: loopback headers give the address family
// in numbers that differ from system to system.
func (d *Datagram) parseIP(b []byte) finding {
	if len(b) == 0 {
		return findMalformed
	}
	switch b[0] >> 4 {
	case 4:
		return d.parseIPv4(b)
	case 6:
		return d.parseIPv6(b)
	}
	return findOther
}

func (d *Datagram) parseIPv4(b []byte) finding {
	if len(b) < 20 {
		return findMalformed
	}
	head, total := int(b[0]&15)*4, int(binary.BigEndian.Uint16(b[2:]))
	if b[9] != protoUDP {
		return findOther
	}
	if head < 20 || total < head {
		return findMalformed
	}
	if binary.BigEndian.Uint16(b[6:])&0x3fff != 0 { // more fragments, or not the first
		return findFragment
	}
	if total > len(b) {
		return findCut
	}
	source := netip.AddrFrom4([4]byte(b[12:16]))
	destination := netip.AddrFrom4([4]byte(b[16:20]))
	return d.parseUDP(b[head:total], source, destination)
}

func (d *Datagram) parseIPv6(b []byte) finding {
	const head = 40
	if len(b) < head {
		return findMalformed
	}
	next, total := b[6], head+int(binary.BigEndian.Uint16(b[4:]))
	cut := total > len(b)
	if !cut {
		b = b[:total] // without the padding of short Ethernet frames
	}
	source := netip.AddrFrom16([16]byte(b[8:24]))
	destination := netip.AddrFrom16([16]byte(b[24:40]))
	b = b[head:]
	for next != protoUDP {
		const hopByHop, routing, fragment, options = 0, 43, 44, 60
		if next != hopByHop && next != routing && next != fragment && next != options {
			return findOther
		}
		if len(b) < 8 {
			return shortOf(cut)
		}
		size := 8 + 8*int(b[1])
		if next == fragment {
			if binary.BigEndian.Uint16(b[2:])&0xfff9 != 0 {
				return findFragment
			}
			size = 8
		}
		if len(b) < size {
			return shortOf(cut)
		}
		next, b = b[0], b[size:]
	}
	if cut {
		return findCut
	}
	return d.parseUDP(b, source, destination)
}

func shortOf(cut bool) finding {
	if cut {
		return findCut
	}
	return findMalformed
}

func (d *Datagram) parseUDP(b []byte, source, destination netip.Addr) finding {
	if len(b) < 8 {
		return findMalformed
	}
	size := int(binary.BigEndian.Uint16(b[4:]))
	if size < 8 || size > len(b) {
		return findMalformed
	}
	d.Source = netip.AddrPortFrom(source, binary.BigEndian.Uint16(b))
	d.Destination = netip.AddrPortFrom(destination, binary.BigEndian.Uint16(b[2:]))
	d.Payload = b[8:size]
	return findDatagram
}
