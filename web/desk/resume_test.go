package desk

import (
	"errors"
	"net/netip"
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
	d, doing, book := recordingDesk(t, data, &full)
	d.cfg.Writer = queue.New(book, func(err error) { t.Error(err) })
	at := netip.MustParseAddrPort("192.168.1.20:49000")
	s := d.Station(at).(*station)
	doing.handlers[at] = s
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
	d.Stopping()
	s.End()
	d.cfg.Writer.Close()
	full.Store(false)
	again, _, _ := recordingDesk(t, data, &full)
	again.cfg.Writer = queue.New(book, func(err error) { t.Error(err) })
	again.resume(t.Context(), now.Add(time.Duration(n)*50*time.Millisecond))
	again.cfg.Writer.Close()
	known, err := book.Session(t.Context(), s.id)
	if err != nil || legs == 0 || known.Legs != legs || known.Ended == "" ||
		record.Unfinished(filepath.Join(book.Dir(), s.id)) ||
		len(again.paused) > 0 {
		t.Errorf("%d legs were flown; the logbook has %+v, %v", legs, known, err)
	}
}

// What the last run entered nothing of is entered when the server starts again; a folder of which
// nothing was recorded is given up once.
func TestResumedIsEntered(t *testing.T) {
	var full atomic.Bool
	data := t.TempDir()
	d, doing, _ := recordingDesk(t, data, &full)
	d.cfg.Writer = nil // was killed before it wrote
	at := netip.MustParseAddrPort("192.168.1.20:49000")
	s := d.Station(at).(*station)
	doing.handlers[at] = s
	now := time.Now()
	for n := range 50 {
		s.Datagram(line(n), now.Add(time.Duration(n-50)*100*time.Millisecond))
	}
	if err := d.Do(t.Context(), commanded(at.String(), command.Student{Name: "Ada Example"})); err != nil {
		t.Fatal(err)
	}
	d.Stopping()
	s.End()
	empty := filepath.Join(data, "sessions", "2031-01-02T03-04-05Z_empty")
	if err := errors.Join(os.Mkdir(empty, 0o750), record.Mark(empty)); err != nil {
		t.Fatal(err)
	}
	again, _, book := recordingDesk(t, data, &full)
	var told []string
	again.cfg.Writer = queue.New(book, func(err error) { told = append(told, err.Error()) })
	again.resume(t.Context(), now)
	again.cfg.Writer.Close()
	list, err := book.List(t.Context(), logbook.Filter{})
	if err != nil || len(list.Sessions) != 1 || list.Sessions[0].ID != s.id ||
		list.Sessions[0].Student != "Ada Example" ||
		list.Sessions[0].Ended != "" {
		t.Errorf("the logbook has %+v, %v", list, err)
	}
	if record.Unfinished(empty) || len(told) != 1 || !strings.Contains(told[0], "empty") {
		t.Errorf("of the empty one it is told %q", told)
	}
	for _, p := range again.paused {
		p.end(true)
	}
}

// Two simulators of one address have a session each; one that is started again goes on with its own
// only when it is plain which that is.
func TestTwoOnOneAddress(t *testing.T) {
	var full atomic.Bool
	d, doing, _ := recordingDesk(t, t.TempDir(), &full)
	now := time.Now()
	sit := func(address string) *station {
		a := netip.MustParseAddrPort(address)
		s := d.Station(a).(*station)
		doing.handlers[a] = s
		s.Datagram(line(0), now)
		s.Datagram(line(1), now)
		return s
	}
	a, b := sit("192.168.1.20:49000"), sit("192.168.1.20:49001")
	if a.id == "" || b.id == "" || a.id == b.id {
		t.Fatalf("the sessions are %q and %q", a.id, b.id)
	}
	a.hear(d, now.Add(-10*time.Second))
	if c := sit("192.168.1.20:49002"); c.id != a.id {
		t.Errorf("the first was started again, and goes on with %q, not %q", c.id, a.id)
	} else {
		c.hear(d, now.Add(-10*time.Second))
	}
	b.hear(d, now.Add(-10*time.Second))
	e := sit("192.168.1.20:49003") // either
	if e.id == a.id || e.id == b.id {
		t.Errorf("it goes on with %q, though both are silent", e.id)
	}
	for _, s := range doing.handlers {
		s.End()
	}
}
