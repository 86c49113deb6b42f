package capture

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"io"
	"net/netip"
	"os"
	"strings"
	"testing"
	"time"
)

// One UDP datagram from 127.0.0.1:49001 to 127.0.0.1:49002, recorded at 1700000000.25 s, in
// a file of each link type. The bytes were computed for this and accepted by tcpdump.
const (
	vectorHead = "d4c3b2a1020004000000000000000000ffff0000"
	vectorTime = "00f1536590d00300"
	vectorIP   = "450000320001000040117cb87f0000017f000001bf69bf6a001eb65e" +
		"5841545453696d2c3237302e352c332e322c34352e30"
	vectorPayload = "XATTSim,270.5,3.2,45.0"
)

var vectors = []struct {
	name, link, length, header string
}{
	{"Ethernet", "01000000", "40000000", "0000000000000000000000000800"},
	{"Ethernet with VLAN tag", "01000000", "44000000", "000000000000000000000000810000050800"},
	{"Ethernet with frame check length", "01000014", "40000000", "0000000000000000000000000800"},
	{"null", "00000000", "36000000", "02000000"},
	{"raw", "65000000", "32000000", ""},
	{"raw BSD", "0c000000", "32000000", ""},
	{"raw OpenBSD", "0e000000", "32000000", ""},
	{"IPv4", "e4000000", "32000000", ""},
	{"Linux cooked", "71000000", "42000000", "00000304000600000000000000000800"},
	{"Linux cooked 2", "14010000", "46000000", "0800000000000001030400060000000000000000"},
	{"loop", "6c000000", "36000000", "00000002"},
}

