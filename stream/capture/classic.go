package capture

import (
	"bufio"
	"encoding/binary"
	"fmt"
	"io"
	"time"
)

// largestPacket is what capture programs take as the longest packet; a longer one is a
// damaged length.
const largestPacket = 262144

// A byteOrder reads the numbers of a file, written in the order of the recording machine.
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

// classicReader reads the pcap format: a header of 24 bytes, then packets, each behind 16
// bytes of time and lengths (pcap-savefile(5) of libpcap).
type classicReader struct {
	in    *bufio.Reader
	order byteOrder
	tick  int64 // nanoseconds
	link  int
	used  int // bytes of the packet handed out last
}

func newClassicReader(in *bufio.Reader) (*classicReader, error) {
	const size = 24
	h, err := in.Peek(size)
	if err != nil {
		return nil, &CutError{Err: unexpected(err)}
	}
	r := &classicReader{in: in, order: byteOrder(h[0] == 0xa1), tick: 1000, used: size}
	if magic := r.order.uint32(h); magic == 0xa1b23c4d {
		r.tick = 1
	}
	if major := r.order.uint16(h[4:]); major != 2 {
		return nil, &FormatError{fmt.Sprintf("the pcap format of this file has version %d, not 2", major)}
	}
	r.link = int(r.order.uint16(h[22:]))
	if r.order == !bigEndian {
		r.link = int(r.order.uint16(h[20:])) // above it lies the length of the frame check sequence
	}
	if linkBytes(r.link) < 0 {
		return nil, &FormatError{fmt.Sprintf("link type %d is not understood: record on an Ethernet, loopback or raw IP interface", r.link)}
	}
	return r, nil
}

func (r *classicReader) next(p *packet) error {
	const head = 16
	r.in.Discard(r.used) // was peeked, cannot fail
	r.used = 0
	h, err := r.in.Peek(head)
	if len(h) == 0 {
		return err
	}
	if err != nil {
		return unexpected(err)
	}
	seconds, fraction := r.order.uint32(h), r.order.uint32(h[4:])
	length := r.order.uint32(h[8:])
	if length > largestPacket {
		return fmt.Errorf("packet of %d bytes", length)
	}
	b, err := r.in.Peek(head + int(length))
	if err != nil {
		return unexpected(err)
	}
	r.used = len(b)
	p.data, p.link = b[head:], r.link
	p.time = time.Unix(int64(seconds), int64(fraction)*r.tick).UTC()
	return nil
}

// unexpected turns the end of a file into the end of a broken file.
func unexpected(err error) error {
	if err == io.EOF {
		return io.ErrUnexpectedEOF
	}
	return err
}
