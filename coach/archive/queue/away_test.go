package queue

import (
	"fmt"
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/booktest"
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
	must(t, (&Writer{archive: b}).enter(id, p))
	list, err := b.List(t.Context(), logbook.Filter{})
	must(t, err)
	if list.Total != 1 || list.Sessions[0].Legs != 1 || list.Sessions[0].Ended == "" {
		t.Errorf("%+v", list.Sessions)
	}
}
