package desk

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"net/netip"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/rs/zerolog"

	"halfturn/coach/archive"
	"halfturn/coach/archive/queue"
	"halfturn/coach/command"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/configs"
	"halfturn/stream"
	"halfturn/stream/ingest"
	"halfturn/stream/record"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
	"halfturn/web/hub"
)

// recordingDesk is a desk that records on a disk, which is full while it is told so.
func recordingDesk(t *testing.T, data string, full *atomic.Bool) (*Desk, *doer, *archive.Archive) {
	t.Helper()
	return deskOn(t, data, &disk{full: full})
}

// A disk may be full, or read-only.
type disk struct {
	full, readOnly *atomic.Bool
}

// fails is what the disk says to who does something with a file.
func (d *disk) fails(op, name string) error {
	switch {
	case d.readOnly != nil && d.readOnly.Load():
		return &os.PathError{Op: op, Path: name, Err: syscall.EROFS}
	case op == "write" && d.full != nil && d.full.Load():
		return &os.PathError{Op: op, Path: name, Err: syscall.ENOSPC}
	}
	return nil
}

func deskOn(t *testing.T, data string, on *disk) (*Desk, *doer, *archive.Archive) {
	t.Helper()
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	book, err := archive.Open(
		data,
		archive.Options{
			Engine:  sqlite.Engine{},
			Version: "1",
			Await:   true,
			Lock:    func() error { return on.fails("open", filepath.Join(data, "lock")) },
		},
	)
	if err != nil {
		t.Fatal(err)
	}
	metrics, err := ingest.NewMetrics(nil)
	if err != nil {
		t.Fatal(err)
	}
	log := zerolog.New(io.Discard)
	writer := queue.New(book, func(err error) { t.Error(err) })
	t.Cleanup(func() {
		writer.Close()
		if err := book.Close(); err != nil {
			t.Error(err)
		}
	})
	d, err := New(
		Config{
			Library:  lib,
			Maneuver: "wing-over",
			Output:   hub.New("1", log),
			Book:     book,
			Writer:   writer,
			Version:  "1",
			Metrics:  metrics,
			Log:      log,
			Recording: &Recording{Open: func(name string) (record.File, error) {
				if err := on.fails("open", name); err != nil {
					return nil, err
				}
				f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
				return &fileOn{f, on}, err
			}},
		},
		prometheus.NewRegistry(),
	)
	if err != nil {
		t.Fatal(err)
	}
	doing := &doer{handlers: map[netip.AddrPort]ingest.Handler{}}
	d.Attach(doing)
	return d, doing, book
}

// A fileOn is a file on a disk.
type fileOn struct {
	*os.File
	on *disk
}

func (f *fileOn) Write(b []byte) (int, error) {
	if err := f.on.fails("write", f.Name()); err != nil {
		return 0, err
	}
	return f.File.Write(b)
}

// A line is one sample of level flight at a time, s.
func line(at int) []byte {
	return fmt.Appendf(nil, `{"time": %d.%d, "heading": 90, "pitch": 2, "bank": 0, "airspeed": 120}`, at/10, at%10)
}

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
	d, doing, book := deskOn(t, t.TempDir(), on)
	at := netip.MustParseAddrPort("192.168.1.20:49000")
	s := d.Station(at).(*station)
	doing.handlers[at] = s
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
	s.End()
	st := s.recorder.Status()
	count, comments := readBack(t, filepath.Join(book.Dir(), id))
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
	d, doing, book := deskOn(t, t.TempDir(), &disk{readOnly: &readOnly})
	d.resume(t.Context(), time.Now())
	at := netip.MustParseAddrPort("192.168.1.20:49000")
	s := d.Station(at).(*station)
	doing.handlers[at] = s
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
	d.mend(t.Context())
	if _, err := book.List(t.Context(), logbook.Filter{}); err == nil {
		t.Error("there is a logbook on a disk that was never written")
	}
	if err := d.Do(t.Context(),
		commanded(at.String(), command.Choose{Choice: maneuver.Choice{Maneuver: "lazy-eight"}})); err != nil {
		t.Errorf("nothing can be chosen: %v", err)
	}
	readOnly.Store(false)
	d.mend(t.Context())
	if info := feed(50, 100); info.Recording != "on" || !info.RecordingWords.IsZero() || info.Session == "" {
		t.Errorf("then it says %+v", info)
	}
	s.End()
	if got := s.session.Report().Samples; got != 100 {
		t.Errorf("%d of 100 samples were coached", got)
	}
	count, comments := readBack(t, filepath.Join(book.Dir(), s.id))
	if count != 50 || !strings.Contains(comments, `"lost":50`) {
		t.Errorf("%d datagrams are there; comments %s", count, comments)
	}
}

