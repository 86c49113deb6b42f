package capture

import (
	"encoding/binary"
	"fmt"
	"io"
	"time"

	"github.com/gopacket/gopacket"
	"github.com/gopacket/gopacket/layers"
	"github.com/gopacket/gopacket/pcapgo"

	"halfturn/stream/phrase"
)

// A Writer writes datagrams as a pcapng file of raw IP packets with times in nanoseconds. What
// it wrote reaches the file at Flush, or before.
type Writer struct {
	out    io.Writer
	ng     *pcapgo.NgWriter
	packet wrapping
	count  uint64
	last   time.Time
}

// A wrapping wraps datagrams in IP and UDP, one after the other in the same memory.
type wrapping struct {
	buffer   gopacket.SerializeBuffer
	src, dst [16]byte
	ip4      layers.IPv4
	ip6      layers.IPv6
	udp      layers.UDP
	payload  gopacket.Payload

	over4, over6 []gopacket.SerializableLayer // the layers above, from the outside
}

func newWrapping() wrapping {
	p := wrapping{buffer: gopacket.NewSerializeBuffer()}
	p.ip4 = layers.IPv4{Version: 4, TTL: 64, Protocol: layers.IPProtocolUDP}
	p.ip6 = layers.IPv6{Version: 6, HopLimit: 64, NextHeader: layers.IPProtocolUDP}
	return p
}

// longestComment is what an option of pcapng can hold, bytes.
const longestComment = 1<<16 - 4

// NewWriter begins a file: program and comment say who wrote it and what of, station names the
// interface.
func NewWriter(w io.Writer, program, station, comment string) (*Writer, error) {
	if len(comment) > longestComment {
		return nil, tooLong(comment)
	}
	ng, err := pcapgo.NewNgWriterInterface(w, pcapgo.NgInterface{Name: station, LinkType: layers.LinkTypeRaw},
		pcapgo.NgWriterOptions{SectionInfo: pcapgo.NgSectionInfo{Application: program, Comment: comment}})
	if err != nil {
		return nil, err
	}
	return &Writer{out: w, ng: ng, packet: newWrapping()}, nil
}

// Write appends a datagram with its comments, wrapped in IP and UDP again.
func (w *Writer) Write(d *Datagram) error {
	if err := w.wrap(d); err != nil {
		return err
	}
	packet := w.packet.buffer.Bytes()
	w.count, w.last = w.count+1, d.Received
	info := gopacket.CaptureInfo{Timestamp: d.Received, CaptureLength: len(packet), Length: len(packet)}
	if len(d.Comments) == 0 {
		return w.ng.WritePacket(info, packet)
	}
	return w.ng.WritePacketWithOptions(info, packet, pcapgo.NgPacketOptions{Comments: d.Comments})
}

// wrap puts the packet of a datagram into the buffer.
func (w *Writer) wrap(d *Datagram) error {
	for _, c := range d.Comments {
		if len(c) > longestComment {
			return tooLong(c)
		}
	}
	return w.packet.wrap(d)
}

// wrap puts the packet of a datagram into the buffer.
func (p *wrapping) wrap(d *Datagram) error {
	src, dst := d.Source.Addr().Unmap(), d.Destination.Addr().Unmap()
	p.udp.SrcPort, p.udp.DstPort = layers.UDPPort(d.Source.Port()), layers.UDPPort(d.Destination.Port())
	p.payload = d.Payload
	if p.over4 == nil { // made here, as it lies now where it stays
		p.over4 = []gopacket.SerializableLayer{&p.ip4, &p.udp, &p.payload}
		p.over6 = []gopacket.SerializableLayer{&p.ip6, &p.udp, &p.payload}
	}
	over, network := p.over6, gopacket.NetworkLayer(&p.ip6)
	if src.Is4() && dst.Is4() {
		from, to := src.As4(), dst.As4()
		p.ip4.SrcIP, p.ip4.DstIP = append(p.src[:0], from[:]...), append(p.dst[:0], to[:]...)
		over, network = p.over4, &p.ip4
	} else {
		p.src, p.dst = src.As16(), dst.As16()
		p.ip6.SrcIP, p.ip6.DstIP = p.src[:], p.dst[:]
	}
	if err := p.udp.SetNetworkLayerForChecksum(network); err != nil {
		return err
	}
	return gopacket.SerializeLayers(p.buffer, gopacket.SerializeOptions{FixLengths: true, ComputeChecksums: true},
		over...)
}

// Flush hands on what is held back.
func (w *Writer) Flush() error { return w.ng.Flush() }

// Finish writes the comments that no datagram came after, with the count of packets, and flushes.
func (w *Writer) Finish(comments []string) error {
	if err := w.ng.Flush(); err != nil {
		return err
	}
	b, err := w.statistics(comments)
	if err != nil {
		return err
	}
	_, err = w.out.Write(b)
	return err
}

// statistics is an Interface Statistics Block (draft-ietf-opsawg-pcapng, 4.6). The library's has no
// place for comments.
func (w *Writer) statistics(comments []string) ([]byte, error) {
	const end, comment, received = 0, 1, 4
	le := binary.LittleEndian
	b := le.AppendUint32(nil, blockStatistic)
	b = append(b, make([]byte, 8)...) // the length follows; of interface 0
	stamp := uint64(0)
	if w.count > 0 {
		stamp = uint64(w.last.UnixNano())
	}
	b = le.AppendUint32(b, uint32(stamp>>32))
	b = le.AppendUint32(b, uint32(stamp))
	for _, c := range comments {
		if len(c) > longestComment {
			return nil, tooLong(c)
		}
		b = le.AppendUint16(b, comment)
		b = le.AppendUint16(b, uint16(len(c)))
		b = append(b, c...)
		b = append(b, make([]byte, -len(c)&3)...)
	}
	b = le.AppendUint16(b, received)
	b = le.AppendUint16(b, 8)
	b = le.AppendUint64(b, w.count)
	b = le.AppendUint32(b, end)
	length := uint32(len(b) + 4)
	le.PutUint32(b[4:], length)
	return le.AppendUint32(b, length), nil
}

func tooLong(comment string) error {
	return fmt.Errorf("a comment of %d bytes is longer than pcapng holds", len(comment))
}

// A Part is how much of a file can be relied on.
type Part struct {
	Bytes      int64  // from the beginning, in whole blocks
	Interfaces uint64 // described in these: without one they can hold no packet
	Packets    uint64 // in these
}

// Whole finds how much of a pcapng file, from its beginning, is whole blocks. It stops where the file is
// cut off or broken. The error is a *FormatError when it is no pcapng file, or that of the reader.
func Whole(r io.Reader) (Part, error) {
	var p Part
	reader, err := Open(r)
	if err != nil {
		return p, err
	}
	ng, ok := reader.blocks.(*ngReader)
	if !ok {
		return p, &FormatError{phrase.CaptureNotNG.Of()}
	}
	if ng.err != nil {
		return p, nil
	}
	for p.Bytes = int64(ng.used); ; p.Bytes += int64(ng.used) {
		kind, _, err := ng.block()
		if err != nil {
			return p, nil
		}
		switch kind {
		case blockInterface:
			p.Interfaces++
		case blockPacket, blockSimple, blockEnhanced:
			p.Packets++
		}
	}
}
