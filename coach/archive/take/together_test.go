package take_test

import (
	"bytes"
	"errors"
	"net/netip"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/coach/archive/lock"
	"halfturn/coach/archive/play"
	"halfturn/coach/archive/take"
	"halfturn/coach/logbook"
	"halfturn/coach/message"
	"halfturn/coach/session"
	"halfturn/coach/who"
)

// A meeting holds whoever has played a recording up until all have.
type meeting struct{ met *sync.WaitGroup }

func (*meeting) Watched(string) bool        { return false }
func (*meeting) Frame(string, *coach.Frame) {}
func (m *meeting) Event(e message.Message) {
	if s, ok := e.Body.(*message.Station); ok && s.Link == "gone" {
		m.met.Done()
		m.met.Wait()
	}
}

// TestImportAtOnce: any number of imports of one capture make one session.
func TestImportAtOnce(t *testing.T) {
	b := newBook(t)
	c := newTape()
	c.level(1, 0, 10)
	file := c.file(t)
	const n = 10
	ids := make([]string, n)
	var wait, met sync.WaitGroup
	met.Add(n)
	for i := range n {
		wait.Go(func() {
			in := importer(t, b)
			follow := in.Follow
			in.Follow = func(r *play.Recording) (play.Following, logbook.Entry, error) {
				f, e, err := follow(r)
				f.Output = func(netip.AddrPort) session.Output { return &meeting{met: &met} }
				return f, e, err
			}
			taken, err := in.Import(t.Context(), file, "x")
			if err != nil || len(taken.Sessions) != 1 {
				t.Errorf("%+v, %v", taken, err)
				return
			}
			ids[i] = taken.Sessions[0].Session
		})
	}
	wait.Wait()
	slices.Sort(ids)
	if _, entries := there(t, b); len(entries) != 1 || len(slices.Compact(ids)) != 1 {
		t.Errorf("sessions %v, told of %v", entries, ids)
	}
	// What was removed can be taken in again.
	in := importer(t, b)
	for range 2 {
		taken, err := in.Import(t.Context(), file, "x")
		if err != nil {
			t.Fatal(err)
		}
		if err := b.Discard(who.Owner(), taken.Sessions[0].Session); err != nil {
			t.Fatal(err)
		}
	}
	if taken, err := in.Import(t.Context(), file, "x"); err != nil || taken.Sessions[0].Double {
		t.Errorf("%+v, %v", taken, err)
	}
}

// TestImportWaits: what is put among the sessions is put there by one importer at a time.
func TestImportWaits(t *testing.T) {
	b := newBook(t)
	c := newTape()
	c.level(1, 0, 10)
	in := importer(t, b)
	follow := in.Follow
	var let atomic.Bool
	in.Follow = func(r *play.Recording) (play.Following, logbook.Entry, error) {
		other, err := lock.Try(filepath.Join(filepath.Dir(b.Dir()), "import.lock"))
		if err != nil {
			t.Fatal(err)
		}
		time.AfterFunc(200*time.Millisecond, func() {
			let.Store(true)
			other.Close()
		})
		return follow(r)
	}
	if _, err := in.Import(t.Context(), c.file(t), "x"); err != nil || !let.Load() {
		t.Errorf("it does not wait for the other: %v", err)
	}
}

// TestSweep removes what killed imports left, and nothing of those under way.
func TestSweep(t *testing.T) {
	b := newBook(t)
	at := func(name string) string { return filepath.Join(b.Dir(), name) }
	old := time.Now().Add(-time.Hour)
	make := func(name string, file bool, when time.Time) {
		var err error
		if file {
			err = os.WriteFile(at(name), nil, 0o600)
		} else {
			err = os.MkdirAll(at(name), 0o700)
		}
		if err = errors.Join(err, os.Chtimes(at(name), when, when)); err != nil {
			t.Fatal(err)
		}
	}
	make(".import-killed", false, time.Now())
	make(".import-killed/lock", true, time.Now())
	make(".import-old", false, old)
	make(".upload-old", true, old)
	make(".import-new", false, time.Now())
	make(".upload-new", true, time.Now())
	make("2026-01-01T00-00-00Z_a", false, old)
	c := newTape()
	c.level(1, 0, 10)
	swept := false
	r := &stopping{r: bytes.NewReader(c.Bytes()), n: c.Len() / 2, stop: func() {
		if swept {
			return
		}
		swept = true
		if err := take.Sweep(t.Context(), b.Dir()); err != nil {
			t.Error(err)
		}
		var left []string
		for _, name := range []string{".import-killed", ".import-old", ".upload-old", ".import-new", ".upload-new",
			"2026-01-01T00-00-00Z_a"} {
			if _, err := os.Lstat(at(name)); err == nil {
				left = append(left, name)
			}
		}
		if want := []string{".import-new", ".upload-new", "2026-01-01T00-00-00Z_a"}; !slices.Equal(left, want) {
			t.Errorf("left %v, want %v", left, want)
		}
	}}
	if taken, err := importer(t, b).Receive(t.Context(), r, "x"); err != nil || len(taken.Sessions) != 1 || !swept {
		t.Errorf("an import under way was disturbed: %+v, %v", taken, err)
	}
	if err := take.Sweep(t.Context(), at("none")); err != nil {
		t.Error(err)
	}
}
