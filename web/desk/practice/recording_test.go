package practice

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"halfturn/coach/command"
	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/stream"
	"halfturn/stream/record"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
)

// A disk that is full, or read-only, stops nothing but the recording: the panel says so, and once it can be
// written recording goes on by itself.
func TestDiskFails(t *testing.T) {
	var full, readOnly atomic.Bool
	t.Run("full", func(t *testing.T) { diskFails(t, &disk{full: &full}, &full, "no room is left in") })
	t.Run(
		"read-only",
		func(t *testing.T) { diskFails(t, &disk{readOnly: &readOnly}, &readOnly, "nothing may be written in") },
	)
}

func diskFails(t *testing.T, on *disk, fails *atomic.Bool, words string) {
	b := benchOn(t, t.TempDir(), on)
	s := b.station()
	n := 0
	now := time.Now().Add(-time.Hour)
	feed := func(state string) message.Station {
		t.Helper()
		for t.Context().Err() == nil {
			s.Datagram(line(n), now.Add(time.Duration(n)*100*time.Millisecond))
			n++
			s.Tick(now.Add(time.Duration(n) * 100 * time.Millisecond))
			if info := s.session.Info(0); info.Recording == state && n%20 == 0 {
				return info
			}
			runtime.Gosched()
		}
		return message.Station{}
	}
	if info := feed("on"); !info.RecordingWords.IsZero() || info.Session == "" {
		t.Errorf("it says %+v", info)
	}
	id := s.id
	fails.Store(true)
	if info := feed("failing"); !strings.Contains(info.RecordingWords.String(), words) ||
		!strings.Contains(info.RecordingWords.String(), "goes on by itself") ||
		info.Session != id {
		t.Errorf("it says %+v", info)
	}
	fails.Store(false)
	if info := feed("on"); !info.RecordingWords.IsZero() || info.Session != id {
		t.Errorf("it says %+v", info)
	}
	if got := s.session.Report().Samples; int(got) < n-2 {
		t.Errorf("%d of %d samples were coached", got, n)
	}
	s.End(true)
	st := s.recorder.Status()
	count, comments := readBack(t, filepath.Join(b.book.Dir(), id))
	if st.Lost == 0 || uint64(count) != st.Written || count+int(st.Lost) != n ||
		!strings.Contains(comments, `"lost":`) {
		t.Errorf("%d of %d datagrams are there, %+v, comments %s", count, n, st, comments)
	}
}

// readBack counts what a recording holds, and returns its comments.
func readBack(t *testing.T, dir string) (n int, comments string) {
	t.Helper()
	parts, err := record.Parts(dir)
	if err != nil {
		t.Fatal(err)
	}
	r := record.Read(parts)
	for {
		d, err := r.Next()
		if errors.Is(err, io.EOF) {
			return n, comments + strings.Join(r.Rest(), "\n")
		}
		if err != nil {
			t.Fatal(err)
		}
		n++
		comments += strings.Join(d.Comments, "\n")
	}
}

// On a disk that is read-only from the beginning the coach works as ever, the panel says that nothing is kept, before
// anything flies too, and what is flown once the disk can be written is kept.
func TestReadOnlyFromTheBeginning(t *testing.T) {
	var readOnly atomic.Bool
	readOnly.Store(true)
	b := benchOn(t, t.TempDir(), &disk{readOnly: &readOnly})
	if waiting := resume(t, b.Common, time.Now()); len(waiting) > 0 {
		t.Errorf("%d sessions wait in a folder that is not there", len(waiting))
	}
	s := b.station()
	now := time.Now().Add(-time.Hour)
	feed := func(from, to int) message.Station {
		for n := from; n < to; n++ {
			s.Datagram(line(n), now.Add(time.Duration(n)*100*time.Millisecond))
		}
		return s.session.Info(0)
	}
	for _, n := range []int{0, 50} {
		if info := feed(0, n); info.Recording != "failing" ||
			!strings.Contains(info.RecordingWords.String(), "nothing may be written in") ||
			!strings.Contains(info.RecordingWords.String(), "goes on by itself") ||
			info.Session != "" {
			t.Errorf("after %d samples it says %+v", n, info)
		}
	}
	_, _ = b.book.Mend(t.Context()) // what it says is tested there
	if _, err := b.book.List(t.Context(), logbook.Filter{}); err == nil {
		t.Error("there is a logbook on a disk that was never written")
	}
	if err := do(s, command.Choose{Choice: maneuver.Choice{Maneuver: "lazy-eight"}}); err != nil {
		t.Errorf("nothing can be chosen: %v", err)
	}
	readOnly.Store(false)
	_, _ = b.book.Mend(t.Context()) // what it says is tested there
	if info := feed(50, 100); info.Recording != "on" || !info.RecordingWords.IsZero() || info.Session == "" {
		t.Errorf("then it says %+v", info)
	}
	s.End(true)
	if got := s.session.Report().Samples; got != 100 {
		t.Errorf("%d of 100 samples were coached", got)
	}
	count, comments := readBack(t, filepath.Join(b.book.Dir(), s.id))
	if count != 50 || !strings.Contains(comments, `"lost":50`) {
		t.Errorf("%d datagrams are there; comments %s", count, comments)
	}
}

