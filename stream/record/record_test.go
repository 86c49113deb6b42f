package record

import (
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"net/netip"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"github.com/gopacket/gopacket"
	"github.com/gopacket/gopacket/layers"
	"github.com/gopacket/gopacket/pcapgo"

	"halfturn/stream/capture"
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
	for r.waiting.Load() > 0 || r.Waiting() > 0 {
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
	o := Options{Program: "halfturn 1", Station: "Seat 3",
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
		if section, err := Heading(t.Context(), name); err != nil || section != fmt.Sprint("part ", i+1) {
			t.Errorf("%s begins with %q, %v", name, section, err)
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
	r := Begin(dir, Options{Program: "halfturn 1", Station: "Seat 3"})
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
	r := Begin(dir, Options{Program: "halfturn 1", Station: "Seat 3",
		Section: func(int) string { return "halfturn {}" }})
	add(r, 0, 3)
	r.Add([]byte("datagram 3"), simulator, here, noon, "halfturn {\"student\":\"A\"}")
	if err := r.Close("at the end"); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(tshark, "-r", filepath.Join(dir, "stream-0001.pcapng"), "-T", "fields", "-e",
		"frame.time_epoch", "-e", "udp.srcport", "-e", "udp.checksum.status", "-e", "data.data", "-e", "frame.comment", "-o", "udp.check_checksum:TRUE").Output()
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) != 4 || !strings.Contains(lines[0], "12:00:00.000000125") && !strings.HasPrefix(lines[0],
		"1767355200.000000125") || !strings.Contains(lines[3], `halfturn {"student":"A"}`) ||
		!strings.Contains(lines[0], fmt.Sprintf("%x", "datagram 0")) || !strings.Contains(lines[0], "\t49001\t") {
		t.Errorf("tshark reads\n%s", out)
	}
}

// A disk is a file that takes so many bytes and then fails, until there is room again.
type disk struct {
	*os.File
	room *atomic.Int64
}

func (d *disk) Write(b []byte) (int, error) {
	room := d.room.Load()
	if int64(len(b)) > room { // as a full disk: a part is written
		n, _ := d.File.Write(b[:max(room, 0)])
		d.room.Store(0)
		return n, &os.PathError{Op: "write", Path: d.Name(), Err: syscall.ENOSPC}
	}
	d.room.Add(-int64(len(b)))
	return d.File.Write(b)
}

// While the disk is full nothing is recorded, and it is said; with room it goes on by itself, and
// the recording says what is missing. No comment is lost.
func TestDiskFull(t *testing.T) {
	dir := t.TempDir()
	var room atomic.Int64
	room.Store(6000)
	told := make(chan Status, 16)
	o := Options{Lost: func(n uint64) string { return fmt.Sprint("lost ", n) }, Changed: func(s Status) { told <- s },
		Every: time.Millisecond,
		Open: func(name string) (File, error) {
			f, err := create(name)
			if err != nil {
				return nil, err
			}
			return &disk{f.(*os.File), &room}, nil
		}}
	r := Begin(dir, o)
	n := 0
	for r.Status().State == On {
		add(r, n, 10)
		n += 10
	}
	if s := <-told; s.State != Failing || !strings.Contains(s.Words, "no room is left in") || !strings.Contains(s.Words,
		"goes on by itself") {
		t.Errorf("told %+v", s)
	}
	r.Add([]byte("chosen"), simulator, here, noon.Add(time.Hour), "chosen")
	drained(r)
	room.Store(1 << 20)
	for r.Status().State == Failing {
		add(r, n, 1)
		n++
	}
	if s := <-told; s.State != On || s.Words != "" || s.Lost == 0 {
		t.Errorf("told %+v", s)
	}
	if err := r.Close(); err != nil {
		t.Fatal(err)
	}
	payloads, comments, _ := read(t, dir)
	s := r.Status()
	if uint64(len(payloads)) != s.Written || s.Written+s.Lost != uint64(n+1) {
		t.Errorf("%d datagrams of %d are there; status %+v", len(payloads), n+1, s)
	}
	var all []string
	for _, c := range comments {
		all = append(all, c...)
	}
	if !slices.Contains(all, "chosen") || !slices.ContainsFunc(all,
		func(c string) bool { return strings.HasPrefix(c, "lost ") }) {
		t.Errorf("comments %v", all)
	}
}

// A folder that cannot be written to: said, and nothing else.
func TestReadOnly(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "file", "session")
	if err := os.WriteFile(filepath.Dir(dir), nil, 0o600); err != nil { // where a folder is wanted
		t.Fatal(err)
	}
	r := Begin(dir, Options{})
	add(r, 0, 100)
	if s := r.Status(); s.State != Failing || s.Lost != 100 {
		t.Errorf("status %+v", s)
	}
	if r.Close("a comment") == nil {
		t.Error("nothing was said of it")
	}
}

// stuck is a file that takes nothing until it is let go.
type stuck struct {
	*os.File
	release chan struct{}
}

func (s *stuck) Sync() error { <-s.release; return s.File.Sync() }

// A disk that hangs holds nobody up: what finds no room is counted, and so much memory is taken and no more.
func TestHangingDisk(t *testing.T) {
	dir := t.TempDir()
	release := make(chan struct{})
	r := Begin(dir, Options{Lost: func(n uint64) string { return fmt.Sprint("lost ", n) },
		Open: func(name string) (File, error) {
			f, err := create(name)
			if err != nil {
				return nil, err
			}
			return &stuck{f.(*os.File), release}, nil
		}})
	big := make([]byte, 60000)
	for range 1000 {
		r.Add(big, simulator, here, noon)
	}
	r.Add([]byte("x"), simulator, here, noon, "chosen")
	if s := r.Status(); s.Lost < 1000-queueBytes/60000-2 || r.waiting.Load() > queueBytes {
		t.Errorf("status %+v, %d bytes wait", s, r.waiting.Load())
	}
	close(release)
	if err := r.Close(); err != nil {
		t.Fatal(err)
	}
	payloads, comments, rest := read(t, dir)
	all := slices.Clone(rest)
	for _, c := range comments {
		all = append(all, c...)
	}
	if s := r.Status(); uint64(len(payloads)) != s.Written || s.Written+s.Lost != 1001 || !slices.Contains(all,
		"chosen") {
		t.Errorf("status %+v, %d datagrams, comments %v", s, len(payloads), all)
	}
}

// A file cut anywhere, or with rubbish at its end as after a power cut, opens again with all that was
// whole, and can be gone on from.
func TestRepair(t *testing.T) {
	whole := t.TempDir()
	r := Begin(whole, Options{Section: func(int) string { return "halfturn {}" }})
	add(r, 0, 40)
	if err := r.Close(); err != nil {
		t.Fatal(err)
	}
	file, err := os.ReadFile(filepath.Join(whole, "stream-0001.pcapng"))
	if err != nil {
		t.Fatal(err)
	}
	random := rand.New(rand.NewPCG(1, 2))
	dir := t.TempDir()
	name := filepath.Join(dir, "stream-0001.pcapng")
	for i := range 200 {
		n := random.IntN(len(file) + 1)
		if i < 100 { // also in the head
			n = i
		}
		cut := append(slices.Clone(file[:n]), make([]byte, random.IntN(2)*random.IntN(5000))...)
		if err := os.WriteFile(name, cut, 0o600); err != nil {
			t.Fatal(err)
		}
		lost, err := Repair(dir)
		if err != nil {
			t.Fatal(err)
		}
		now, err := os.ReadFile(name)
		if errors.Is(err, os.ErrNotExist) && !strings.Contains(string(cut), "datagram ") &&
			lost["stream-0001.pcapng"] == int64(len(cut)) {
			continue // cut within the head: nothing was in it
		}
		if err != nil || int64(len(now)) != int64(len(cut))-lost["stream-0001.pcapng"] {
			t.Fatalf("%d of %d bytes left, said %v, %v", len(now), len(cut), lost, err)
		}
		part, err := capture.Whole(strings.NewReader(string(now)))
		if err != nil && n > leastHead {
			t.Fatalf("cut at %d: %v", n, err)
		}
		if part.Bytes > 0 && part.Bytes != int64(len(now)) {
			t.Fatalf("cut at %d: %d of %d bytes are whole", n, part.Bytes, len(now))
		}
		if want := strings.Count(string(file[:n]), "datagram "); int(part.Packets) < want-1 {
			t.Fatalf("cut at %d: %d packets of %d", n, part.Packets, want)
		}
	}
	// Damage in the middle of a long recording is left: what follows may be read by another tool.
	long := append(slices.Clone(file), make([]byte, mostTorn+1)...)
	if err := os.WriteFile(name, long, 0o600); err != nil {
		t.Fatal(err)
	}
	if lost, err := Repair(dir); err != nil || len(lost) > 0 {
		t.Errorf("lost %v, %v", lost, err)
	}
	// So is a file of another kind.
	if err := os.WriteFile(name, []byte("something unknown today"), 0o600); err != nil {
		t.Fatal(err)
	}
	if lost, err := Repair(dir); err != nil || len(lost) > 0 {
		t.Errorf("lost %v, %v", lost, err)
	}
}

// A recorder costs the coach this much a datagram: go test -bench Add ./stream/record
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
