package s3

import (
	"bytes"
	"context"
	"fmt"
	"net/netip"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/rs/zerolog"

	"halfturn/coach/archive"
	"halfturn/coach/archive/depot"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/who"
	"halfturn/stream/record"
	"halfturn/web/cluster/spool"
)

var began = time.Date(2031, 5, 4, 9, 0, 7, 0, time.UTC)

// at is a logbook in a file that several nodes share.
type at struct {
	sqlite.Engine
	file string
}

func (e at) Open(_ string, check bool) (logbook.Book, error) { return e.Engine.Open(e.file, check) }

// A node keeps its sessions in a bucket.
type node struct {
	*archive.Archive
	spool *spool.Spool
}

func startNode(t testing.TB, name, index string, d depot.Depot) *node {
	t.Helper()
	n := &node{spool: spool.New(spool.Options{Every: 20 * time.Millisecond, Log: zerolog.Nop()})}
	about := n.spool.Depot(d, name)
	about.Fresh = -1
	book, err := archive.Open(t.TempDir(), archive.Options{Engine: at{file: index}, Depot: about})
	if err != nil {
		t.Fatal(err)
	}
	n.Archive = book
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan struct{})
	go func() {
		defer close(done)
		n.spool.Run(ctx, book)
	}()
	t.Cleanup(func() {
		stop()
		<-done
		if err := book.Close(); err != nil {
			t.Error(err)
		}
	})
	return n
}

// A flight is recorded on a node.
type flight struct {
	id string
	r  *record.Recorder
	n  int
}

func (n *node) fly(t testing.TB, at time.Time) *flight {
	t.Helper()
	id, err := n.Reserve(at, "seat")
	if err != nil {
		t.Fatal(err)
	}
	r := n.Folders().Record(id, record.Options{
		Every:   time.Millisecond,
		Sync:    time.Millisecond,
		Flushed: func(file string, size int64) { n.spool.Stored(id, file, size) },
		Closed:  func(file string) { n.spool.Complete(id, file) },
	})
	return &flight{id: id, r: r}
}

func (f *flight) send(n int) {
	for range n {
		f.n++
		text := fmt.Sprintf("datagram %d %s", f.n, strings.Repeat("x", 380))
		f.r.Add([]byte(text), netip.AddrPort{}, netip.AddrPort{}, began.Add(time.Duration(f.n)*time.Second/60))
	}
	f.r.Flush()
}

func (n *node) land(t testing.TB, f *flight) {
	t.Helper()
	for _, err := range []error{
		f.r.Close(), n.Begin(logbook.Entry{ID: f.id, Station: "seat", Began: began, Maneuver: "wing-over"}),
		n.End(f.id, began.Add(time.Hour)), n.Folders().Finish(f.id),
	} {
		if err != nil {
			t.Fatal(err)
		}
	}
	n.spool.Over(f.id)
}

// read counts the datagrams of a recording as a replay reads them, in order.
func read(t *testing.T, n *node, id string) int {
	t.Helper()
	r := record.Read(n.Recording(id))
	defer r.Close()
	for i := 1; ; i++ {
		d, err := r.Next()
		if err != nil {
			return i - 1
		}
		if !strings.HasPrefix(string(d.Payload), fmt.Sprintf("datagram %d ", i)) {
			t.Fatalf("datagram %d is %.20q", i, d.Payload)
		}
	}
}

