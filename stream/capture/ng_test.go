package capture

import (
	"bytes"
	"encoding/binary"
	"io"
	"os"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/gopacket/gopacket/pcapgo"
)

// testdata/mixed.pcapng was written by the pcapng writer of gopacket 1.7.7: an Ethernet and
// a raw IP interface, nanoseconds, the datagram above once a second, the third of the four
// packets cut by the snap length.
func TestNg(t *testing.T) {
	file, err := os.ReadFile("testdata/mixed.pcapng")
	if err != nil {
		t.Fatal(err)
	}
	r, err := Open(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	for _, second := range []int64{0, 1, 3} {
		d, err := r.Next()
		if err != nil {
			t.Fatal(err)
		}
		if want := time.Unix(1700000000+second, 250000125); !d.Received.Equal(want) ||
			string(d.Payload) != vectorPayload {
			t.Errorf("%q at %v; must be %v", d.Payload, d.Received, want)
		}
	}
	if _, err := r.Next(); err != io.EOF {
		t.Errorf("end: %v", err)
	}
	if got := r.Stats(); got != (Stats{Packets: 4, Datagrams: 3, Cut: 1}) {
		t.Errorf("stats %+v", got)
	}
}

// block builds a pcapng block (IETF draft-ietf-opsawg-pcapng, section 3.1).
func block(order binary.AppendByteOrder, kind uint32, body []byte) []byte {
	for len(body)%4 != 0 {
		body = append(body, 0)
	}
	b := order.AppendUint32(nil, kind)
	b = order.AppendUint32(b, uint32(len(body)+12))
	b = append(b, body...)
	return order.AppendUint32(b, uint32(len(body)+12))
}

func section(order binary.AppendByteOrder) []byte {
	b := order.AppendUint32(nil, 0x1a2b3c4d)
	b = order.AppendUint16(b, 1)
	b = order.AppendUint16(b, 0)
	return block(order, blockSection, order.AppendUint64(b, ^uint64(0)))
}

// iface builds an interface block; options are appended as they are.
func iface(order binary.AppendByteOrder, link uint16, options ...byte) []byte {
	b := order.AppendUint16(nil, link)
	b = append(b, 0, 0, 0, 0, 0, 0)
	return block(order, blockInterface, append(b, options...))
}

func enhanced(order binary.AppendByteOrder, stamp uint64, packet []byte) []byte {
	b := order.AppendUint32(nil, 0)
	for _, v := range []uint32{uint32(stamp >> 32), uint32(stamp), uint32(len(packet)), uint32(len(packet))} {
		b = order.AppendUint32(b, v)
	}
	return block(order, blockEnhanced, append(b, packet...))
}

func TestNgTimes(t *testing.T) {
	le, be := binary.LittleEndian, binary.BigEndian
	packet := unhex(t, vectorIP)
	tests := []struct {
		name  string
		order binary.AppendByteOrder
		stamp uint64
		opts  []byte
	}{
		{"microseconds by default", le, 1700000000250000, nil},
		{"big endian", be, 1700000000250000, nil},
		{"nanoseconds", le, 1700000000250000000, []byte{9, 0, 1, 0, 9, 0, 0, 0}},
		{"milliseconds", be, 1700000000250, []byte{0, 9, 0, 1, 3, 0, 0, 0}},
		{"2^-10 s", le, 1700000000<<10 + 256, []byte{9, 0, 1, 0, 0x8a, 0, 0, 0}},
		{"after another option, end of options", le, 1700000000250,
			[]byte{2, 0, 2, 0, 'l', 'o', 0, 0, 9, 0, 1, 0, 3, 0, 0, 0, 0, 0, 0, 0}},
		{"offset", le, 250000, append([]byte{14, 0, 8, 0}, le.AppendUint64(nil, 1700000000)...)},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			file := append(section(test.order), iface(test.order, linkRaw, test.opts...)...)
			file = append(file, enhanced(test.order, test.stamp, packet)...)
			checkFirst(t, file)
		})
	}
}

// Simple and obsolete packet blocks, unknown and very long blocks between, a second section
// in the other byte order.
func TestNgBlocks(t *testing.T) {
	le, be := binary.LittleEndian, binary.BigEndian
	packet := unhex(t, vectorIP)
	file := append(section(le), iface(le, linkRaw)...)
	file = append(file, enhanced(le, 1700000000250000, packet)...)
	file = append(file, block(le, 0x40000bad, make([]byte, bufferBytes+4096))...)
	file = append(file, block(le, blockSimple, append(le.AppendUint32(nil, uint32(len(packet))), packet...))...)
	file = append(file, section(be)...)
	file = append(file, iface(be, linkRaw)...)
	old := append(make([]byte, 4), be.AppendUint64(nil, 1700000000250000)...)
	old = be.AppendUint32(old, uint32(len(packet)))
	old = be.AppendUint32(old, uint32(len(packet)))
	file = append(file, block(be, blockPacket, append(old, packet...))...)
	r, err := Open(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	for range 3 {
		d, err := r.Next()
		if err != nil {
			t.Fatal(err)
		}
		checkVector(t, d)
	}
	if _, err := r.Next(); err != io.EOF {
		t.Errorf("end: %v", err)
	}
}

// The pcapng reader of gopacket, where it is right (resolutions that are a power of ten),
// finds the same packets.
func TestNgAgainstReference(t *testing.T) {
	for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
		file := section(order)
		for i, resolution := range []byte{3, 6, 7, 9, 12} {
			file = append(file, iface(order, []uint16{linkRaw, linkEthernet, linkLinuxSLL2}[i%3], 9, 0, 1, 0,
				resolution, 0, 0, 0)...)
			if order == binary.AppendByteOrder(binary.BigEndian) {
				copy(file[len(file)-12:], []byte{0, 9, 0, 1})
			}
		}
		for i := range uint64(200) {
			b := enhanced(order, i*0x9e3779b97f4a7c15>>8, make([]byte, i))
			order.(binary.ByteOrder).PutUint32(b[8:], uint32(i%5))
			file = append(file, b...)
		}
		reference, err := pcapgo.NewNgReader(bytes.NewReader(file), pcapgo.NgReaderOptions{WantMixedLinkType: true})
		if err != nil {
			t.Fatal(err)
		}
		r, err := Open(bytes.NewReader(file))
		if err != nil {
			t.Fatal(err)
		}
		for i := range 200 {
			data, info, err := reference.ReadPacketData()
			if err != nil {
				t.Fatal(err)
			}
			in, err := reference.Interface(info.InterfaceIndex)
			if err != nil {
				t.Fatal(err)
			}
			var p packet
			if err := r.blocks.next(&p); err != nil {
				t.Fatal(err)
			}
			if !p.time.Equal(info.Timestamp) || p.link != int(in.LinkType) || !bytes.Equal(p.data, data) {
				t.Errorf("packet %d: %s", i, cmp.Diff([]any{info.Timestamp, int(in.LinkType), data},
					[]any{p.time, p.link, p.data}))
			}
		}
	}
}

// go test -bench Next -benchmem ./stream/capture
func BenchmarkNextNg(b *testing.B) {
	const n = 10000
	le := binary.LittleEndian
	file := append(section(le), iface(le, linkRaw)...)
	file = append(file, bytes.Repeat(enhanced(le, 1700000000250000, long(b, 1)[40:]), n)...)
	b.SetBytes(int64(len(file) / n))
	b.ReportAllocs()
	var r *Reader
	for i := range b.N {
		if i%n == 0 {
			r, _ = Open(bytes.NewReader(file))
		}
		if _, err := r.Next(); err != nil {
			b.Fatal(err)
		}
	}
}
