// Package capture reads recordings of network traffic, pcap and pcapng, and yields the UDP datagrams in them; either
// may be gzipped or compressed by zstd. It writes pcapng.
//
// Link types understood: Ethernet with or without VLAN tags, Linux cooked v1 and v2, BSD and OpenBSD loopback, and raw
// IP. A capture of all interfaces of a Linux machine may hold a datagram of the loopback twice; both are yielded.
//
// The headers of packets are read here (parse.go), though gopacket has a parser of layers. Two reasons, both measured
// with version 1.7.7: that one cannot tell a packet that the capture cut short from one whose lengths contradict each
// other: it marks both as truncated and returns what there is as a payload, while here they are counted separately and
// neither is read as a datagram. And it takes 62 ns per packet; this code takes 7. Files of the pcap kind are read,
// and pcapng files written, by the library.
package capture

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"net/netip"
	"time"

	"halfturn/stream"
	"halfturn/stream/phrase"
)

// A Datagram is one UDP datagram of a recording. Payload is valid until the next call of
// Next.
type Datagram struct {
	Received    time.Time
	Source      netip.AddrPort
	Destination netip.AddrPort
	Payload     []byte
	Comments    []string // that stand with it in a pcapng file
}

// Seconds returns the time of receipt in seconds since the Unix epoch.
func (d *Datagram) Seconds() float64 { return stream.Seconds(d.Received) }

// Stats counts what a Reader has read so far.
type Stats struct {
	Packets   uint64 // read from the file
	Datagrams uint64 // yielded
	Cut       uint64 // dropped: the capture kept only the beginning (snap length)
	Fragments uint64 // dropped: part of a larger IP packet
	Other     uint64 // dropped: not UDP, or a link type not understood
	Malformed uint64 // dropped: headers that contradict themselves
	Untimed   uint64 // dropped: received before 1970 or after 2261, by a clock that was wrong
}

// Plus adds counts up.
func (s Stats) Plus(o Stats) Stats {
	return Stats{
		Packets:   s.Packets + o.Packets,
		Datagrams: s.Datagrams + o.Datagrams,
		Cut:       s.Cut + o.Cut,
		Fragments: s.Fragments + o.Fragments,
		Other:     s.Other + o.Other,
		Malformed: s.Malformed + o.Malformed,
		Untimed:   s.Untimed + o.Untimed,
	}
}

// A CutError says that the file ended or broke in the middle, and after how many packets. The datagrams yielded before
// are complete.
type CutError struct {
	Packets uint64
	Err     error // what the file's reader said
}

// Error says where the file broke.
func (e *CutError) Error() string {
	if errors.Is(e.Err, io.ErrUnexpectedEOF) {
		return phrase.CaptureCut.Of(phrase.Int("packets", e.Packets)).String()
	}
	return phrase.CaptureDamaged.Of(phrase.Int("packets", e.Packets), phrase.Name("why", e.Err.Error())).String()
}

// Unwrap returns the cause.
func (e *CutError) Unwrap() error { return e.Err }

// A FormatError says that a file is not a recording that this package can read.
type FormatError struct{ Why phrase.Phrase }

// Error says why, and what the file must be.
func (e *FormatError) Error() string {
	return phrase.NotACapture.Of(phrase.Part("why", e.Why)).String()
}

// A Reader yields the UDP datagrams of one recording. It reads as it goes and holds one
// packet at a time.
type Reader struct {
	blocks blocks
	plain  *Plain
	packet packet
	stats  Stats
	err    error // once set, returned by every call
}

// A packet is one record of a file. Its data is valid until the next one is read.
type packet struct {
	data []byte
	time time.Time
	link int
}

// blocks reads the records of one kind of file: io.EOF at the end of a whole one.
type blocks interface {
	next(p *packet) error
}

// Open recognizes the kind of recording and reads its header. The error is a *FormatError
// when it is not a recording, a *CutError when the header itself is cut off.
func Open(r io.Reader) (*Reader, error) {
	return OpenWithin(context.Background(), r, &Limits{})
}

// OpenWithin is Open for recordings that may be large or hostile. It and Next return a *LimitError once
// more than the limits was read, and the context's error once that has ended.
func OpenWithin(ctx context.Context, r io.Reader, l *Limits) (*Reader, error) {
	p, err := Unpack(ctx, r, l)
	if err != nil {
		return nil, err
	}
	return p.Open()
}