func unhex(t testing.TB, s string) []byte {
	t.Helper()
	b, err := hex.DecodeString(s)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func vectorFile(t testing.TB, i int) []byte {
	v := vectors[i]
	return unhex(t, vectorHead+v.link+vectorTime+v.length+v.length+v.header+vectorIP)
}

// checkFirst holds the first datagram of a file against the vector.
func checkFirst(t *testing.T, file []byte) {
	t.Helper()
	r, err := Open(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	d, err := r.Next()
	if err != nil {
		t.Fatal(err)
	}
	checkVector(t, d)
}

func checkVector(t *testing.T, d Datagram) {
	t.Helper()
	want := Datagram{
		Received:    time.Unix(1700000000, 250e6).UTC(),
		Source:      netip.MustParseAddrPort("127.0.0.1:49001"),
		Destination: netip.MustParseAddrPort("127.0.0.1:49002"),
	}
	if string(d.Payload) != vectorPayload || !d.Received.Equal(want.Received) || d.Source != want.Source ||
		d.Destination != want.Destination {
		t.Errorf("got %q from %v to %v at %v", d.Payload, d.Source, d.Destination, d.Received)
	}
	if d.Seconds() != 1700000000.25 {
		t.Errorf("seconds %v", d.Seconds())
	}
}

func TestLinkTypes(t *testing.T) {
	for i, v := range vectors {
		t.Run(v.name, func(t *testing.T) {
			r, err := Open(bytes.NewReader(vectorFile(t, i)))
			if err != nil {
				t.Fatal(err)
			}
			d, err := r.Next()
			if err != nil {
				t.Fatal(err, r.Stats())
			}
			checkVector(t, d)
			if _, err := r.Next(); err != io.EOF {
				t.Errorf("end: %v", err)
			}
			if got := r.Stats(); got != (Stats{Packets: 1, Datagrams: 1}) {
				t.Errorf("stats %+v", got)
			}
		})
	}
}

// The four magic numbers: either byte order, micro- or nanoseconds.
func TestByteOrders(t *testing.T) {
	packet := unhex(t, vectorIP)
	for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
		for magic, tick := range map[uint32]uint32{0xa1b2c3d4: 1000, 0xa1b23c4d: 1} {
			b := order.AppendUint32(nil, magic)
			b = order.AppendUint16(b, 2)
			b = order.AppendUint16(b, 4)
			for _, v := range []uint32{0, 0, 65535, linkRaw, 1700000000, 250e6 / tick, uint32(len(packet)),
				uint32(len(packet))} {
				b = order.AppendUint32(b, v)
			}
			checkFirst(t, append(b, packet...))
		}
	}
}

func zip(b []byte) []byte {
	var out bytes.Buffer
	z := gzip.NewWriter(&out)
	z.Write(b)
	z.Close()
	return out.Bytes()
}

func TestGzip(t *testing.T) {
	checkFirst(t, zip(vectorFile(t, 0)))
}

// IPv6 with extension headers, fragments, and packets that are something else.
func TestPackets(t *testing.T) {
	udp6 := func(next byte, extensions, tail string) string {
		payload := extensions + "bf69bf6a000b0000616263" + tail
		n := len(payload) / 2
		return hex.EncodeToString([]byte{0x60, 0, 0, 0, byte(n >> 8), byte(n), next, 64}) +
			strings.Repeat("00", 15) + "01" + strings.Repeat("00", 15) + "01" + payload
	}
	tests := []struct {
		name, packet string
		want         finding
	}{
		{"IPv6", udp6(17, "", ""), findDatagram},
		{"IPv6, options before", udp6(0, "3c00000000000000"+"1101000000000000"+"0000000000000000", ""), findDatagram},
		{"IPv6, fragment header of a whole packet", udp6(44, "1100000000000001", ""), findDatagram},
		{"IPv6 fragment", udp6(44, "1100000100000001", ""), findFragment},
		{"IPv6 TCP", udp6(6, "", ""), findOther},
		{"IPv6 cut", udp6(17, "", "")[:90], findCut},
		{"IPv6 too short", udp6(17, "", "")[:60], findMalformed},
		{"IPv6 extension beyond the end", udp6(0, "11ff000000000000", ""), findMalformed},
		{"IPv4 fragment", strings.Replace(vectorIP, "00010000", "00012000", 1), findFragment},
		{"IPv4 later fragment", strings.Replace(vectorIP, "00010000", "00010010", 1), findFragment},
		{"IPv4, do not fragment", strings.Replace(vectorIP, "00010000", "00014000", 1), findDatagram},
		{"IPv4 TCP", strings.Replace(vectorIP, "4011", "4006", 1), findOther},
		{"IPv4 cut", vectorIP[:80], findCut},
		{"IPv4 with padding behind", vectorIP + "0000000000", findDatagram},
		{"IPv4 header too short", "44" + vectorIP[2:], findMalformed},
		{"IPv4 shorter than its header", vectorIP[:4] + "0010" + vectorIP[8:], findMalformed},
		{"UDP longer than its packet", strings.Replace(vectorIP, "001eb65e", "001fb65e", 1), findMalformed},
		{"UDP shorter than its header", strings.Replace(vectorIP, "001eb65e", "0007b65e", 1), findMalformed},
		{"version 5", "50" + vectorIP[2:], findOther},
		{"nothing", "", findMalformed},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			var d Datagram
			if got := d.parse(unhex(t, test.packet), linkRaw); got != test.want {
				t.Errorf("finding %v; must be %v", got, test.want)
			}
			if test.want == findDatagram && strings.HasPrefix(test.packet, "6") {
				if string(d.Payload) != "abc" || d.Source != netip.MustParseAddrPort("[::1]:49001") {
					t.Errorf("%q from %v", d.Payload, d.Source)
				}
			}
		})
	}
	var d Datagram
	arp := unhex(t, "ffffffffffff00000000000008060001")
	if got := d.parse(arp, linkEthernet); got != findOther {
		t.Errorf("ARP: finding %v", got)
	}
	if got := d.parse(arp[:10], linkEthernet); got != findMalformed {
		t.Errorf("short frame: finding %v", got)
	}
	if got := d.parse(arp, 105); got != findOther {
		t.Errorf("unknown link type: finding %v", got)
	}
}

// Wherever a file is cut, what is whole before is read, and the error says how much it was.
func TestCut(t *testing.T) {
	ng, err := os.ReadFile("testdata/mixed.pcapng")
	if err != nil {
		t.Fatal(err)
	}
	one := vectorFile(t, 0)
	classic := append(append([]byte{}, one...), one[24:]...)
	for name, file := range map[string][]byte{"classic": classic, "ng": ng, "classic gzipped": zip(classic),
		"ng gzipped": zip(ng)} {
		for n := range file {
			r, err := Open(bytes.NewReader(file[:n]))
			var cut *CutError
			var format *FormatError
			if err != nil {
				if !errors.As(err, &cut) && !errors.As(err, &format) {
					t.Fatalf("%s cut to %d bytes: %v", name, n, err)
				}
				continue
			}
			got := uint64(0)
			for err == nil {
				if _, err = r.Next(); err == nil {
					got++
				}
			}
			stats := r.Stats()
			if err == io.EOF {
				if strings.HasSuffix(name, "gzipped") { // its own length and checksum are missing
					t.Fatalf("%s cut to %d bytes: taken as whole", name, n)
				}
			} else if !errors.As(err, &cut) || cut.Packets != stats.Packets || !errors.Is(err, io.ErrUnexpectedEOF) {
				t.Fatalf("%s cut to %d bytes: %v with %+v", name, n, err, stats)
			}
			if got != stats.Datagrams {
				t.Fatalf("%s cut to %d bytes: %d datagrams, counted %d", name, n, got, stats.Datagrams)
			}
			if _, again := r.Next(); again != err {
				t.Fatalf("the end changed from %v to %v", err, again)
			}
		}
	}
}

