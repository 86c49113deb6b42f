package capture

import (
	"bufio"
	"encoding/binary"
	"errors"
	"fmt"
	"math/bits"
	"time"
)

// Blocks of a pcapng file by their types (IETF draft-ietf-opsawg-pcapng).
const (
	blockSection   = 0x0a0d0d0a
	blockInterface = 1
	blockPacket    = 2 // obsolete
	blockSimple    = 3
	blockStatistic = 5
	blockEnhanced  = 6
)

// mostInterfaces bounds what a section may make the reader remember.
const mostInterfaces = 4096

// An ngInterface is what the packets of one recorded interface share.
type ngInterface struct {
	link   int
	ticks  uint64 // of its clock in a second
	offset int64  // s
}

// A byteOrder reads the numbers of a section, written in the order of the recording machine.
type byteOrder bool

const bigEndian byteOrder = true

func (o byteOrder) uint16(b []byte) uint16 {
	if o == bigEndian {
		return binary.BigEndian.Uint16(b)
	}
	return binary.LittleEndian.Uint16(b)
}

func (o byteOrder) uint32(b []byte) uint32 {
	if o == bigEndian {
		return binary.BigEndian.Uint32(b)
	}
	return binary.LittleEndian.Uint32(b)
}

// ngReader reads the pcapng format: blocks with their length before and after.
//
// The reader of pcapgo 1.7.7 is not used: its times are wrong for resolutions that are a
// power of two (by 0.46 s at worst), and for whole seconds; it keeps every name, secret
// and comment of a section without a limit, so that a file decides how much memory is used;
// and it reports a gzipped file that is cut between two blocks as complete.
type ngReader struct {
	in         *bufio.Reader
	order      byteOrder
	interfaces []ngInterface
	now        time.Time // of the last packet that had a time
	used       int       // bytes of the block handed out last
	section    string    // comment of the section
	comments   []string  // of packets not handed out yet, and of statistics
	kept       int       // bytes of these
	err        error     // of the file's first block
}

// mostComment bounds the bytes of the comments that stand between two packets.
const mostComment = 256 << 10

// newNgReader reads the head of the first section.
func newNgReader(in *bufio.Reader) *ngReader {
	r := &ngReader{in: in, now: time.Unix(0, 0).UTC()} // packets without a time may come first
	kind, body, err := r.block()
	if r.err = err; err == nil && kind == blockSection {
		r.begin(body)
	}
	return r
}

// begin begins a section.
func (r *ngReader) begin(body []byte) {
	r.interfaces, r.section = r.interfaces[:0], ""
	if len(body) > 16 {
		r.each(body[16:], func(comment []byte) { r.section = string(comment) })
	}
}

func (r *ngReader) next(p *packet) error {
	for {
		if r.err != nil {
			return r.err
		}
		kind, body, err := r.block()
		if err != nil {
			return err
		}
		switch kind {
		case blockSection:
			r.begin(body)
		case blockStatistic:
			if len(body) > 12 {
				r.each(body[12:], r.comment)
			}
		case blockInterface:
			if err = r.addInterface(body); err != nil {
				return err
			}
		case blockPacket, blockSimple, blockEnhanced:
			return r.packet(p, kind, body)
		}
	}
}

// block returns the next block's type and body. The bodies of blocks that hold no packet
// and are longer than the buffer are passed over.
func (r *ngReader) block() (kind uint32, body []byte, err error) {
	const head, tail = 8, 4
	r.in.Discard(r.used) // was peeked, cannot fail
	r.used = 0
	h, err := r.in.Peek(head + 4)
	if len(h) == 0 {
		return 0, nil, err
	}
	if err != nil {
		return 0, nil, unexpected(err)
	}
	kind = r.order.uint32(h) // the same in both orders for a section
	if kind == blockSection {
		if err = r.takeOrder(h[head:]); err != nil {
			return 0, nil, err
		}
	}
	length := r.order.uint32(h[4:])
	if length < head+tail || length%4 != 0 {
		return 0, nil, fmt.Errorf("block of %d bytes", length)
	}
	if length > bufferBytes {
		return kind, nil, r.pass(kind, int64(length))
	}
	b, err := r.in.Peek(int(length))
	if err != nil {
		return 0, nil, unexpected(err)
	}
	if again := r.order.uint32(b[length-tail:]); again != length {
		return 0, nil, fmt.Errorf("block of %d bytes that ends as one of %d", length, again)
	}
	r.used = int(length)
	return kind, b[head : length-tail], nil
}

func (r *ngReader) takeOrder(magic []byte) error {
	switch string(magic) {
	case "\x1a\x2b\x3c\x4d":
		r.order = bigEndian
	case "\x4d\x3c\x2b\x1a":
		r.order = !bigEndian
	default:
		return errors.New("section without byte order")
	}
	return nil
}

