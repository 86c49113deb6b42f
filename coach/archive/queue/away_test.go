package queue

import (
	"fmt"
	"os"
	"path/filepath"
	"sync/atomic"
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/booktest"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/who"
)

// TestBound: of many sessions that wait the reports of those that ended first are dropped, and of none that goes on.
func TestBound(t *testing.T) {
	w := &Writer{work: map[string]*pending{}, wake: make(chan struct{}, 1)}
	report := booktest.Report("x", booktest.Flight(1, coach.Finished, coach.Met, coach.Good, 90, ""))
	const sessions, flying = mostReports + 50, 3
	id := func(n int) string { return fmt.Sprint("s", n) }
	for n := range sessions {
		w.Keep(id(n), report)
		if n >= flying {
			w.End(id(n), booktest.Began.Add(time.Duration(n)*time.Minute))
		}
	}
	reports := 0
	for n := range sessions {
		p := w.work[id(n)]
		dropped := n >= flying && n < flying+sessions-mostReports
		if p.again != dropped || (p.report == nil) != dropped || n >= flying && p.ended.IsZero() {
			t.Errorf("session %d: report %v, made again %v", n, p.report != nil, p.again)
		}
		if p.report != nil {
			reports++
		}
	}
	if reports != mostReports {
		t.Errorf("%d reports wait", reports)
	}
}

// TestReenter: a session whose report was dropped is entered with that of its folder.
func TestReenter(t *testing.T) {
	b := open(t)
	id := newID(t, b, "seat")
	must(t, b.Begin(logbook.Entry{ID: id, Station: "seat", Began: booktest.Began, Cards: booktest.Cards}))
	_, err := b.Save(id, booktest.Report(id, booktest.Flight(1, coach.Finished, coach.Met, coach.Good, 90, "")))
	must(t, err)
	p := &pending{ended: booktest.Began.Add(time.Minute), again: true}
	must(t, (&Writer{archive: b}).enter(b.Under(0), id, p))
	list, err := b.List(t.Context(), logbook.Filter{})
	must(t, err)
	if list.Total != 1 || list.Sessions[0].Legs != 1 || list.Sessions[0].Ended == "" {
		t.Errorf("%+v", list.Sessions)
	}
}

// TestStartedAgain: a session is flown and over while the database is away, and the program is killed and started again
// before it is back: the session is entered then, with its student, remarks and grades, and once.
func TestStartedAgain(t *testing.T) {
	data := t.TempDir()
	away := &atomic.Bool{}
	engine := far{sqlite.Engine{}, away, &atomic.Int64{}}
	start := func() (*archive.Archive, *Writer, chan time.Time, chan error) {
		b, err := archive.Open(data, archive.Options{Engine: engine})
		must(t, err)
		warned, retry := make(chan error, 100), make(chan time.Time)
		return b, newRetrying(b, func(err error) { warned <- err }, retry), retry, warned
	}
	b, w, retry, warned := start()
	id := newID(t, b, "seat")
	away.Store(true)
	entry := logbook.Entry{ID: id, Station: "seat", Began: booktest.Began, Cards: booktest.Cards}
	entry.Student.Name = "Ada Example"
	report := booktest.Report(id, booktest.Flight(1, coach.Finished, coach.Met, coach.Good, 90, ""))
	w.Begin(entry)
	<-warned
	w.Keep(id, report)
	w.Remark(who.Owner(), id, logbook.Remark{Key: "a", Words: "Late with the foot"})
	_, err := b.Save(id, report)
	must(t, err, b.Folders().Finish(id))
	w.End(id, booktest.Began.Add(time.Minute))
	retry <- time.Time{} // it fails again
	retry <- time.Time{} // what came meanwhile is on the disk now
	retry <- time.Time{}
	// The program is killed: nothing more is written of it. Its memory is left to the test.
	away2 := &atomic.Bool{}
	away2.Store(true)
	engine.away = away2
	b2, w2, retry2, _ := start()
	retry2 <- time.Time{}
	if list, err := b2.Waiting(); err != nil || len(list) != 0 { // there is no depot
		t.Errorf("%v, %v", list, err)
	}
	away2.Store(false)
	retry2 <- time.Time{}
	retry2 <- time.Time{}
	w2.Close()
	list, err := b2.List(t.Context(), logbook.Filter{})
	must(t, err)
	if list.Total != 1 || list.Sessions[0].Legs != 1 || list.Sessions[0].Ended == "" || list.Sessions[0].Remarks != 1 ||
		list.Sessions[0].Student != "Ada Example" {
		t.Errorf("%+v", list.Sessions)
	}
	left, err := os.ReadDir(filepath.Join(data, waitingDir))
	if must(t, err); len(left) != 0 {
		t.Errorf("%d files are left", len(left))
	}
	must(t, b2.Close())
	w.Close()
	must(t, b.Close())
	b3, w3, _, warned3 := start()
	w3.Close()
	must(t, b3.Close())
	if len(warned3) > 0 {
		t.Error(<-warned3)
	}
}
