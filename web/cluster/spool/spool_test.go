package spool

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"net/netip"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/rs/zerolog"
	"go.uber.org/goleak"

	"halfturn/coach/archive"
	"halfturn/coach/archive/depot"
	"halfturn/coach/archive/depot/depottest"
	"halfturn/coach/archive/depot/directory"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/booktest"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/playback"
	"halfturn/stream/record"
	"halfturn/web/desk/practice"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

var began = time.Date(2031, 5, 4, 9, 0, 7, 0, time.UTC)

func must(t *testing.T, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

// until waits until something is so; what is waited for are files and goroutines, which have no clock of their own.
func until(t *testing.T, what string, is func() bool) {
	t.Helper()
	for end := time.Now().Add(20 * time.Second); !is(); <-time.After(5 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatalf("it does not happen that %s", what)
		}
	}
}

// at is the logbook that several nodes share.
type at struct {
	sqlite.Engine
	file string
}

func (e at) Open(_ string, check bool) (logbook.Book, error) { return e.Engine.Open(e.file, check) }

// A node is an archive with its spool.
type node struct {
	*archive.Archive
	spool *Spool
	stop  func()
	fence atomic.Uint64
	log   bytes.Buffer
}

type cluster struct {
	depot *depottest.Switch
	index string
}

func newCluster(t *testing.T) *cluster {
	t.Helper()
	d, err := directory.Open(filepath.Join(t.TempDir(), "depot"))
	must(t, err)
	return &cluster{&depottest.Switch{Depot: d}, filepath.Join(t.TempDir(), "logbook.db")}
}

// node starts a node in a data directory. Stop ends it as a kill does: nothing is stored any more.
func (c *cluster) node(t *testing.T, name, data string, o Options) *node {
	t.Helper()
	n := &node{}
	n.fence.Store(1)
	o.Fence = func(string) (uint64, bool) { return n.fence.Load(), n.fence.Load() > 0 }
	o.Log = zerolog.New(zerolog.SyncWriter(&n.log))
	if o.Every == 0 {
		o.Every = 10 * time.Millisecond
	}
	n.spool = New(o)
	about := n.spool.Depot(c.depot, name)
	about.Fresh = -1
	book, err := archive.Open(data, archive.Options{Engine: at{file: c.index}, Depot: about})
	must(t, err)
	n.Archive = book
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan struct{})
	go func() {
		defer close(done)
		n.spool.Run(ctx, book)
	}()
	n.stop = func() {
		stop()
		<-done
		must(t, book.Close())
		n.stop = func() {}
	}
	t.Cleanup(func() { n.stop() })
	return n
}

// A flight is a session that is being flown.
type flight struct {
	id  string
	r   *record.Recorder
	n   int
	own *node
}

func (n *node) fly(t *testing.T, began time.Time) *flight {
	t.Helper()
	id, err := n.Reserve(began, "seat")
	must(t, err)
	return n.goOn(t, id)
}

// goOn records a session, from now on.
func (n *node) goOn(t *testing.T, id string) *flight {
	t.Helper()
	f := &flight{id: id, own: n}
	f.r = n.Folders().Record(id, record.Options{
		Rotate:  20_000,
		Every:   time.Millisecond,
		Sync:    time.Millisecond,
		Flushed: func(file string, size int64) { n.spool.Stored(id, file, size) },
		Closed:  func(file string) { n.spool.Complete(id, file) },
	})
	n.spool.Begin(practice.Beginning{Station: "seat", Opening: playback.Opening{Session: id}})
	return f
}

// send records datagrams.
func (f *flight) send(n int) {
	for range n {
		f.n++
		text := fmt.Sprintf("datagram %d %s", f.n, strings.Repeat("x", 300))
		f.r.Add([]byte(text), netip.AddrPort{}, netip.AddrPort{}, began.Add(time.Duration(f.n)*time.Second))
	}
	f.r.Flush()
}

// land ends the flight.
func (f *flight) land(t *testing.T) {
	t.Helper()
	must(t, f.r.Close())
	must(t, f.own.End(f.id, began.Add(time.Hour)), f.own.Folders().Finish(f.id))
	f.own.spool.Over(f.id)
}

func (f *flight) begin(t *testing.T) {
	t.Helper()
	must(t, f.own.Begin(*booktest.Entry(f.id, began, "Ada Example")))
}

// quiet waits until nothing waits on a node.
func quiet(t *testing.T, n *node) {
	t.Helper()
	until(t, "all is stored", func() bool { return n.spool.State().Sessions == 0 })
}