func TestErrors(t *testing.T) {
	const mustBe = "; must be a pcap or pcapng capture file, or a text log of rows below a line of names, as it is " +
		"or compressed by gzip or zstd"
	one := vectorFile(t, 0)
	bend := func(at int, with ...byte) []byte {
		b := bytes.Clone(one)
		copy(b[at:], with)
		return b
	}
	damagedGzip := zip(one)
	damagedGzip[len(damagedGzip)-6] ^= 0xff
	tests := []struct {
		name string
		file []byte
		want string
	}{
		{"empty", nil, "the file is empty or only a few bytes long" + mustBe},
		{"text", []byte("t,heading\n"), `the file begins with "74 2c 68 65"` + mustBe},
		{"gzipped text", zip([]byte("t,heading\n")), `the file begins with "74 2c 68 65"` + mustBe},
		{"bad gzip", []byte{0x1f, 0x8b, 0, 0, 0, 0, 0, 0, 0, 0, 0}, "the file is gzipped but damaged" + mustBe},
		{"version", bend(4, 3), `the header of this pcap file is not understood ("Unknown major version 3")` + mustBe},
		{"link type", bend(20, 105), "link type 105 is not understood: record on an Ethernet, loopback or raw IP " +
			"interface" + mustBe},
		{"header cut", one[:20], "the recording is cut off after 0 packets; those before were read"},
		{"packet length", bend(34, 0xff), "the recording is damaged after 0 packets (\"capture length exceeds snap " +
			"length: 16711744 > 65535\"); those before were read"},
		{"gzip checksum", damagedGzip,
			"the recording is damaged after 1 packets (\"gzip: invalid checksum\"); those before were read"},
		{"ng order", append([]byte("\x0a\x0d\x0d\x0a\x1c\x00\x00\x00"), make([]byte, 20)...),
			"the recording is damaged after 0 packets (\"section without byte order\"); those before were read"},
		{"ng without interface", append(section(binary.LittleEndian), enhanced(binary.LittleEndian, 0, nil)...),
			"the recording is damaged after 0 packets (\"packet of interface 0 of 0\"); those before were read"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			r, err := Open(bytes.NewReader(test.file))
			for err == nil {
				_, err = r.Next()
			}
			if err.Error() != test.want {
				t.Errorf("got  %v\nwant %v", err, test.want)
			}
		})
	}
}

func TestNextAllocates(t *testing.T) {
	file := long(t, 4000)
	r, err := Open(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	if n := testing.AllocsPerRun(3000, func() {
		if _, err := r.Next(); err != nil {
			t.Fatal(err)
		}
	}); n != 0 {
		t.Errorf("%v allocations a datagram", n)
	}
}

// long makes a classic file of n datagrams of 500 bytes.
func long(t testing.TB, n int) []byte {
	head := unhex(t, vectorHead+"65000000")
	payload := make([]byte, 500)
	packet := unhex(t, vectorTime+"1002000010020000"+"450002100001000040110000"+"7f0000017f000001"+"bf69bf6a01fc0000")
	packet = append(packet, payload...)
	return append(head, bytes.Repeat(packet, n)...)
}

// FuzzReader: whatever the file, reading ends, the counts add up, and what is yielded lies
// within the packet.
func FuzzReader(f *testing.F) {
	ng, err := os.ReadFile("testdata/mixed.pcapng")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(ng)
	for i := range vectors {
		f.Add(vectorFile(f, i))
	}
	f.Add(append(section(binary.BigEndian), iface(binary.BigEndian, linkEthernet)...))
	f.Fuzz(func(t *testing.T, file []byte) {
		r, err := Open(bytes.NewReader(file))
		if err != nil {
			return
		}
		for {
			d, err := r.Next()
			if err != nil {
				break
			}
			if len(d.Payload) > len(file) || !d.Source.Addr().IsValid() {
				t.Fatalf("payload of %d bytes from %v", len(d.Payload), d.Source)
			}
		}
		s := r.Stats()
		if s.Packets != s.Datagrams+s.Cut+s.Fragments+s.Other+s.Malformed+s.Untimed {
			t.Fatalf("counts do not add up: %+v", s)
		}
		if s.Packets > uint64(len(file)/12) {
			t.Fatalf("%d packets in %d bytes", s.Packets, len(file))
		}
	})
}

// go test -bench Next -benchmem ./stream/capture
func BenchmarkNext(b *testing.B) {
	const n = 10000
	file := long(b, n)
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
