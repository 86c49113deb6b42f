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
	"halfturn/coach/message"
	"halfturn/coach/session"
	"halfturn/stream"
	"halfturn/stream/contain"
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
	waiting := resume(t, again.Common, now.Add(time.Duration(n)*50*time.Millisecond))
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
	waiting := resume(t, again.Common, now)
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

// failing is an output at which a message of a station is a fault.
type failing struct{ session.Output }

func (failing) Event(m message.Message) {
	if _, is := m.Body.(*message.Station); is {
		panic("the output failed")
	}
}

// A session that cannot be played because of a fault in the program keeps the server from starting neither now nor at
// the next start; it stays as it is.
func TestResumedWithFault(t *testing.T) {
	var full atomic.Bool
	data := t.TempDir()
	b := recordingOn(t, data, &full)
	s := b.station()
	now := time.Now()
	for n := range 50 {
		s.Datagram(line(n), now.Add(time.Duration(n-50)*100*time.Millisecond))
	}
	s.End(false)
	again := recordingOn(t, data, &full)
	var told []error
	again.Faults = contain.New(func(err error) { told = append(told, err) })
	again.Output = failing{again.Output}
	again.Writer = queue.New(again.book, func(err error) { t.Error(err) })
	waiting := resume(t, again.Common, now)
	again.Writer.Close()
	again.Writer = nil
	known, err := again.book.Session(t.Context(), s.id)
	dir := filepath.Join(again.book.Dir(), s.id)
	if len(waiting) != 0 || len(told) != 1 || record.Unfinished(dir) || err != nil || known.Ended == "" {
		t.Errorf("%d sessions wait, told %q; the logbook has %+v, %v", len(waiting), told, known, err)
	}
	if n, _ := readBack(t, dir); n != 50 {
		t.Errorf("%d of 50 datagrams are left", n)
	}
}
