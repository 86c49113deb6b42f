package record

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync/atomic"
	"syscall"
	"testing"
	"time"
)

// A disk is a file that takes a number of bytes and then fails, until there is room again.
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
			f, err := Create(name)
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
	if s := <-told; s.State != Failing || !strings.Contains(s.Words.String(), "no room is left in") ||
		!strings.Contains(s.Words.String(), "goes on by itself") {
		t.Errorf("told %+v", s)
	}
	r.Add([]byte("chosen"), simulator, here, noon.Add(time.Hour), "chosen")
	drained(r)
	room.Store(1 << 20)
	for r.Status().State == Failing {
		add(r, n, 1)
		n++
	}
	if s := <-told; s.State != On || !s.Words.IsZero() || s.Lost == 0 {
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
	if !slices.Contains(all, "chosen") ||
		!slices.ContainsFunc(all, func(c string) bool { return strings.HasPrefix(c, "lost ") }) {
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

// A disk that hangs delays no caller: what does not fit is counted, and memory stays bounded.
func TestHangingDisk(t *testing.T) {
	dir := t.TempDir()
	release, totals := make(chan struct{}), Totals{}
	r := Begin(dir, Options{Totals: &totals, Lost: func(n uint64) string { return fmt.Sprint("lost ", n) },
		Open: func(name string) (File, error) {
			f, err := Create(name)
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
	if s := r.Status(); s.Lost < 1000-queueBytes/60000-2 || r.queue.size.Load() > queueBytes {
		t.Errorf("status %+v, %d bytes wait", s, r.queue.size.Load())
	}
	if is := totals.Sum(); is.Waiting == 0 || is.Lost != r.Status().Lost {
		t.Errorf("of all recorders %+v", is)
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
	if is, own := totals.Sum(), r.Status(); is != (Sum{Written: own.Written, Lost: own.Lost}) {
		t.Errorf("of all recorders %+v after the end of the only one, %+v", is, own)
	}
	if s := r.Status(); uint64(len(payloads)) != s.Written || s.Written+s.Lost != 1001 ||
		!slices.Contains(all, "chosen") {
		t.Errorf("status %+v, %d datagrams, comments %v", s, len(payloads), all)
	}
}

// unsure is a file whose disk says now and then that it did not keep what it was given.
type unsure struct {
	*os.File
	syncs *atomic.Int64
}

var errUnsure = errors.New("input/output error")

func (u *unsure) Sync() error {
	if n := u.syncs.Add(1); n%5 == 0 {
		return errUnsure
	}
	return u.File.Sync()
}

// What was flushed and could not be made to survive a power failure is counted as lost, not as written, and is not in
// the recording; what is said to be flushed is. The disk is asked less often than is flushed.
func TestSyncFails(t *testing.T) {
	dir := t.TempDir()
	var syncs, flushes atomic.Int64
	failed := atomic.Bool{}
	r := Begin(dir, Options{
		Every:   time.Millisecond,
		Sync:    4 * time.Millisecond,
		Flushed: func(string, int64) { flushes.Add(1) },
		Changed: func(s Status) { failed.Store(failed.Load() || s.State == Failing) },
		Open: func(name string) (File, error) {
			f, err := Create(name)
			if err != nil {
				return nil, err
			}
			return &unsure{f.(*os.File), &syncs}, nil
		},
	})
	n := 0
	for syncs.Load() < 12 {
		add(r, n, 5)
		n += 5
	}
	_ = r.Close() // the last of it may fail
	payloads, _, _ := read(t, dir)
	s := r.Status()
	if uint64(len(payloads)) != s.Written || s.Written+s.Lost != uint64(n) || !failed.Load() || s.Lost == 0 {
		t.Errorf("%d datagrams of %d are there; status %+v", len(payloads), n, s)
	}
	if flushes.Load() < 2*syncs.Load() {
		t.Errorf("flushed %d times, and the disk asked %d times", flushes.Load(), syncs.Load())
	}
}
