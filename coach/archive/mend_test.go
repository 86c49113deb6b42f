package archive

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/maneuver"
	"halfturn/coach/who"
)

// While a Book is opened again, which may take minutes, whoever coaches gets an answer at once, and the end of the
// program does not wait for it.
func TestMendKeepsNobody(t *testing.T) {
	data, was := sat(t)
	for _, s := range was.Sessions { // no grades: each recording is graded again
		must(t, os.Remove(filepath.Join(data, "sessions", s.ID, "summary.json")),
			os.WriteFile(filepath.Join(data, "sessions", s.ID, "stream-0001.pcapng"), []byte("raw"), 0o600))
	}
	grading, goOn := make(chan bool), make(chan bool)
	b, err := Open(data, Options{Engine: sqlite.Engine{}, Version: "1.2", Regrade: func(string) (*debrief.Report,
		error) {
		grading <- true
		<-goOn
		return reportOf("", flight(1, coach.Finished, coach.Met, coach.Good, 90, "")), nil
	}})
	must(t, err)
	defer b.Close()
	must(t, b.RememberStation(who.Owner(), "seat", maneuver.Choice{Maneuver: "wing-over"}))
	must(t, b.Close(), os.Remove(b.file)) // the next one to open rebuilds it
	b.waits = errors.New("the disk is read-only")
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	ended := make(chan error, 1)
	go func() {
		_, err := b.Mend(ctx)
		ended <- err
	}()
	<-grading // it is in the middle, and holds on until it is let go
	answered := make(chan bool)
	go func() {
		defer close(answered)
		if b.Waits() == nil {
			t.Error("nothing waits")
		}
		if _, err := b.NewID(began.Add(9*time.Hour), "seat"); err == nil {
			t.Error("a session is begun while the logbook is opened")
		}
		if c, ok, err := b.StationChoice("seat"); err != nil || !ok || c.Maneuver != "wing-over" {
			t.Errorf("what was chosen is not known: %+v, %v, %v", c, ok, err)
		}
		if _, err := b.List(t.Context(), logbook.Filter{}); err == nil {
			t.Error("a list is given while the logbook is opened")
		}
		if err := b.SetKeep(who.Owner(), was.Sessions[0].ID, true); err == nil {
			t.Error("a change is made while the logbook is opened")
		}
	}()
	select {
	case <-answered:
	case <-time.After(10 * time.Second):
		t.Error("whoever asks waits for the logbook to be rebuilt")
	}
	stop()
	close(goOn)
	if err := <-ended; !errors.Is(err, context.Canceled) {
		t.Errorf("mended all the same: %v", err)
	}
	<-answered
	if b.Waits() == nil {
		t.Error("nothing waits, and nothing is kept")
	}
}
