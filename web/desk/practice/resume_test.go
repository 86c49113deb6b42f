package practice

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"halfturn/coach/archive/queue"
	"halfturn/coach/command"
	"halfturn/coach/logbook"
	"halfturn/stream"
	"halfturn/stream/record"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
)

// Legs that were graded while the disk was full are in no recording: the next start leaves them as they are.
func TestGradedWhileDiskFull(t *testing.T) {
	var full atomic.Bool
	data := t.TempDir()
	b := recordingOn(t, data, &full)
	b.Writer = queue.New(b.book, func(err error) { t.Error(err) })
	s := b.station()
	encoder, err := encode.New("json")
	if err != nil {
		t.Fatal(err)
	}
	pilot, err := trainer.New(trainer.Flight{Maneuver: "wing-over", Direction: "both"})
	if err != nil {
		t.Fatal(err)
	}
	var sample stream.Sample
	now, n := time.Now().Add(-2*time.Minute), 0
	for more := true; more; n++ {
		more = pilot.Step(0.05, &sample)
		full.Store(n >= 200)
		s.Datagram(encoder.Append(nil, &sample), now.Add(time.Duration(n)*50*time.Millisecond))
	}
	legs := s.session.Legs()
	s.End(false)
	b.Writer.Close()
	full.Store(false)
	again := recordingOn(t, data, &full)
	again.Writer = queue.New(b.book, func(err error) { t.Error(err) })
	waiting := Resume(t.Context(), again.Common, now.Add(time.Duration(n)*50*time.Millisecond))
	again.Writer.Close()
	known, err := b.book.Session(t.Context(), s.id)
	if err != nil || legs == 0 || known.Legs != legs || known.Ended == "" ||
		record.Unfinished(filepath.Join(b.book.Dir(), s.id)) ||
		len(waiting) > 0 {
		t.Errorf("%d legs were flown; the logbook has %+v, %v", legs, known, err)
	}
}

// What the last run entered nothing of is entered when the server starts again; a folder of which
// nothing was recorded is given up once.
func TestResumedIsEntered(t *testing.T) {
	var full atomic.Bool
	data := t.TempDir()
	b := recordingOn(t, data, &full)
	b.Writer = nil // was killed before it wrote
	s := b.station()
	now := time.Now()
	for n := range 50 {
		s.Datagram(line(n), now.Add(time.Duration(n-50)*100*time.Millisecond))
	}
	if err := do(s, command.Student{Name: "Ada Example"}); err != nil {
		t.Fatal(err)
	}
	s.End(false)
	empty := filepath.Join(data, "sessions", "2031-01-02T03-04-05Z_empty")
	if err := errors.Join(os.Mkdir(empty, 0o750), record.Mark(empty)); err != nil {
		t.Fatal(err)
	}
	again := recordingOn(t, data, &full)
	var told []string
	again.Writer = queue.New(again.book, func(err error) { told = append(told, err.Error()) })
	waiting := Resume(t.Context(), again.Common, now)
	again.Writer.Close()
	list, err := again.book.List(t.Context(), logbook.Filter{})
	if err != nil || len(list.Sessions) != 1 || list.Sessions[0].ID != s.id ||
		list.Sessions[0].Student != "Ada Example" ||
		list.Sessions[0].Ended != "" {
		t.Errorf("the logbook has %+v, %v", list, err)
	}
	if record.Unfinished(empty) || len(told) != 1 || !strings.Contains(told[0], "empty") {
		t.Errorf("of the empty one it is told %q", told)
	}
	again.Writer = nil
	for _, p := range waiting {
		p.End(true)
	}
}