// read counts the datagrams of a recording, and makes sure that they are those that were sent, in order.
func read(t *testing.T, n *node, id string) int {
	t.Helper()
	if _, err := n.Folder(id); err != nil {
		t.Log(err) // it may not be stored yet
		return 0
	}
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

func objects(t *testing.T, c *cluster, prefix string) (names []string) {
	t.Helper()
	must(t, c.depot.List(t.Context(), prefix, func(o depot.Object) error {
		names = append(names, o.Name)
		return nil
	}))
	return names
}

// TestFlown: what is recorded is on another node while it is flown; afterwards the pieces are gone, and the session is
// equal to the byte.
func TestFlown(t *testing.T) {
	c := newCluster(t)
	a, b := c.node(t, "a", t.TempDir(), Options{Piece: 4000}), c.node(t, "b", t.TempDir(), Options{})
	b.fence.Store(0)
	f := a.fly(t, began)
	for n := 40; n <= 200; n += 40 {
		f.send(40)
		if n == 40 {
			f.begin(t)
		}
		until(t, fmt.Sprintf("%d datagrams are on the other node", n), func() bool { return read(t, b, f.id) == n })
	}
	if !record.Unfinished(filepath.Dir(b.Recording(f.id)[0])) {
		t.Error("it is not seen that the session goes on")
	}
	f.land(t)
	quiet(t, a)
	if n := read(t, b, f.id); n != 200 {
		t.Errorf("the other node has %d datagrams of 200", n)
	}
	if left := objects(t, c, "pieces/"); len(left) > 0 {
		t.Errorf("pieces are left: %q", left)
	}
	own, copied := a.Recording(f.id), b.Recording(f.id)
	if len(own) < 2 || len(own) != len(copied) {
		t.Fatalf("the recording is %q, there %q", own, copied)
	}
	for i := range own {
		is, err := os.ReadFile(own[i])
		must(t, err)
		there, err := os.ReadFile(copied[i])
		must(t, err)
		if !bytes.Equal(is, there) {
			t.Errorf("%s differs", own[i])
		}
	}
	if record.Unfinished(filepath.Dir(copied[0])) {
		t.Error("it is not seen that the session is over")
	}
	if st := a.spool.State(); st.Stored == 0 || !st.Away.IsZero() {
		t.Errorf("%+v", st)
	}
}

// TestAway: while the depot is away everything waits on the disk, and is told; when it is back all is stored, once.
func TestAway(t *testing.T) {
	c := newCluster(t)
	a, b := c.node(t, "a", t.TempDir(), Options{Piece: 4000}), c.node(t, "b", t.TempDir(), Options{})
	b.fence.Store(0)
	f := a.fly(t, began)
	f.send(30)
	f.begin(t)
	until(t, "the beginning is stored", func() bool { return read(t, b, f.id) == 30 })
	c.depot.Off(true)
	f.send(100)
	later := a.fly(t, began.Add(time.Hour))
	later.send(50)
	later.begin(t)
	until(t, "it is noticed", func() bool { return !a.spool.State().Away.IsZero() && a.spool.State().Bytes > 100*300 })
	said := a.spool.lacking(time.Now().Add(3 * time.Minute))
	for _, words := range []string{"does not answer", "MB of recordings wait", "3 min now"} {
		if len(said) != 1 || !strings.Contains(said[0].String(), words) {
			t.Errorf("told is %q; must say %q", said, words)
		}
	}
	f.send(20)
	later.land(t)
	c.depot.Off(false)
	until(t, "it is back", func() bool { return a.spool.State().Away.IsZero() })
	f.land(t)
	quiet(t, a)
	if n, m := read(t, b, f.id), read(t, b, later.id); n != 150 || m != 50 {
		t.Errorf("the other node has %d datagrams of 150, and %d of 50", n, m)
	}
	if said := a.spool.Lacking(); said != nil {
		t.Errorf("told is %q", said)
	}
}

// TestStopped: a node that was killed while it flew stores the rest when it comes back, and doubles nothing; meanwhile
// others read as far as it was stored.
func TestStopped(t *testing.T) {
	c := newCluster(t)
	data := t.TempDir()
	a, b := c.node(t, "a", data, Options{Piece: 4000}), c.node(t, "b", t.TempDir(), Options{})
	b.fence.Store(0)
	f := a.fly(t, began)
	f.send(60)
	f.begin(t)
	until(t, "the beginning is stored", func() bool { return read(t, b, f.id) == 60 })
	c.depot.Off(true)
	f.send(20)
	until(t, "it waits", func() bool { return a.spool.State().Bytes > 0 })
	must(t, f.r.Close())
	a.stop()
	c.depot.Off(false)
	if n := read(t, b, f.id); n != 60 {
		t.Errorf("of the node that died %d datagrams are read", n)
	}
	before, again := objects(t, c, "pieces/"), c.node(t, "a", data, Options{Piece: 4000})
	until(t, "the rest is stored", func() bool { return read(t, b, f.id) == 80 })
	after := objects(t, c, "pieces/")
	if slices.ContainsFunc(before, func(name string) bool { return !slices.Contains(after, name) }) {
		t.Errorf("pieces before %q, after %q", before, after)
	}
	next := again.goOn(t, f.id)
	next.n = 80
	next.send(20)
	until(t, "it goes on", func() bool { return read(t, b, f.id) == 100 })
	next.land(t)
	quiet(t, again)
	if n := read(t, b, f.id); n != 100 {
		t.Errorf("%d datagrams of 100", n)
	}
}

// TestTakenOver: what a former holder still stores is not read, and what it left is never stored; the successor's is
// whole.
func TestTakenOver(t *testing.T) {
	c := newCluster(t)
	data := t.TempDir()
	a, b := c.node(t, "a", data, Options{Piece: 4000}), c.node(t, "b", t.TempDir(), Options{Piece: 4000})
	reader := c.node(t, "r", t.TempDir(), Options{})
	reader.fence.Store(0)
	b.fence.Store(0)
	f := a.fly(t, began)
	f.send(40)
	f.begin(t)
	until(t, "the beginning is stored", func() bool { return read(t, reader, f.id) == 40 })
	// The successor has the record up to there by another way, and writes it again.
	must(t, os.MkdirAll(filepath.Join(b.Dir(), f.id), 0o750), record.Mark(filepath.Join(b.Dir(), f.id)))
	b.fence.Store(7)
	next := b.goOn(t, f.id)
	next.send(60)
	next.begin(t)
	until(t, "the successor's is read", func() bool { return read(t, reader, f.id) == 60 })
	f.send(100) // it does not know yet
	f.r.Flush()
	must(t, f.r.Close(), a.Folders().Finish(f.id))
	a.spool.Over(f.id)
	until(t, "the former holder is refused", func() bool { return a.spool.State().Refused == 1 })
	a.stop()
	again := c.node(t, "a", data, Options{})
	until(t, "it is refused again", func() bool { return again.spool.State().Refused == 1 })
	next.send(40)
	next.land(t)
	quiet(t, b)
	if n := read(t, reader, f.id); n != 100 {
		t.Errorf("%d datagrams of 100", n)
	}
}

// TestCompressed: where complete files are compressed they are stored compressed, and once.
func TestCompressed(t *testing.T) {
	c := newCluster(t)
	a := c.node(t, "a", t.TempDir(), Options{Piece: 4000, Compress: func() bool { return true }})
	b := c.node(t, "b", t.TempDir(), Options{})
	b.fence.Store(0)
	f := a.fly(t, began)
	f.send(100)
	f.begin(t)
	until(t, "it is stored", func() bool { return read(t, b, f.id) == 100 })
	f.land(t)
	for _, part := range a.Recording(f.id) {
		must(t, record.Compress(part))
	}
	quiet(t, a)
	if n := read(t, b, f.id); n != 100 {
		t.Errorf("%d datagrams of 100", n)
	}
	for _, part := range b.Recording(f.id) {
		if !strings.HasSuffix(part, ".zst") {
			t.Errorf("%s is not compressed", part)
		}
	}
}

// TestNotHeld: a folder that this node only follows is not stored.
func TestNotHeld(t *testing.T) {
	c := newCluster(t)
	a := c.node(t, "a", t.TempDir(), Options{})
	a.fence.Store(0)
	f := a.fly(t, began)
	f.send(40)
	until(t, "it is looked at", func() bool {
		a.spool.mu.Lock()
		defer a.spool.mu.Unlock()
		j := a.spool.jobs[f.id]
		return j != nil && !j.busy && j.due.After(j.since.Add(soon+5*time.Millisecond))
	})
	if all := objects(t, c, ""); len(all) > 0 {
		t.Errorf("stored are %q", all)
	}
	a.fence.Store(3)
	until(t, "it is stored once it is held", func() bool { return len(objects(t, c, "pieces/")) > 0 })
	must(t, f.r.Close())
}
