package archive

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/maneuver"
	"halfturn/coach/who"
)

func same(t *testing.T, was everything, b *Archive) {
	t.Helper()
	if d := cmp.Diff(was, whole(t, b)); d != "" {
		t.Errorf("(-was +is):\n%s", d)
	}
}

// A logbook on a disk that is read-only or full is read all the same; it refuses to be changed, and says why, until it
// can be written. Nothing in it is changed meanwhile.
func TestAwait(t *testing.T) {
	for _, reason := range []error{syscall.EROFS, syscall.ENOSPC} {
		data, was := sat(t)
		fails := true
		told := ""
		lock := func() error {
			if fails {
				return &os.PathError{Op: "open", Path: filepath.Join(data, "lock"), Err: reason}
			}
			return nil
		}
		if _, err := Open(data, Options{Engine: sqlite.Engine{}, Lock: lock}); !errors.Is(err, reason) {
			t.Errorf("not told to wait it says %v", err)
		}
		b, err := Open(data, Options{Engine: sqlite.Engine{}, Version: "1.2", Await: true, Lock: lock,
			Tell: func(words string) { told += words }})
		must(t, err)
		same(t, was, b)
		if !strings.Contains(told, data) || !strings.Contains(told, "nothing is being recorded") {
			t.Errorf("it tells %q", told)
		}
		var failure *logbook.Failure
		_, idFails := b.NewID(began.Add(9*time.Hour), "Seat 3")
		for what, err := range map[string]error{"mark": b.SetKeep(who.Owner(), was.Sessions[0].ID, true),
			"choice": b.RememberStation(who.Owner(), "Seat 3", maneuver.Choice{}), "session": idFails} {
			if !errors.As(err, &failure) || !errors.Is(err, reason) || !strings.Contains(err.Error(), data) {
				t.Errorf("%s: it says %v", what, err)
			}
		}
		if mended, err := b.Mend(t.Context()); mended || err == nil || b.Waits() == nil {
			t.Errorf("mended %v, %v, while the disk still fails", mended, err)
		}
		same(t, was, b)
		fails = false
		if mended, err := b.Mend(t.Context()); !mended || err != nil || b.Waits() != nil {
			t.Fatalf("mended %v, %v; it waits for %v", mended, err, b.Waits())
		}
		if mended, err := b.Mend(t.Context()); mended || err != nil {
			t.Errorf("mended %v, %v, with nothing to mend", mended, err)
		}
		id := entered(t, b, began.Add(9*time.Hour), "Ada Example")
		must(t, b.Keep(id, reportOf(id, flight(1, coach.Finished, coach.Met, coach.Good, 90, ""))))
		if n := len(whole(t, b).Sessions); n != len(was.Sessions)+1 {
			t.Errorf("it holds %d sessions then", n)
		}
		must(t, b.Close())
	}
}

// A logbook whose disk was taken out and came back is opened again; in place of one that is away nothing is made.
func TestDiskComesBack(t *testing.T) {
	data, was := sat(t)
	disk := &failing{}
	b, err := Open(data, Options{Engine: failingEngine{sqlite.Engine{}, disk}, Version: "1.2", Await: true})
	must(t, err)
	defer b.Close()
	away := data + "-away"
	must(t, os.Rename(data, away))
	// SQLite says so of a file that was moved too
	disk.err = &logbook.Failure{Words: "it cannot be written", Lost: true}
	if err := b.RememberStation(who.Owner(), "seat", maneuver.Choice{}); !errors.Is(err, disk.err) {
		t.Fatalf("it says %v", err)
	}
	disk.err = nil
	if mended, err := b.Mend(t.Context()); mended || !errors.Is(err, os.ErrNotExist) {
		t.Errorf("mended %v, %v, with the disk away", mended, err)
	}
	if _, err := os.Stat(data); err == nil {
		t.Error("something was made in its place")
	}
	must(t, os.Rename(away, data))
	if mended, err := b.Mend(t.Context()); !mended || err != nil {
		t.Errorf("mended %v, %v", mended, err)
	}
	same(t, was, b)
}