// pass skips a long block in pieces, since its length may not fit an int.
func (r *ngReader) pass(kind uint32, length int64) error {
	switch kind {
	case blockSection, blockInterface, blockPacket, blockSimple, blockEnhanced:
		return fmt.Errorf("block of %d bytes", length)
	}
	for length > 0 {
		n, err := r.in.Discard(int(min(length, bufferBytes)))
		if err != nil {
			return unexpected(err)
		}
		length -= int64(n)
	}
	return nil
}

func (r *ngReader) addInterface(b []byte) error {
	if len(b) < 8 {
		return errors.New("interface block too short")
	}
	if len(r.interfaces) == mostInterfaces {
		return fmt.Errorf("more than %d interfaces", mostInterfaces)
	}
	in := ngInterface{link: int(r.order.uint16(b)), ticks: 1e6}
	for o := b[8:]; len(o) >= 4; {
		const end, resolution, offset = 0, 9, 14
		code, size := r.order.uint16(o), int(r.order.uint16(o[2:]))
		padded := 4 + (size+3)&^3
		if code == end || padded > len(o) {
			break
		}
		switch {
		case code == resolution && size == 1:
			if in.ticks = ticks(o[4]); in.ticks == 0 {
				return fmt.Errorf("time resolution %#x", o[4])
			}
		case code == offset && size == 8:
			in.offset = int64(r.uint64(o[4:]))
		}
		o = o[padded:]
	}
	r.interfaces = append(r.interfaces, in)
	return nil
}

// each hands the comments among a block's options to take.
func (r *ngReader) each(o []byte, take func([]byte)) {
	const end, comment = 0, 1
	for len(o) >= 4 {
		code, size := r.order.uint16(o), int(r.order.uint16(o[2:]))
		padded := 4 + (size+3)&^3
		if code == end || padded > len(o) {
			return
		}
		if code == comment {
			take(o[4 : 4+size])
		}
		o = o[padded:]
	}
}

// comment keeps a comment for the next datagram.
func (r *ngReader) comment(b []byte) {
	if r.kept += len(b); r.kept <= mostComment {
		r.comments = append(r.comments, string(b))
	}
}

// uint64 reads an integer, not a time stamp: those have the upper half first in any order.
func (r *ngReader) uint64(b []byte) uint64 {
	first, second := uint64(r.order.uint32(b)), uint64(r.order.uint32(b[4:]))
	if r.order == bigEndian {
		return first<<32 | second
	}
	return second<<32 | first
}

// ticks returns the ticks in a second of a resolution: a negative power of ten, or of two
// with the top bit set. 0 when there are too many.
func ticks(resolution byte) uint64 {
	n := resolution & 0x7f
	if resolution&0x80 != 0 {
		if n > 63 {
			return 0
		}
		return 1 << n
	}
	if n > 19 {
		return 0
	}
	t := uint64(1)
	for range n {
		t *= 10
	}
	return t
}

func (in *ngInterface) time(stamp uint64) time.Time {
	high, low := bits.Mul64(stamp%in.ticks, 1e9)
	nanoseconds, _ := bits.Div64(high, low, in.ticks)
	return time.Unix(int64(stamp/in.ticks)+in.offset, int64(nanoseconds)).UTC()
}

// packet reads a packet's block. Simple ones carry no time: they get that of the packet
// before.
func (r *ngReader) packet(p *packet, kind uint32, b []byte) error {
	head, index, at := 20, 0, 12
	switch {
	case kind == blockSimple:
		head, at = 4, 0
	case len(b) < head:
	case kind == blockPacket:
		index = int(r.order.uint16(b))
	default:
		index = int(min(r.order.uint32(b), mostInterfaces))
	}
	if len(b) < head {
		return errors.New("packet block too short")
	}
	if index >= len(r.interfaces) {
		return fmt.Errorf("packet of interface %d of %d", index, len(r.interfaces))
	}
	in := &r.interfaces[index]
	length := uint64(r.order.uint32(b[at:]))
	if kind == blockSimple { // has only the packet's own length, padding included where it was cut
		length = min(length, uint64(len(b)-head))
	} else {
		r.now = in.time(uint64(r.order.uint32(b[4:]))<<32 | uint64(r.order.uint32(b[8:])))
	}
	if length > uint64(len(b)-head) {
		return fmt.Errorf("packet of %d bytes in a block of %d", length, len(b))
	}
	p.data, p.time, p.link = b[head:head+int(length)], r.now, in.link
	if options := head + int(length+3)&^3; kind == blockEnhanced && options < len(b) {
		r.each(b[options:], r.comment)
	}
	return nil
}
