//go:build unix

package main

import (
	"syscall"
	"testing"
	"time"

	"halfturn/cmd/halfturn/cmdtest"
	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
)

// Told to end in the middle of a leg, the program writes all that it took and is out within two seconds; the leg it
// finished before is in the logbook.
func TestTermInLeg(t *testing.T) {
	t.Parallel()
	data := t.TempDir()
	s := beginFollowed(t, nil, data)
	p := newDemoPilot(t)
	p.connect(t)
	sent, _ := p.fly(t, s, 1650) // into the second leg
	all := func() bool { return s.taken(t) >= len(sent) }
	cmdtest.Until(t, all, func() string { return "not all datagrams were taken" })
	asked := time.Now()
	s.signal(t, syscall.SIGTERM)
	if status := s.ends(t); status != exitDone {
		t.Errorf("it ended with exit status %d", status)
	}
	if took := time.Since(asked); took > 2*time.Second {
		t.Errorf("it took %v to end", took)
	}
	legs := s.told(t)
	if got := allRecorded(t, data); len(got) != len(sent) {
		t.Errorf("%d of %d datagrams are recorded", len(got), len(sent))
	}
	if len(legs) == 0 {
		t.Fatal("no leg was told")
	}
	inLogbook(t, data, []float64{legs[0].start})
	if !brokenOff(t, data) {
		t.Error("it was not in a leg: that proves little")
	}
}

// brokenOff reports whether a leg of the logbook was broken off.
func brokenOff(t *testing.T, data string) (found bool) {
	t.Helper()
	book, err := archive.Open(data, archive.Options{Engine: sqlite.Engine{}, ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	list, err := book.List(t.Context(), logbook.Filter{})
	if err != nil || len(list.Sessions) != 1 {
		t.Fatalf("the logbook has %+v, %v", list, err)
	}
	report, err := book.Report(t.Context(), list.Sessions[0].ID, 1)
	if err != nil {
		t.Fatal(err)
	}
	for _, series := range report.Files[0].Stations[0].Series {
		for i := range series.Legs {
			found = found || series.Legs[i].Outcome == coach.BrokenOff
		}
	}
	return found
}
