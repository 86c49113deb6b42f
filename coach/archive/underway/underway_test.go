package underway

import (
	"context"
	"errors"
	"io/fs"
	"net/netip"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"go.uber.org/goleak"

	"halfturn/stream/record"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

var began = time.Date(2031, 5, 4, 9, 0, 7, 0, time.UTC)

const first = "2031-05-04T09-00-07Z_seat"

// loaded are the folders in dir, as a program that has just started knows them.
func loaded(t *testing.T, dir string) *Folders {
	t.Helper()
	f := New(dir)
	must(t, f.Load())
	return f
}

func must(t *testing.T, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

func reserved(t *testing.T, f *Folders) string {
	t.Helper()
	id, err := f.Reserve(began, "seat")
	must(t, err)
	return id
}

// TestReserve: no two sessions get one name, neither in one run of the program nor after the next start, and nothing is
// on the disk before it is made.
func TestReserve(t *testing.T) {
	dir := t.TempDir()
	f := loaded(t, dir)
	var ids []string
	for range 3 {
		ids = append(ids, reserved(t, f))
	}
	if want := []string{first, first + "_2", first + "_3"}; !slices.Equal(ids, want) {
		t.Errorf("reserved are %q; must be %q", ids, want)
	}
	if entries, err := os.ReadDir(dir); err != nil || len(entries) > 0 {
		t.Errorf("%d folders are there, %v", len(entries), err)
	}
	must(t, f.Make(ids[0]), f.Make(ids[2]))
	again := loaded(t, dir)
	if id := reserved(t, again); id != first+"_2" {
		t.Errorf("after the next start the free name is %q", id)
	}
	for range mostAlike {
		if _, err := again.Reserve(began, "seat"); err != nil {
			if !strings.Contains(err.Error(), "there are 1000 of that name") {
				t.Error(err)
			}
			return
		}
	}
	t.Error("names never end")
}

// TestReserveTogether: stations that begin at once get names of their own.
func TestReserveTogether(t *testing.T) {
	f := loaded(t, t.TempDir())
	var wait sync.WaitGroup
	var mu sync.Mutex
	seen := map[string]bool{}
	for range 8 {
		wait.Go(func() {
			for range 25 {
				id, err := f.Reserve(began, "seat")
				if err != nil {
					t.Error(err)
				}
				mu.Lock()
				seen[id] = true
				mu.Unlock()
			}
		})
	}
	wait.Wait()
	if len(seen) != 200 {
		t.Errorf("%d names for 200 sessions", len(seen))
	}
}

// TestMake: a folder is made once, and marked; one that cannot be made is made when it is tried again.
func TestMake(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "sessions")
	f := New(dir)
	id := reserved(t, f)
	if err := f.Make(id); !errors.Is(err, fs.ErrNotExist) || !strings.Contains(err.Error(), id) {
		t.Errorf("without the folder of sessions: %v", err)
	}
	must(t, os.Mkdir(dir, 0o750), f.Make(id))
	if !record.Unfinished(filepath.Join(dir, id)) {
		t.Error("it is not marked as not over")
	}
	must(t, f.Finish(id), f.Make(id))
	if record.Unfinished(filepath.Join(dir, id)) {
		t.Error("it is made again")
	}
	if err := f.Make("never-reserved"); err != nil {
		t.Errorf("a session that was not reserved: %v", err)
	}
	if _, err := os.Stat(filepath.Join(dir, "never-reserved")); err == nil {
		t.Error("a folder is made that was not reserved")
	}
}

// TestMakeOfAnother: a folder that another program made meanwhile is not taken over.
func TestMakeOfAnother(t *testing.T) {
	dir := t.TempDir()
	f := loaded(t, dir)
	id := reserved(t, f)
	must(t, os.Mkdir(filepath.Join(dir, id), 0o750))
	if err := f.Make(id); !errors.Is(err, fs.ErrExist) {
		t.Errorf("the folder of another program: %v", err)
	}
	if other, err := f.New(began, "seat"); err != nil || other != first+"_2" {
		t.Errorf("the next name is %q, %v", other, err)
	}
}

// TestNew: the folder is there at once, without a mark, and beside one that another program made.
func TestNew(t *testing.T) {
	dir := t.TempDir()
	f := loaded(t, dir)
	must(t, os.Mkdir(filepath.Join(dir, first), 0o750)) // since
	id, err := f.New(began, "seat")
	if err != nil || id != first+"_2" {
		t.Fatalf("%q, %v", id, err)
	}
	if info, err := os.Stat(filepath.Join(dir, id)); err != nil || !info.IsDir() {
		t.Error("the folder is not there")
	}
	if record.Unfinished(filepath.Join(dir, id)) {
		t.Error("an import is marked as not over")
	}
	must(t, os.RemoveAll(dir))
	for range 2 { // a name that could not be used is free again
		if id, err := f.New(began, "other"); err == nil || !strings.Contains(err.Error(), "_other cannot") {
			t.Errorf("without the folder of sessions: %q, %v", id, err)
		}
	}
}

// TestRecord: the first datagram makes the folder; what cannot be written is reported, and no folder is made twice.
func TestRecord(t *testing.T) {
	dir := t.TempDir()
	f := loaded(t, dir)
	id := reserved(t, f)
	r := f.Record(id, record.Options{})
	r.Add([]byte("x"), netip.AddrPort{}, netip.AddrPort{}, began)
	must(t, r.Close())
	if parts, err := record.Parts(filepath.Join(dir, id)); err != nil || len(parts) != 1 {
		t.Errorf("the recording is %q, %v", parts, err)
	}
	if left, err := f.Unfinished(); err != nil || !slices.Equal(left, []string{id}) {
		t.Errorf("unfinished are %q, %v", left, err)
	}
	lost := reserved(t, f)
	must(t, os.RemoveAll(dir))
	r = f.Record(lost, record.Options{})
	r.Add([]byte("x"), netip.AddrPort{}, netip.AddrPort{}, began)
	if err := r.Close(); err == nil {
		t.Error("a recording without a folder is whole")
	}
}

// TestChanged is the time of the newest file.
func TestChanged(t *testing.T) {
	dir := t.TempDir()
	f := loaded(t, dir)
	otherwise := began.Add(time.Hour)
	if at := f.Changed("none", otherwise); !at.Equal(otherwise) {
		t.Errorf("a session that is not there changed at %v", at)
	}
	must(t, os.Mkdir(filepath.Join(dir, first), 0o750))
	if at := f.Changed(first, otherwise); !at.Equal(otherwise) {
		t.Errorf("an empty folder changed at %v", at)
	}
	for name, at := range map[string]time.Time{"a": began, "b": began.Add(time.Minute), "c": began.Add(-time.Hour)} {
		file := filepath.Join(dir, first, name)
		must(t, os.WriteFile(file, nil, 0o600), os.Chtimes(file, at, at))
	}
	if at := f.Changed(first, otherwise); !at.Equal(began.Add(time.Minute)) {
		t.Errorf("changed at %v", at)
	}
}

// TestTidyAll: what interrupted compressions left goes; files are compressed only where that is configured, and never
// those of sessions that are not over.
func TestTidyAll(t *testing.T) {
	for _, compress := range []bool{false, true} {
		dir := t.TempDir()
		f := loaded(t, dir)
		over, going := reserved(t, f), reserved(t, f)
		for _, id := range []string{over, going} {
			r := f.Record(id, record.Options{})
			r.Add([]byte("x"), netip.AddrPort{}, netip.AddrPort{}, began)
			must(t, r.Close(), os.WriteFile(filepath.Join(dir, id, ".zst-stream-0001.pcapng"), nil, 0o600))
		}
		must(t, f.Finish(over))
		f.TidyAll(t.Context(), compress, func(err error) { t.Error(err) })
		for id, c := range map[string]struct {
			left   bool
			suffix string
		}{
			over:  {false, map[bool]string{true: ".zst", false: ".pcapng"}[compress]},
			going: {true, ".pcapng"},
		} {
			_, err := os.Stat(filepath.Join(dir, id, ".zst-stream-0001.pcapng"))
			parts, _ := record.Parts(filepath.Join(dir, id))
			if (err == nil) != c.left || len(parts) != 1 || !strings.HasSuffix(parts[0], c.suffix) {
				t.Errorf("compress %v: of %s there are %q, left over %v", compress, id, parts, err == nil)
			}
		}
	}
}

// TestTidyAllEnds: nothing is touched once the context has ended.
func TestTidyAllEnds(t *testing.T) {
	dir := t.TempDir()
	left := filepath.Join(dir, first, ".zst-stream-0001.pcapng")
	must(t, os.Mkdir(filepath.Dir(left), 0o750), os.WriteFile(left, nil, 0o600))
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	loaded(t, dir).TidyAll(ctx, true, func(err error) { t.Error(err) })
	if _, err := os.Stat(left); err != nil {
		t.Error("it goes on after its context has ended")
	}
}

// TestAsideTwice: a folder that was moved aside stays there when its session is moved once more, and there is nothing.
func TestAsideTwice(t *testing.T) {
	dir := t.TempDir()
	f := loaded(t, dir)
	id, err := f.New(time.Now(), "seat")
	if err == nil {
		err = os.WriteFile(filepath.Join(dir, id, "stream"), []byte("flown"), 0o600)
	}
	to := filepath.Join(t.TempDir(), "taken", id)
	for range 2 {
		err = errors.Join(err, f.Aside(id, to))
	}
	if text, failed := os.ReadFile(filepath.Join(to, "stream")); err != nil || string(text) != "flown" {
		t.Errorf("%v; aside is %q, %v", err, text, failed)
	}
}
