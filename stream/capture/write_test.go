package capture

import (
	"bytes"
	"encoding/binary"
	"errors"
	"io"
	"net/netip"
	"slices"
	"strings"
	"testing"
	"time"
)

// written is a file with these datagrams, and comments at the end.
func written(t *testing.T, all []Datagram, rest []string) []byte {
	t.Helper()
	var file bytes.Buffer
	w, err := NewWriter(&file, "halfturn 1", "Station 3", "about the section")
	if err != nil {
		t.Fatal(err)
	}
	for i := range all {
		if err := w.Write(&all[i]); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Finish(rest); err != nil {
		t.Fatal(err)
	}
	return file.Bytes()
}

// sent are datagrams over both versions of IP, with comments, empty and large.
func sent() []Datagram {
	v4 := netip.MustParseAddrPort("192.0.2.1:49001")     // RFC 5737
	v6 := netip.MustParseAddrPort("[2001:db8::1]:49001") // RFC 3849
	mapped := netip.MustParseAddrPort("[::ffff:192.0.2.2]:7181")
	at := time.Date(2030, 3, 1, 12, 0, 0, 123456789, time.UTC)
	return []Datagram{
		{Received: at, Source: v4, Destination: netip.MustParseAddrPort("192.0.2.2:7181"), Payload: []byte("a")},
		{Received: at.Add(1), Source: v4, Destination: mapped, Payload: []byte("as IPv4"),
			Comments: []string{"one", "two"}},
		{Received: at.Add(time.Second), Source: v6, Destination: netip.MustParseAddrPort("[2001:db8::2]:7181"),
			Payload: []byte("over IPv6"), Comments: []string{""}},
		{Received: at.Add(time.Hour), Source: v4, Destination: mapped, Payload: []byte{}},
		{Received: at.Add(-time.Hour), Source: v4, Destination: mapped, Payload: bytes.Repeat([]byte("x"), 60000)},
	}
}

// What is written is read again: times to the nanosecond, addresses, payloads and comments.
func TestWriteRead(t *testing.T) {
	all := sent()
	r, err := Open(bytes.NewReader(written(t, all, []string{"the end", "of it"})))
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	for i := range all {
		want := &all[i]
		if i == 0 && r.Section() != "about the section" {
			t.Errorf("the section says %q", r.Section())
		}
		d, err := r.Next()
		if err != nil {
			t.Fatalf("datagram %d: %v", i, err)
		}
		destination := netip.AddrPortFrom(want.Destination.Addr().Unmap(), want.Destination.Port())
		if !d.Received.Equal(want.Received) || d.Source != want.Source || d.Destination != destination ||
			!bytes.Equal(d.Payload, want.Payload) || !slices.Equal(d.Comments, want.Comments) {
			t.Errorf("datagram %d: %v %v → %v, %d bytes, %q", i, d.Received, d.Source, d.Destination, len(d.Payload),
				d.Comments)
		}
	}
	if _, err := r.Next(); err != io.EOF {
		t.Errorf("at the end: %v", err)
	}
	if rest := r.Rest(); !slices.Equal(rest, []string{"the end", "of it"}) {
		t.Errorf("the comments at the end are %q", rest)
	}
	if s := r.Stats(); s.Packets != 5 || s.Datagrams != 5 || s.Plus(s).Datagrams != 10 || s.Plus(s).Packets != 10 {
		t.Errorf("counted %+v", s)
	}
}

// A rawBlock is one of a pcapng file.
type rawBlock struct {
	kind uint32
	body []byte
}

// takenApart takes a little-endian file apart: type, length, body, length again (draft-ietf-opsawg-pcapng, 3.1).
func takenApart(t *testing.T, b []byte) (list []rawBlock) {
	t.Helper()
	le := binary.LittleEndian
	for len(b) > 0 {
		length := le.Uint32(b[4:])
		if length%4 != 0 || int(length) > len(b) || le.Uint32(b[length-4:]) != length {
			t.Fatalf("a block of %d bytes of %d", length, len(b))
		}
		list = append(list, rawBlock{le.Uint32(b), b[8 : length-4]})
		b = b[length:]
	}
	return list
}

// sum is the checksum of the internet (RFC 1071): 0 over what holds a right one.
func sum(parts ...[]byte) uint16 {
	total := uint32(0)
	for _, b := range parts {
		for i := 0; i < len(b); i += 2 {
			word := uint32(b[i]) << 8
			if i+1 < len(b) {
				word |= uint32(b[i+1])
			}
			total += word
		}
	}
	for total>>16 != 0 {
		total = total&0xFFFF + total>>16
	}
	return ^uint16(total)
}

// The file as its draft describes it: section, interface of raw IP with times in nanoseconds, packets, statistics; and
// the packets with right checksums (RFC 791, 768, 8200).
func TestWrittenBlocks(t *testing.T) {
	all := sent()
	le := binary.LittleEndian
	blocks := takenApart(t, written(t, all, []string{"end"}))
	kinds := []uint32{}
	for _, b := range blocks {
		kinds = append(kinds, b.kind)
	}
	if want := []uint32{0x0A0D0D0A, 1, 6, 6, 6, 6, 6, 5}; !slices.Equal(kinds, want) {
		t.Fatalf("blocks %x; must be %x", kinds, want)
	}
	if link := le.Uint16(blocks[1].body); link != 101 { // LINKTYPE_RAW
		t.Errorf("link type %d; must be 101", link)
	}
	if !bytes.Contains(blocks[1].body, []byte{9, 0, 1, 0, 9}) { // if_tsresol: 10⁻⁹
		t.Errorf("no resolution of nanoseconds in % x", blocks[1].body)
	}
	for i, b := range blocks[2:7] {
		stamp := uint64(le.Uint32(b.body[4:]))<<32 | uint64(le.Uint32(b.body[8:]))
		if stamp != uint64(all[i].Received.UnixNano()) {
			t.Errorf("packet %d: time %d; must be %d", i, stamp, all[i].Received.UnixNano())
		}
		p := b.body[20 : 20+le.Uint32(b.body[12:])]
		var addresses, udp []byte
		if p[0]>>4 == 4 {
			addresses, udp = p[12:20], p[20:]
			if sum(p[:20]) != 0 {
				t.Errorf("packet %d: the checksum of its header is wrong", i)
			}
		} else {
			addresses, udp = p[8:40], p[40:]
		}
		if n := int(binary.BigEndian.Uint16(udp[4:])); n != 8+len(all[i].Payload) || n != len(udp) {
			t.Errorf("packet %d: UDP of %d bytes, %d are there", i, n, len(udp))
		}
		if sum(addresses, []byte{0, 17}, udp[4:6], udp) != 0 { // the pseudo header, then all
			t.Errorf("packet %d: the checksum of its datagram is wrong", i)
		}
	}
	end := blocks[7].body
	count := []byte{4, 0, 8, 0, 5, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0} // isb_ifrecv: 5, then the end of options
	if !bytes.HasSuffix(end, count) || !bytes.Contains(end, []byte("end\x00")) {
		t.Errorf("statistics % x", end)
	}
}

// A comment is as long as an option of pcapng can hold, and no longer; a longer one is refused before anything of it is
// written.
func TestLongComments(t *testing.T) {
	longest, longer := strings.Repeat("x", 1<<16-4), strings.Repeat("x", 1<<16-3)
	d := sent()[0]
	d.Comments = []string{longest}
	r, err := Open(bytes.NewReader(written(t, []Datagram{d}, nil)))
	if err != nil {
		t.Fatal(err)
	}
	if got, err := r.Next(); err != nil || len(got.Comments) != 1 || got.Comments[0] != longest {
		t.Errorf("the longest: %d comments, %v", len(got.Comments), err)
	}
	var file bytes.Buffer
	if _, err := NewWriter(&file, "", "", longer); err == nil || file.Len() > 0 {
		t.Errorf("of a section: %v, %d bytes", err, file.Len())
	}
	w, err := NewWriter(&file, "", "", "")
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	before := file.Len()
	d.Comments = []string{"short", longer}
	if err := w.Write(&d); err == nil || !strings.Contains(err.Error(), "65533 bytes is longer") {
		t.Errorf("of a datagram: %v", err)
	}
	if err := w.Finish([]string{longer}); err == nil || file.Len() != before {
		t.Errorf("of the end: %v, %d bytes more", err, file.Len()-before)
	}
}

// How much of a file can be relied on: wherever it is cut, the blocks that are whole before.
func TestWhole(t *testing.T) {
	file := written(t, sent()[:3], []string{"end"})
	ends, packets := []int{}, []uint64{}
	for at, n := 0, uint64(0); at < len(file); {
		if binary.LittleEndian.Uint32(file[at:]) == 6 {
			n++
		}
		at += int(binary.LittleEndian.Uint32(file[at+4:]))
		ends, packets = append(ends, at), append(packets, n)
	}
	for cut := ends[0]; cut <= len(file); cut++ {
		i := 0
		for i+1 < len(ends) && ends[i+1] <= cut {
			i++
		}
		got, err := Whole(bytes.NewReader(file[:cut]))
		want := Part{Bytes: int64(ends[i]), Interfaces: uint64(min(i, 1)), Packets: packets[i]}
		if err != nil || got != want {
			t.Fatalf("cut at %d: %+v, %v; must be %+v", cut, got, err, want)
		}
	}
	var other *FormatError
	for name, file := range map[string][]byte{"empty": nil, "text": []byte("hello"), "classic": vectorFile(t, 0)} {
		if _, err := Whole(bytes.NewReader(file)); !errors.As(err, &other) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// What begins like a recording, also compressed, is recognized by its first bytes.
func TestRecognize(t *testing.T) {
	for name, c := range map[string]struct {
		file []byte
		want bool
	}{
		"pcapng":        {written(t, nil, nil), true},
		"classic":       {vectorFile(t, 0), true},
		"gzip":          {zip(vectorFile(t, 0)), true},
		"gzip of text":  {zip([]byte("hello, world; hello, world")), false},
		"text":          {[]byte("hello, world"), false},
		"three bytes":   {[]byte{0x0A, 0x0D, 0x0D}, false},
		"empty":         {nil, false},
		"another magic": {[]byte{0xA1, 0xB2, 0xC3, 0xD5, 0, 0, 0, 0}, false},
	} {
		if got := Recognize(bytes.NewReader(c.file)); got != c.want {
			t.Errorf("%s: %v; must be %v", name, got, c.want)
		}
	}
}