// TestNodes: two nodes on one bucket. What one flies the other replays while it is flown; the store is killed in the
// meantime and comes back, and nothing is lost or doubled. Changes of either are seen by the other.
func TestNodes(t *testing.T) {
	if testing.Short() {
		t.Skip("waits for a server that is gone; see make engines")
	}
	server := Start(t)
	index := filepath.Join(t.TempDir(), "logbook.db")
	a := startNode(t, "a", index, server.Bucket(t, "ours"))
	b := startNode(t, "b", index, server.Bucket(t, "ours"))
	f := a.fly(t, began)
	f.send(500)
	until(t, func() bool { return read(t, b, f.id) == 500 })
	server.Kill()
	f.send(500)
	until(t, func() bool { return !a.spool.State().Away.IsZero() })
	if n := read(t, b, f.id); n != 500 {
		t.Errorf("while the store is gone %d datagrams are read of 500", n)
	}
	if said := a.spool.Lacking(); len(said) != 1 || !strings.Contains(said[0].String(), "nothing is lost") {
		t.Errorf("told is %q", said)
	}
	server.Run(t)
	until(t, func() bool { return read(t, b, f.id) == 1000 })
	f.send(500)
	a.land(t, f)
	until(t, func() bool { return a.spool.State().Sessions == 0 })
	if n := read(t, b, f.id); n != 1500 {
		t.Errorf("%d datagrams of 1500", n)
	}
	own, copied := a.Recording(f.id), b.Recording(f.id)
	for i := range own {
		is, err := os.ReadFile(own[i])
		must(t, err)
		there, err := os.ReadFile(copied[i])
		must(t, err)
		if !bytes.Equal(is, there) {
			t.Errorf("%s differs", own[i])
		}
	}
	_, err := b.Remark(who.Owner(), f.id, logbook.Remark{Words: "from b", By: "instructor", At: began})
	must(t, err, a.SetKeep(who.Owner(), f.id, true))
	for _, n := range []*node{a, b} {
		if acts, err := n.Acts(f.id); err != nil || len(acts) != 2 {
			t.Errorf("%+v, %v", acts, err)
		}
	}
}

// startBench starts a server with a bucket.
func startBench(b *testing.B) depot.Depot { return Start(b).Bucket(b, "ours") }

// BenchmarkPut stores what a recording is of: pieces and complete files.
func BenchmarkPut(b *testing.B) {
	bucket := startBench(b)
	for name, size := range map[string]int{"24KiB": 24 << 10, "1MiB": 1 << 20, "64MiB": 64 << 20} {
		file := filepath.Join(b.TempDir(), "file")
		if err := os.WriteFile(file, make([]byte, size), 0o600); err != nil {
			b.Fatal(err)
		}
		b.Run(name, func(b *testing.B) {
			b.SetBytes(int64(size))
			for b.Loop() {
				f, err := os.Open(file)
				if err != nil {
					b.Fatal(err)
				}
				if _, err := bucket.Put(b.Context(), "x", f, int64(size)); err != nil {
					b.Fatal(err)
				}
				if err := f.Close(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkOpen opens a session of half an hour (60 datagrams of 400 bytes a second) that another node flew: cold, and
// when the copy is here, asked again whether it is the newest.
func BenchmarkOpen(b *testing.B) {
	bucket := startBench(b)
	index := filepath.Join(b.TempDir(), "logbook.db")
	flew := startNode(b, "a", index, bucket)
	f := flew.fly(b, began)
	for range 30 * 60 {
		f.send(60)
		for f.r.Waiting() > 4000 {
			<-time.After(time.Millisecond)
		}
	}
	flew.land(b, f)
	for flew.spool.State().Sessions > 0 {
		<-time.After(10 * time.Millisecond)
	}
	reader := startNode(b, "b", index, bucket)
	open := func(b *testing.B) {
		dir, err := reader.Folder(f.id)
		if err != nil || len(reader.Recording(f.id)) == 0 {
			b.Fatal(dir, err)
		}
	}
	b.Run("cold", func(b *testing.B) {
		for b.Loop() {
			open(b)
			b.StopTimer()
			if n, err := reader.Evict(b.Context(), archive.Eviction{Size: 1}); n != 1 || err != nil {
				b.Fatal(n, err)
			}
			b.StartTimer()
		}
	})
	b.Run("warm", func(b *testing.B) {
		open(b)
		for b.Loop() {
			open(b)
		}
	})
	b.Run("acts", func(b *testing.B) { // without the recording
		for b.Loop() {
			if _, err := reader.Acts(f.id); err != nil {
				b.Fatal(err)
			}
			b.StopTimer()
			if _, err := reader.Evict(b.Context(), archive.Eviction{Size: 1}); err != nil {
				b.Fatal(err)
			}
			b.StartTimer()
		}
	})
	b.Run("remark", func(b *testing.B) {
		for keep := true; b.Loop(); keep = !keep {
			if err := reader.SetKeep(who.Owner(), f.id, keep); err != nil {
				b.Fatal(err)
			}
		}
	})
}
