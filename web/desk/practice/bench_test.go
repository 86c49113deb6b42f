package practice

import (
	"fmt"
	"halfturn/coach/archive"
	"halfturn/coach/archive/queue"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/maneuver"
	"halfturn/configs"
	"halfturn/stream/record"
	"halfturn/web/desk/identity"
	"halfturn/web/desk/menu"
	"halfturn/web/desk/outlet"
	"halfturn/web/hub"
	"net/netip"
	"os"
	"path/filepath"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"github.com/rs/zerolog"
)

// A bench is what practices need to fly at, in a test.
type bench struct {
	*Common
	hub  *hub.Hub
	book *archive.Archive
}

// place is where the simulator of a test sends from.
var place = netip.MustParseAddrPort("192.168.1.20:49000")

// station begins the practice of the simulator.
func (b *bench) station() *Practice {
	return New(b.Common, place.String(), b.Directory.Of(place), place)
}

// recording is a bench that records on a disk, which is full while full says so.
func recordingOn(t *testing.T, data string, full *atomic.Bool) *bench {
	t.Helper()
	return benchOn(t, data, &disk{full: full})
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

func benchOn(t *testing.T, data string, on *disk) *bench {
	t.Helper()
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	book, err := archive.Open(data, archive.Options{
		Engine:  sqlite.Engine{},
		Version: "1",
		Await:   true,
		Lock:    func() error { return on.fails("open", filepath.Join(data, "lock")) },
	})
	if err != nil {
		t.Fatal(err)
	}
	writer := queue.New(book, func(err error) { t.Error(err) })
	t.Cleanup(func() {
		writer.Close()
		if err := book.Close(); err != nil {
			t.Error(err)
		}
	})
	cards := menu.New(lib, "")
	out := hub.New("1", zerolog.Nop())
	b := &bench{hub: out, book: book}
	b.Common = &Common{
		Menu: func() *menu.Menu { return cards },
		Directory: identity.New(identity.Config{
			Other: identity.Sender{Choice: maneuver.Choice{Maneuver: "wing-over"}},
			Book:  book,
			Check: cards.Check,
			Warn:  func(error, string, string) {}, // also while a disk fails, as it does here
		}),
		Book:      book,
		Writer:    writer,
		Recording: &Recording{Open: on.open},
		Output:    out,
		Counts:    outlet.NewCounts(),
		Version:   "1",
		Idle:      time.Minute,
		Log:       zerolog.Nop(),
		Receiver:  func(netip.AddrPort) netip.AddrPort { return netip.AddrPort{} },
		Complete:  func(string) {},
		Ended:     func(string, *debrief.Report) {},
		Over:      func() {},
	}
	t.Cleanup(b.Wait)
	return b
}

// open creates a file on the disk.
func (d *disk) open(name string) (record.File, error) {
	if err := d.fails("open", name); err != nil {
		return nil, err
	}
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	return &fileOn{f, d}, err
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
