package queue

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/prometheus/client_golang/prometheus/testutil"
	"go.uber.org/goleak"

	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/booktest"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

func must(t *testing.T, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

func open(t *testing.T) *archive.Archive {
	t.Helper()
	b, err := archive.Open(t.TempDir(), archive.Options{Engine: sqlite.Engine{}})
	must(t, err)
	t.Cleanup(func() { must(t, b.Close()) })
	return b
}

func newID(t *testing.T, b *archive.Archive, station string) string {
	t.Helper()
	id, err := b.NewID(booktest.Began, station)
	must(t, err)
	return id
}

// The Writer enters what it is given, keeps only the latest, and tries again after a failure.
func TestWriter(t *testing.T) {
	b := open(t)
	id := newID(t, b, "seat")
	hidden := filepath.Join(b.Dir(), id)
	must(t, os.Rename(hidden, hidden+".away"), os.WriteFile(hidden, nil, 0o600)) // its folder is in nobody's reach
	warned, retry := make(chan error, 100), make(chan time.Time)
	w := newRetrying(b, func(err error) { warned <- err }, retry)
	w.Begin(logbook.Entry{ID: id, Station: "seat", Began: booktest.Began, Cards: booktest.Cards})
	if err := <-warned; err == nil {
		t.Error("entered without its folder")
	}
	must(t, os.Remove(hidden), os.Rename(hidden+".away", hidden))
	one := booktest.Flight(1, coach.Finished, coach.Met, coach.Good, 90, "")
	for n := range 50 {
		one.Said = n
		w.Keep(id, booktest.Report(id, one))
	}
	w.SetStudent(who.Owner(), id, "Ada Example")
	w.Remark(who.Owner(), id, logbook.Remark{Key: "a", Words: logbook.Marked})
	w.Remark(who.Owner(), id, logbook.Remark{Words: ""}) // refused, and not tried again
	w.Remark(who.Owner(), id, logbook.Remark{Key: "b", Words: "Late with the foot"})
	w.End(id, booktest.Began.Add(time.Minute))
	retry <- time.Time{}
	w.Close()
	d, err := b.Session(context.Background(), id)
	must(t, err)
	if d.Legs != 1 || d.Ended == "" || d.Student != "Ada Example" {
		t.Errorf("%+v", d)
	}
	if len(d.Said) != 2 || d.Said[0].Key != "a" || d.Said[1].Key != "b" {
		t.Errorf("remarked %+v", d.Said)
	}
	r, err := b.Report(t.Context(), id, 1)
	must(t, err)
	if n := r.Files[0].Stations[0].Series[0].Legs[0].Said; n != 49 {
		t.Errorf("the latest report has 49 corrections, kept %d", n)
	}
}

// What can never be written is warned of, and does not hold up the rest or the end.
func TestWriterFails(t *testing.T) {
	b := open(t)
	good := newID(t, b, "seat")
	warned := make(chan error, 100)
	w := newRetrying(b, func(err error) { warned <- err }, nil)
	w.Begin(logbook.Entry{ID: "gone", Station: "seat", Began: booktest.Began})
	if err := <-warned; err == nil || !strings.Contains(err.Error(), "gone") {
		t.Error(err)
	}
	w.Begin(logbook.Entry{ID: good, Station: "seat", Began: booktest.Began})
	w.Close()
	list, err := b.List(t.Context(), logbook.Filter{})
	must(t, err)
	if list.Total != 1 || list.Sessions[0].ID != good {
		t.Errorf("%+v", list)
	}
}

// far keeps books in a database that may be away.
type far struct {
	logbook.Engine
	away  *atomic.Bool
	asked *atomic.Int64 // while it was away
}

func (e far) Open(file string, check bool) (logbook.Book, error) {
	b, err := e.Engine.Open(file, check)
	return remoteBook{b, e}, err
}

type remoteBook struct {
	logbook.Book
	at far
}

func (b remoteBook) Entry(ctx context.Context, id string) (*logbook.Entry, error) {
	if b.at.away.Load() {
		b.at.asked.Add(1)
		return nil, &logbook.Failure{Words: "the database is away", Away: true}
	}
	return b.Book.Entry(ctx, id)
}

// TestWriterAway: while the database is away one session is tried at a time, the metric says how many wait, one warning
// says why; once it is back all of them are entered, whole and once.
func TestWriterAway(t *testing.T) {
	away, asked := &atomic.Bool{}, &atomic.Int64{}
	b, err := archive.Open(t.TempDir(), archive.Options{Engine: far{sqlite.Engine{}, away, asked}})
	must(t, err)
	defer b.Close()
	const sessions = 5
	warned, retry := make(chan error, 100), make(chan time.Time)
	w := newRetrying(b, func(err error) { warned <- err }, retry)
	away.Store(true)
	for n := range sessions {
		id := newID(t, b, strings.Repeat("s", n+1))
		w.Begin(logbook.Entry{ID: id, Station: "seat", Began: booktest.Began, Cards: booktest.Cards})
		if n == 0 {
			if err := <-warned; !errors.Is(err, logbook.ErrAway) {
				t.Errorf("warned: %v", err)
			}
		}
		w.Keep(id, booktest.Report(id, booktest.Flight(1, coach.Finished, coach.Met, coach.Good, 90, "")))
		w.End(id, booktest.Began.Add(time.Minute))
	}
	const rounds = 6
	before := asked.Load()
	for range rounds {
		retry <- time.Time{} // taken once the round before is done
	}
	if n := asked.Load() - before; n != rounds && n != rounds-1 {
		t.Errorf("%d sessions were tried in %d rounds", n, rounds)
	}
	says := w.Lacking(time.Now().Add(3 * time.Minute))
	if len(says) != 1 || !says[0].Is(phrase.LogbookAway) || !strings.HasSuffix(says[0].String(), "entered: 5.") ||
		!strings.Contains(says[0].String(), "for 3 min") {
		t.Errorf("it says %v", says)
	}
	away.Store(false)
	retry <- time.Time{}
	w.Close()
	if says := w.Lacking(time.Now()); says != nil {
		t.Errorf("once it is back it says %v", says)
	}
	if n := testutil.ToFloat64(w.Collectors()[1]); n != 0 {
		t.Errorf("%v sessions wait", n)
	}
	list, err := b.List(t.Context(), logbook.Filter{})
	must(t, err)
	for _, row := range list.Sessions {
		if row.Legs != 1 || row.Ended == "" {
			t.Errorf("%+v", row)
		}
	}
	if list.Total != sessions || len(warned) != 0 {
		t.Errorf("%d sessions of %d, %d more warnings", list.Total, sessions, len(warned))
	}
}