// Open reads the bytes as a capture. The reader closes them; after an error they are closed already.
func (p *Plain) Open() (*Reader, error) {
	b, err := blocksOf(p.Reader)
	if p.guard.err != nil {
		err = p.guard.err
	}
	if err != nil {
		p.Close()
		return nil, err
	}
	return &Reader{blocks: b, plain: p}, nil
}

// blocksOf recognizes the kind of an uncompressed recording.
func blocksOf(in *bufio.Reader) (blocks, error) {
	magic, err := in.Peek(4)
	if err != nil {
		return nil, openError(err)
	}
	switch string(magic) {
	case "\x0a\x0d\x0d\x0a":
		return newNgReader(in), nil
	case "\xd4\xc3\xb2\xa1", "\xa1\xb2\xc3\xd4", "\x4d\x3c\xb2\xa1", "\xa1\xb2\x3c\x4d":
		return newClassicReader(in)
	}
	return nil, &FormatError{phrase.CaptureBegins.Of(phrase.Name("bytes", fmt.Sprintf("% x", magic)))}
}

// Section returns the comment of the section that the last datagram is of, before the first that of the
// file's first section; "" when there is none.
func (r *Reader) Section() string {
	if ng, ok := r.blocks.(*ngReader); ok {
		return ng.section
	}
	return ""
}

// Rest returns the comments after the last datagram.
func (r *Reader) Rest() []string {
	if ng, ok := r.blocks.(*ngReader); ok {
		return ng.comments
	}
	return nil
}

// Close releases what reading has allocated. The file stays open: the caller owns it. Nothing can be read afterwards.
func (r *Reader) Close() {
	r.plain.Close()
}

// Stats returns the counts so far.
func (r *Reader) Stats() Stats { return r.stats }

// Next returns the next UDP datagram, io.EOF at the end of the recording, or a *CutError
// where it breaks off; with OpenWithin also what that says. Other packets are passed over and counted.
func (r *Reader) Next() (Datagram, error) {
	p := &r.packet
	for r.err == nil {
		if err := r.blocks.next(p); err != nil {
			switch r.err = err; {
			case r.plain.Err() != nil:
				r.err = r.plain.Err()
			case err != io.EOF:
				r.err = &CutError{Packets: r.stats.Packets, Err: err}
			}
			break
		}
		r.stats.Packets++
		if y := p.time.Year(); y < 1970 || y > 2261 { // what a time in nanoseconds can hold
			r.stats.Untimed++
			continue
		}
		d := Datagram{Received: p.time}
		if r.count(d.parse(p.data, p.link)) {
			if ng, ok := r.blocks.(*ngReader); ok && ng.comments != nil {
				d.Comments, ng.comments, ng.kept = ng.comments, nil, 0
			}
			return d, nil
		}
	}
	return Datagram{}, r.err
}

func (r *Reader) count(f finding) bool {
	switch f {
	case findDatagram:
		r.stats.Datagrams++
	case findCut:
		r.stats.Cut++
	case findFragment:
		r.stats.Fragments++
	case findOther:
		r.stats.Other++
	case findMalformed:
		r.stats.Malformed++
	}
	return f == findDatagram
}

// recognizeBytes is how much of a file is looked at to recognize it: a whole block of zstd, which is 128 KB at most
// (RFC 8878, 3.1.1.2.3), and some more.
const recognizeBytes = 256 << 10

// Recognize reports whether a file begins like a recording. It reads a little of it.
func Recognize(r io.Reader) bool {
	var magic [4]byte
	if _, err := io.ReadFull(r, magic[:]); err != nil {
		return false
	}
	switch string(magic[:]) {
	default:
		if magic[0] != 0x1f || magic[1] != 0x8b {
			return false
		}
	case "\x28\xb5\x2f\xfd", "\x0a\x0d\x0d\x0a", "\xd4\xc3\xb2\xa1", "\xa1\xb2\xc3\xd4", "\x4d\x3c\xb2\xa1",
		"\xa1\xb2\x3c\x4d":
	}
	reader, err := Open(io.MultiReader(bytes.NewReader(magic[:]), io.LimitReader(r, recognizeBytes)))
	if reader != nil {
		reader.Close()
	}
	var cut *CutError
	return err == nil || errors.As(err, &cut)
}
