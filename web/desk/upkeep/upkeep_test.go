package upkeep

import (
	"errors"
	"io"
	"net/netip"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"testing/synctest"
	"time"

	"github.com/rs/zerolog"
	"go.uber.org/goleak"

	"halfturn/coach/archive"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/stream/record"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

func must(t *testing.T, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

func opened(t *testing.T) *archive.Archive {
	t.Helper()
	book, err := archive.Open(t.TempDir(), archive.Options{Engine: sqlite.Engine{}})
	must(t, err)
	t.Cleanup(func() { must(t, book.Close()) })
	return book
}

// session records a session that ended long ago, and returns its file.
func session(t *testing.T, book *archive.Archive, began time.Time) (id, file string) {
	t.Helper()
	id, err := book.Reserve(began, "seat")
	must(t, err)
	r := book.Folders().Record(id, record.Options{})
	r.Add([]byte("x"), netip.AddrPort{}, netip.AddrPort{}, began)
	must(t, r.Close(), book.Begin(logbook.Entry{ID: id, Began: began}), book.End(id, began), book.Folders().Finish(id))
	return id, filepath.Join(book.Dir(), id, "stream-0001.pcapng")
}

func exists(file string) bool { _, err := os.Stat(file); return err == nil }

// TestCompress: a complete file is compressed where that is configured; what cannot be is logged, and stays.
func TestCompress(t *testing.T) {
	for _, compress := range []bool{false, true} {
		var log strings.Builder
		book := opened(t)
		u := New(Config{Book: book, Compress: compress, Log: zerolog.New(&log)})
		_, file := session(t, book, time.Now())
		u.compress(file)
		if exists(file) == compress || exists(file+".zst") != compress {
			t.Errorf("compress %v: the file is there %v, compressed %v", compress, exists(file), exists(file+".zst"))
		}
		u.compress(file + "-none")
		if told := strings.Contains(log.String(), "kept uncompressed"); told != compress {
			t.Errorf("compress %v: of a file that is not there it logs %q", compress, log.String())
		}
	}
}

// TestCompressLeft: of a session that was moved aside or deleted before its last file was compressed, nothing is
// logged.
func TestCompressLeft(t *testing.T) {
	var log strings.Builder
	book := opened(t)
	u := New(Config{Book: book, Compress: true, Log: zerolog.New(&log)})
	id, file := session(t, book, time.Now())
	must(t, book.Folders().Aside(id, filepath.Join(t.TempDir(), "aside")))
	if u.compress(file); log.Len() > 0 {
		t.Errorf("it logs %s", log.String())
	}
}

// TestPrune: only what is configured is deleted, and it is logged why.
func TestPrune(t *testing.T) {
	now := time.Now()
	for name, c := range map[string]struct {
		keep archive.Retention
		old  bool // an old session stays
	}{
		"everything is kept": {archive.Retention{}, true},
		"for a year":         {archive.Retention{Age: 365 * 24 * time.Hour}, true},
		"for a day":          {archive.Retention{Age: 24 * time.Hour}, false},
	} {
		var log strings.Builder
		book := opened(t)
		_, old := session(t, book, now.AddDate(0, 0, -30))
		_, young := session(t, book, now.Add(-time.Minute))
		u := New(Config{Book: book, Retention: c.keep, Log: zerolog.New(&log)})
		u.prune(t.Context(), now)
		if exists(old) != c.old || !exists(young) {
			t.Errorf("%s: the old one is there %v, the young one %v", name, exists(old), exists(young))
		}
		if told := strings.Contains(log.String(), "an old session was deleted"); told == c.old {
			t.Errorf("%s: it logs %q", name, log.String())
		}
	}
}

// TestPace: about once a second everybody is called, old sessions are looked for once an hour and after a session, and
// Close ends it all. The clock is that of the test.
func TestPace(t *testing.T) {
	dir := t.TempDir()
	synctest.Test(t, func(t *testing.T) {
		// On a disk that cannot be written there is no logbook, and so no goroutine of one.
		readOnly := func() error { return &os.PathError{Op: "open", Path: dir, Err: syscall.EROFS} }
		book, err := archive.Open(dir, archive.Options{Engine: sqlite.Engine{}, Await: true, Lock: readOnly})
		must(t, err)
		defer func() { _ = book.Close() }()
		calls := 0
		u := New(Config{Book: book, Each: func(time.Time) { calls++ }, Log: zerolog.New(io.Discard)})
		u.Close() // before it was started, nothing is to be stopped
		u.Start()
		<-time.After(10*time.Second + pace/2)
		synctest.Wait()
		if calls != 10 {
			t.Errorf("called %d times in ten seconds", calls)
		}
		for range 3 * mostFiles { // never waits
			u.Complete("x")
			u.Ended()
		}
		u.Close()
		<-time.After(time.Minute)
		if calls > 11 {
			t.Errorf("called %d times, also after it was closed", calls)
		}
	})
}
