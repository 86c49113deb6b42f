package record

import (
	"errors"
	"fmt"
	"io"
	"net/netip"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/gopacket/gopacket"
	"github.com/gopacket/gopacket/layers"
	"github.com/gopacket/gopacket/pcapgo"
)

var (
	simulator = netip.MustParseAddrPort("192.168.1.20:49001")
	here      = netip.MustParseAddrPort("192.168.1.2:7181")
	noon      = time.Date(2026, 1, 2, 12, 0, 0, 125, time.UTC)
)

// add adds datagrams numbered from a number on, ten a second of flight, and waits until they are taken.
func add(r *Recorder, from, n int) {
	for i := from; i < from+n; i++ {
		for r.Waiting() > queueLength/2 {
			yield()
		}
		r.Add(fmt.Appendf(nil, "datagram %d", i), simulator, here, noon.Add(time.Duration(i)*100*time.Millisecond))
	}
	drained(r)
}

func yield() { runtime.Gosched() }

// drained waits until the queue is empty.
func drained(r *Recorder) {
	for r.Waiting() > 0 {
		r.queue.rouse() // instead of the next tick
		yield()
	}
}

// read returns what a recording holds: payloads, comments by datagram, and those at the end.
func read(t *testing.T, dir string) (payloads []string, comments map[int][]string, rest []string) {
	t.Helper()
	parts, err := Parts(dir)
	if err != nil {
		t.Fatal(err)
	}
	r := Read(parts)
	defer r.Close()
	comments = map[int][]string{}
	for {
		d, err := r.Next()
		if errors.Is(err, io.EOF) {
			return payloads, comments, r.Rest()
		}
		if err != nil {
			t.Fatal(err)
		}
		if d.Source != simulator || d.Destination != here {
			t.Fatalf("from %v to %v", d.Source, d.Destination)
		}
		if d.Comments != nil {
			comments[len(payloads)] = d.Comments
		}
		payloads = append(payloads, string(d.Payload))
	}
}

func numbered(n int) []string {
	var list []string
	for i := range n {
		list = append(list, fmt.Sprintf("datagram %d", i))
	}
	return list
}

// What is recorded is read again, with its comments, over several files; a compressed one too.
func TestRecord(t *testing.T) {
	dir := t.TempDir()
	var closed []string
	o := Options{Program: "halfturn 1", Station: "Station 3",
		Section: func(part int) string { return fmt.Sprint("part ", part) },
		Rotate:  4000, Closed: func(name string) { closed = append(closed, name) }}
	r := Begin(dir, o)
	add(r, 0, 50)
	r.Add([]byte("datagram 50"), simulator, here, noon, "one", "two")
	add(r, 51, 49)
	if err := r.Close("the end"); err != nil {
		t.Fatal(err)
	}
	if s := r.Status(); s.State != On || s.Written != 100 || s.Lost != 0 {
		t.Errorf("status %+v", s)
	}
	check := func() {
		t.Helper()
		payloads, comments, rest := read(t, dir)
		if !slices.Equal(payloads, numbered(100)) || !slices.Equal(comments[50], []string{"one", "two"}) ||
			len(comments) != 1 || !slices.Equal(rest, []string{"the end"}) {
			t.Errorf("%d datagrams, comments %v, at the end %v", len(payloads), comments, rest)
		}
	}
	check()
	if len(closed) < 2 {
		t.Fatalf("closed %v", closed)
	}
	for i, name := range closed {
		if head, err := ReadHead(t.Context(), name); err != nil || head.Comment != fmt.Sprint("part ", i+1) {
			t.Errorf("%s begins with %q, %v", name, head.Comment, err)
		}
	}
	if err := Compress(closed[0]); err != nil {
		t.Fatal(err)
	}
	check()
	if err := os.WriteFile(closed[0], []byte("not removed yet"), 0o600); err != nil { // the power went in between
		t.Fatal(err)
	}
	if parts, err := Parts(dir); err != nil || parts[0] != closed[0] || len(parts) != len(closed) {
		t.Errorf("parts %v, %v", parts, err)
	}
	r = Begin(dir, o) // goes on behind what is there
	add(r, 100, 1)
	if err := r.Close(); err != nil {
		t.Fatal(err)
	}
	if parts, _ := Parts(dir); len(parts) != len(closed) {
		t.Errorf("parts %v, closed %v", parts, closed)
	}
}

// A recording opens in another reader: that of gopacket, with the same times and packets.
func TestOtherReader(t *testing.T) {
	dir := t.TempDir()
	r := Begin(dir, Options{Program: "halfturn 1", Station: "Station 3"})
	add(r, 0, 20)
	if err := r.Close(); err != nil {
		t.Fatal(err)
	}
	f, err := os.Open(filepath.Join(dir, "stream-0001.pcapng"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	ng, err := pcapgo.NewNgReader(f, pcapgo.DefaultNgReaderOptions)
	if err != nil {
		t.Fatal(err)
	}
	for i := range 20 {
		data, info, err := ng.ReadPacketData()
		if err != nil {
			t.Fatal(err)
		}
		p := gopacket.NewPacket(data, ng.LinkType(), gopacket.Default)
		udp, ok := p.Layer(layers.LayerTypeUDP).(*layers.UDP)
		if !ok || string(udp.Payload) != fmt.Sprintf("datagram %d", i) || udp.SrcPort != 49001 ||
			!info.Timestamp.Equal(noon.Add(time.Duration(i)*100*time.Millisecond)) {
			t.Errorf("packet %d: %v at %v", i, p, info.Timestamp)
		}
	}
}

// And in tshark, the reader of the format's own authors.
func TestTshark(t *testing.T) {
	tshark, err := exec.LookPath("tshark")
	if err != nil {
		t.Log("tshark is not here; TestOtherReader reads the file by another library")
		return
	}
	dir := t.TempDir()
	r := Begin(dir, Options{Program: "halfturn 1", Station: "Station 3",
		Section: func(int) string { return "halfturn {}" }})
	add(r, 0, 3)
	r.Add([]byte("datagram 3"), simulator, here, noon, "halfturn {\"student\":\"A\"}")
	if err := r.Close("at the end"); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(tshark, "-r", filepath.Join(dir, "stream-0001.pcapng"), "-T", "fields", "-e",
		"frame.time_epoch", "-e", "udp.srcport", "-e", "udp.checksum.status", "-e", "data.data", "-e", "frame.comment",
		"-o", "udp.check_checksum:TRUE").Output()
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) != 4 || !strings.Contains(lines[0], "12:00:00.000000125") &&
		!strings.HasPrefix(lines[0], "1767355200.000000125") ||
		!strings.Contains(lines[3], `halfturn {"student":"A"}`) ||
		!strings.Contains(lines[0], fmt.Sprintf("%x", "datagram 0")) || !strings.Contains(lines[0], "\t49001\t") {
		t.Errorf("tshark reads\n%s", out)
	}
}

// What a recorder costs per datagram: go test -bench Add ./stream/record
func BenchmarkAdd(b *testing.B) {
	r := Begin(b.TempDir(), Options{})
	data := make([]byte, 400)
	b.ReportAllocs()
	for i := range b.N {
		for r.Waiting() > queueLength/2 {
			yield()
		}
		r.Add(data, simulator, here, noon.Add(time.Duration(i)*time.Second/60))
	}
	if err := r.Close(); err != nil {
		b.Fatal(err)
	}
	if s := r.Status(); s.Lost > 0 {
		b.Errorf("%d were lost", s.Lost)
	}
}
