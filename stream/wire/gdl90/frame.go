package gdl90

import (
	"encoding/binary"

	"halfturn/stream/wire/fault"
)

// A frame stands between two flags; these two bytes inside it are stuffed: an escape, then the byte with a bit turned.
const (
	Flag   = 0x7E
	Escape = 0x7D
	Mask   = 0x20

	longest = 64 // bytes of a frame; those that are read are shorter
)

// table is that of the specification's section 2.2.3.
var table = func() (table [256]uint16) {
	for i := range table {
		crc := uint16(i) << 8
		for range 8 {
			if crc&0x8000 != 0 {
				crc = crc<<1 ^ 0x1021
			} else {
				crc <<= 1
			}
		}
		table[i] = crc
	}
	return table
}()

// Sum is the checksum of a message. It differs from the usual CRC of that polynomial in
// where the byte goes in.
func Sum(b []byte) uint16 {
	crc := uint16(0)
	for _, c := range b {
		crc = table[crc>>8] ^ crc<<8 ^ uint16(c)
	}
	return crc
}

// A deframer takes frames out of a stream of bytes, which datagrams may cut anywhere.
type deframer struct {
	frame  [longest]byte
	n      int
	open   bool // a flag came
	escape bool
	wrong  bool // the frame is too long or wrongly stuffed
}

func (d *deframer) pending() bool { return d.open && d.n > 0 }

// next returns the next whole message of b without its checksum, and what follows it. The
// message is nil when b ends before; its error says that the checksum or the stuffing is wrong.
func (d *deframer) next(b []byte) (message, rest []byte, err error) {
	for i, c := range b {
		switch {
		case c == Flag:
			n, bad := d.n, d.wrong || d.escape
			was := d.open
			d.open, d.n, d.escape, d.wrong = true, 0, false, false
			if !was || n == 0 {
				continue
			}
			switch {
			case bad:
				return nil, b[i+1:], fault.ErrMalformed
			case n < 3 || Sum(d.frame[:n-2]) != binary.LittleEndian.Uint16(d.frame[n-2:]):
				return nil, b[i+1:], fault.ErrChecksum
			}
			return d.frame[:n-2], b[i+1:], nil
		case !d.open || d.wrong:
		case c == Escape:
			d.wrong = d.escape
			d.escape = true
		default:
			if d.escape {
				c ^= Mask
				d.wrong = c != Flag && c != Escape
				d.escape = false
			}
			if d.n == longest {
				d.wrong = true
				continue
			}
			d.frame[d.n] = c
			d.n++
		}
	}
	return nil, nil, nil
}

// valid reports whether there is a frame with the right checksum: a tilde alone means nothing.
func valid(b []byte) bool {
	var d deframer
	for len(b) > 0 {
		var message []byte
		if message, b, _ = d.next(b); message != nil {
			return true
		}
	}
	return false
}