// A folder that cannot be made keeps nobody from flying: the session has its id, and the panel says that nothing is
// recorded. Once the folder can be made, the session is kept from there on, with what was chosen before, and says how
// much is missing.
func TestFolderMended(t *testing.T) {
	b := recordingOn(t, t.TempDir(), new(atomic.Bool))
	if err := os.Remove(b.book.Dir()); err != nil {
		t.Fatal(err)
	}
	b.Writer = nil // it would complain of what is wrong here
	s := b.station()
	n, now := 0, time.Now().Add(-time.Hour)
	feed := func(state string) message.Station {
		for t.Context().Err() == nil {
			s.Datagram(line(n), now.Add(time.Duration(n)*100*time.Millisecond))
			n++
			s.Tick(now.Add(time.Duration(n) * 100 * time.Millisecond))
			if info := s.Info(); info.Recording == state && n%50 == 0 {
				return info
			}
			runtime.Gosched()
		}
		return message.Station{}
	}
	failing := feed(record.Failing)
	if failing.RecordingWords.IsZero() || failing.Session == "" {
		t.Errorf("it says %+v", failing)
	}
	if err := do(s, command.Student{Name: "Ada Example"}); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(b.book.Dir(), 0o750); err != nil {
		t.Fatal(err)
	}
	info := feed(record.On)
	if info.Session != failing.Session || info.Student != "Ada Example" {
		t.Errorf("it says %+v", info)
	}
	s.End(true)
	count, comments := readBack(t, filepath.Join(b.book.Dir(), info.Session))
	missing, lost := 0, comments
	for {
		_, after, found := strings.Cut(lost, `"lost":`)
		if !found {
			break
		}
		var some int
		fmt.Sscanf(after, "%d", &some)
		missing, lost = missing+some, after
	}
	if count+missing != n || count == 0 || missing == 0 || !strings.Contains(comments, "Ada Example") {
		t.Errorf("%d datagrams of %d are there, %d said to be missing; comments %s", count, n, missing, comments)
	}
}

// TestDiskHangs: while the folder of a session cannot be made because the disk hangs, its station goes on: datagrams,
// commands, and the end of the session do not wait.
func TestDiskHangs(t *testing.T) {
	hangs := make(chan struct{})
	b := recordingOn(t, t.TempDir(), new(atomic.Bool))
	create := b.Recording.Open
	b.Recording.Open = func(name string) (record.File, error) {
		<-hangs
		return create(name)
	}
	s := b.station()
	now := time.Now().Add(-time.Hour)
	for n := range 100 {
		s.Datagram(line(n), now.Add(time.Duration(n)*100*time.Millisecond))
	}
	id := s.SessionID()
	for _, a := range []command.Action{command.Student{Name: "Ada Example"}, command.End{}} {
		if err := do(s, a); err != nil {
			t.Error(err)
		}
	}
	if info := s.Info(); info.Ended != id || id == "" {
		t.Errorf("the session %q has not ended: %+v", id, info)
	}
	close(hangs)
	b.Wait()
	if count, comments := readBack(t, filepath.Join(b.book.Dir(), id)); count != 100 ||
		!strings.Contains(comments, "Ada Example") {
		t.Errorf("%d datagrams of 100 are there; comments %s", count, comments)
	}
	s.End(true)
}

// A clock that is set back by hours in mid-session: the session, its recording and what is graded of
// it again stay what they are; of a stream without times of its own too.
func TestClockSetBack(t *testing.T) {
	for _, format := range []string{"json", "xatt"} {
		t.Run(format, func(t *testing.T) {
			var full atomic.Bool
			data := t.TempDir()
			b := recordingOn(t, data, &full)
			s := b.station()
			encoder, err := encode.New(format)
			if err != nil {
				t.Fatal(err)
			}
			pilot, err := trainer.New(trainer.Flight{Maneuver: "wing-over", Direction: "both"})
			if err != nil {
				t.Fatal(err)
			}
			var sample stream.Sample
			now, n := time.Now(), 0
			for more := true; more; n++ {
				more = pilot.Step(0.05, &sample)
				when := now.Add(time.Duration(n) * 50 * time.Millisecond)
				if n >= 1000 { // in the first leg or the second
					when = when.Add(-3 * time.Hour)
				}
				s.Datagram(encoder.Append(nil, &sample), when)
				s.Tick(when)
			}
			if info := s.session.Info(0); info.Recording != "on" || info.Session != s.id || s.session.Legs() == 0 {
				t.Errorf("it says %+v after %d legs", info, s.session.Legs())
			}
			s.End(false)
			if got, _ := readBack(t, filepath.Join(b.book.Dir(), s.id)); got != n {
				t.Errorf("%d of %d datagrams were recorded", got, n)
			}
			summary := filepath.Join(b.book.Dir(), s.id, "summary.json")
			live, err := os.ReadFile(summary)
			if err != nil {
				t.Fatal(err)
			}
			if err := os.Remove(summary); err != nil {
				t.Fatal(err)
			}
			again := recordingOn(t, data, &full)
			resume(t, again.Common, now.Add(time.Hour)) // too late to go on: it is played and ended
			played, err := os.ReadFile(summary)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(live, played) || record.Unfinished(filepath.Dir(summary)) {
				t.Errorf("graded live\n%.2000s\nand again\n%.2000s", live, played)
			}
		})
	}
}