// A data directory that cannot be written keeps nobody from flying; once it can, the session is kept
// from there on, with what was chosen before, and says how much is missing.
func TestFolderMended(t *testing.T) {
	var full atomic.Bool
	d, doing, book := recordingDesk(t, t.TempDir(), &full)
	if err := os.Remove(book.Dir()); err != nil {
		t.Fatal(err)
	}
	at := netip.MustParseAddrPort("192.168.1.20:49000")
	s := d.Station(at).(*station)
	doing.handlers[at] = s
	now := time.Now().Add(-time.Hour)
	for n := range 50 {
		s.Datagram(line(n), now.Add(time.Duration(n)*100*time.Millisecond))
	}
	if info := s.session.Info(0); info.Recording != "failing" || info.RecordingWords.IsZero() || info.Session != "" {
		t.Errorf("it says %+v", info)
	}
	if err := d.Do(t.Context(), commanded(at.String(), command.Student{Name: "Ada Example"})); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(book.Dir(), 0o750); err != nil {
		t.Fatal(err)
	}
	for n := 50; n < 100; n++ {
		s.Datagram(line(n), now.Add(time.Duration(n)*100*time.Millisecond))
	}
	s.Tick(now.Add(10 * time.Second))
	info := s.session.Info(0)
	if info.Recording != "on" || info.Session == "" || info.Student != "Ada Example" {
		t.Errorf("it says %+v", info)
	}
	s.End()
	count, comments := readBack(t, filepath.Join(book.Dir(), info.Session))
	var missing int
	if i := strings.Index(comments, `"lost":`); i >= 0 {
		fmt.Sscanf(comments[i:], `"lost":%d`, &missing)
	}
	if count+missing != 100 || count < 40 || !strings.Contains(comments, "Ada Example") {
		t.Errorf("%d datagrams are there, %d said to be missing; comments %s", count, missing, comments)
	}
}

// A clock that is set back by hours in mid-session: the session, its recording and what is graded of
// it again stay what they are; of a stream without times of its own too.
func TestClockSetBack(t *testing.T) {
	for _, format := range []string{"json", "xatt"} {
		t.Run(format, func(t *testing.T) {
			var full atomic.Bool
			data := t.TempDir()
			d, doing, book := recordingDesk(t, data, &full)
			at := netip.MustParseAddrPort("192.168.1.20:49000")
			s := d.Station(at).(*station)
			doing.handlers[at] = s
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
			d.Stopping()
			s.End()
			if got, _ := readBack(t, filepath.Join(book.Dir(), s.id)); got != n {
				t.Errorf("%d of %d datagrams were recorded", got, n)
			}
			summary := filepath.Join(book.Dir(), s.id, "summary.json")
			live, err := os.ReadFile(summary)
			if err != nil {
				t.Fatal(err)
			}
			if err := os.Remove(summary); err != nil {
				t.Fatal(err)
			}
			again, _, _ := recordingDesk(t, data, &full)
			again.resume(t.Context(), now.Add(time.Hour)) // too late to go on: it is played and ended
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
